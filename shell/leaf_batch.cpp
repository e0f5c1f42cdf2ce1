// Leaf 6: several print files at once.
#include <algorithm>

#include "app.h"
#include "words.h"
#include "words_batch.h"

namespace proofleaf::shell {
namespace {

void draw_papers(App& app) {
  Ui& ui = app.ui;
  std::vector<FileId>& chosen = app.batch.papers;
  ui.words(Face::bold, words::kBatchPapers);
  for (size_t i = 0; i < app.job.papers.size(); ++i) {
    const PaperState& paper = app.job.papers[i];
    if (!paper.loaded) continue;
    bool on = std::find(chosen.begin(), chosen.end(), paper.file) != chosen.end();
    if (!ui.toggle(text("batch-paper-%zu", i), paper.name, "", &on)) continue;
    on ? chosen.push_back(paper.file) : void(std::erase(chosen, paper.file));
  }
}

double share_of(App& app) {
  const Task* task = find_task(app, TaskKind::batch);
  return task ? task->share : 0;
}

std::string state_words(App& app, const BatchEntry& entry) {
  const Outcome& outcome = entry.outcome;
  switch (outcome.state) {
    case Made::waiting:
      return words::kBatchWaits;
    case Made::making:
      return text(words::kBatchMaking, share_of(app) * 100);
    case Made::made:
      return text(words::kBatchMade, outcome.mean, outcome.max);
    case Made::failed:
      return text(words::kBatchFailed, outcome.sentence.c_str());
  }
  return "";
}

void draw_entries(App& app) {
  Ui& ui = app.ui;
  for (const BatchEntry& entry : app.batch.entries) {
    ui.words(Face::body, entry.outcome.name);
    ui.help(state_words(app, entry));
    if (entry.outcome.state == Made::making) ui.bar(float(share_of(app)), ui.width());
  }
}

void draw_run_button(App& app) {
  Ui& ui = app.ui;
  const int all = int(app.batch.entries.size()), made = files_made(app.batch);
  if (app.batch.running) {
    ui.button("make-batch", text(words::kBatchBusy, std::min(made + 1, all), all), false,
              ui.width());
    if (ui.button("stop-batch", words::kStop, false)) stop_batch(app);
    return;
  }
  if (made == all) {
    ui.words(Face::body, words::kBatchDone);
    if (ui.button("batch-again", words::kBatchAgain, false)) forget_batch(app);
    return;
  }
  const std::string label = made > 0   ? text(words::kGoOnBatch, all - made, all)
                            : all == 1 ? words::kMakeBatchOne
                                       : text(words::kMakeBatch, all);
  if (ui.button("make-batch", label, false, ui.width())) start_batch(app);
}

}  // namespace

void draw_batch(App& app) {
  Ui& ui = app.ui;
  BatchState& batch = app.batch;
  ui.space(k16);
  if (ui.toggle("batch", words::kBatch, words::kBatchHelp, &batch.on) && batch.on &&
      batch.papers.empty())
    batch.papers.push_back(app.job.chosen_paper()->file);
  if (!batch.on) return;
  draw_papers(app);
  ui.words(Face::bold, words::kBatchSizes);
  ui.text_field("batch-sizes", words::kBatchSizes, &batch.sizes);
  ui.help(words::kBatchSizesHelp);
  if (!batch.trouble.empty()) return ui.words(Face::bold, batch.trouble);
  if (batch.entries.empty()) return;
  draw_entries(app);
  draw_run_button(app);
}

}  // namespace proofleaf::shell
