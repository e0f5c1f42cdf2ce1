// Plans several print files and makes them one after another.
#include "batch.h"

#include <algorithm>
#include <cstdlib>

#include "app.h"
#include "json_read.h"
#include "words.h"
#include "words_batch.h"

namespace proofleaf::shell {
namespace {

// The longer sides that were typed [mm]; empty where none were. A comma before a blank parts two.
Result<std::vector<double>> sizes_of(const std::string& typed) {
  std::vector<double> sizes;
  std::string spaced = typed + " ";
  for (size_t i = 0; i + 1 < spaced.size(); ++i)
    if (spaced[i] == ';' || (spaced[i] == ',' && spaced[i + 1] == ' ')) spaced[i] = ' ';
  for (size_t at = 0, end = 0; (end = spaced.find(' ', at)) != spaced.npos; at = end + 1) {
    if (end == at) continue;
    const auto cm = typed_number(std::string_view(spaced).substr(at, end - at));
    if (!cm || !(*cm >= 1 && *cm <= 2000)) return Error{words::kBatchSizesFault};
    sizes.push_back(*cm * 10);
  }
  return sizes;
}

// The recipe with its picture's longer side as long as that; its shape stays.
Recipe sized_to(const App& app, double longer_mm) {
  Recipe recipe = app.recipe.now;
  const auto plan = print_plan(app);
  if (!plan) return recipe;
  const double width = plan.value().width_mm, height = plan.value().height_mm;
  const double scale = longer_mm / std::max(width, height);
  if (!recipe.sized) recipe.size.ppi = app.job.delivery.ppi;
  recipe.sized = true;
  if (recipe.size.width_mm && recipe.size.height_mm) {
    recipe.size.width_mm = width * scale;
    recipe.size.height_mm = height * scale;
  } else if (width >= height) {
    recipe.size.width_mm = longer_mm;
    recipe.size.height_mm.reset();
  } else {
    recipe.size.height_mm = longer_mm;
    recipe.size.width_mm.reset();
  }
  return recipe;
}

struct Wanted {
  std::vector<BatchItem> items;
  std::vector<const PaperState*> papers;
};

Result<Wanted> wanted_of(const App& app) {
  const auto sizes = sizes_of(app.batch.sizes);
  if (!sizes) return sizes.error();
  Wanted wanted;
  const auto add = [&](const PaperState& paper, const Recipe& recipe) {
    wanted.items.push_back({paper.name, "", recipe});
    wanted.papers.push_back(&paper);
  };
  for (const PaperState& paper : app.job.papers) {
    const auto& chosen = app.batch.papers;
    if (!paper.loaded || std::find(chosen.begin(), chosen.end(), paper.file) == chosen.end())
      continue;
    if (sizes.value().empty()) add(paper, app.recipe.now);
    for (const double size : sizes.value()) add(paper, sized_to(app, size));
  }
  if (wanted.items.empty()) return Error{words::kBatchNone};
  return wanted;
}

Json request_for(const App& app, const Recipe& recipe) {
  Json request = delivery_request(app);
  if (changes_colours(recipe) || changes_pixels(recipe)) request["recipe"] = json_of(recipe);
  return request;
}

// Names that are in use for something else.
std::vector<std::string> taken_names(const App& app) {
  std::vector<std::string> taken = app.folder.holds;
  taken.push_back(app.job.master.name);
  for (const Outcome& each : app.batch.outcomes)
    if (each.state == Made::made) taken.push_back(each.name);
  return taken;
}

const Outcome* outcome_of(const App& app, const std::string& key) {
  for (const Outcome& each : app.batch.outcomes)
    if (each.key == key) return &each;
  return nullptr;
}

Result<std::vector<BatchEntry>> planned(const App& app) {
  auto wanted = wanted_of(app);
  if (!wanted) return wanted.error();
  const auto& items = wanted.value().items;
  const Job job = job_for_names(app);
  const std::string& pattern = app.job.delivery.pattern;
  auto prints = plan_batch(pattern, job, items);
  if (!prints) return prints.error();
  std::vector<BatchEntry> entries;
  std::vector<BatchItem> to_name;
  for (size_t i = 0; i < items.size(); ++i) {
    const PaperState& paper = *wanted.value().papers[i];
    BatchEntry entry{
        {}, paper.name, paper.file, request_for(app, items[i].recipe), prints.value()[i].plan};
    entry.outcome.key = std::to_string(app.job.master.file) + "/" + std::to_string(paper.file) +
                        "/" + prints.value()[i].name + "/" + dump_json(entry.request);
    entry.outcome.state = Made::waiting;
    const Outcome* known = outcome_of(app, entry.outcome.key);
    if (known) entry.outcome = *known;
    if (entry.outcome.state != Made::made) to_name.push_back(items[i]);
    entries.push_back(std::move(entry));
  }
  if (to_name.empty()) return entries;
  auto named = plan_batch(pattern, job, to_name, taken_names(app));
  if (!named) return named.error();
  auto next = named.value().begin();
  for (BatchEntry& entry : entries)
    if (entry.outcome.state != Made::made) entry.outcome.name = (next++)->name;
  return entries;
}

void plan(App& app) {
  BatchState& batch = app.batch;
  auto entries = planned(app);
  batch.trouble = entries ? "" : entries.error().message;
  batch.entries = entries ? entries.take() : std::vector<BatchEntry>{};
}

BatchEntry* entry_making(App& app) {
  for (BatchEntry& each : app.batch.entries)
    if (each.outcome.state == Made::making) return &each;
  return nullptr;
}

// Notes what became of the file under way.
void conclude(App& app, const Outcome& outcome) {
  std::erase_if(app.batch.outcomes, [&](const Outcome& each) { return each.key == outcome.key; });
  app.batch.outcomes.push_back(outcome);
}

void begin(App& app, BatchEntry& entry) {
  if (!paper_of(app, entry.paper_file)) {
    entry.outcome.state = Made::failed;
    entry.outcome.sentence = text(words::kPaperGone, entry.paper.c_str());
    return conclude(app, entry.outcome);
  }
  Task task;
  task.kind = TaskKind::batch;
  task.name = entry.outcome.name;
  task.words = text(words::kMaking, task.name.c_str());
  std::vector<FileUse> files = master_files(app);
  files.push_back({"paper", entry.paper_file});
  add_task(app, task, entry.request, files);
  entry.outcome.state = Made::making;
}

void end_run(App& app) {
  BatchState& batch = app.batch;
  batch.running = false;
  tell(app, text(words::kBatchEnded, files_made(batch), int(batch.entries.size())));
}

// One at a time; a run ends when its work was stopped or another master came.
void go_on(App& app) {
  BatchState& batch = app.batch;
  if (batch.master != app.job.master.file) return stop_batch(app);
  const bool under_way = find_task(app, TaskKind::batch) != nullptr;
  if (!under_way && entry_making(app)) return stop_batch(app);
  if (under_way) return;
  for (BatchEntry& each : batch.entries)
    if (each.outcome.state == Made::waiting) return begin(app, each);
  end_run(app);
}

}  // namespace

int files_made(const BatchState& batch) {
  return int(std::count_if(batch.entries.begin(), batch.entries.end(), [](const BatchEntry& each) {
    return each.outcome.state == Made::made;
  }));
}

void update_batch(App& app) {
  if (app.batch.running)
    go_on(app);
  else if (app.batch.on && app.job.leaf == Leaf::print && app.job.master.file != 0)
    plan(app);
}

void start_batch(App& app) {
  BatchState& batch = app.batch;
  std::erase_if(batch.outcomes, [](const Outcome& each) { return each.state != Made::made; });
  plan(app);
  batch.master = app.job.master.file;
  batch.running = !batch.entries.empty();
}

void stop_batch(App& app) {
  if (const Task* task = find_task(app, TaskKind::batch)) stop_task(app, task->work);
  if (BatchEntry* entry = entry_making(app)) entry->outcome.state = Made::waiting;
  end_run(app);
}

void forget_batch(App& app) { app.batch.outcomes.clear(); }

bool take_batch(App& app, const Task& task, const Json& json) {
  BatchEntry* entry = entry_making(app);
  if (!entry || text_of(json, "kind") != "delivered") return false;
  const DeliveryResult result = delivery_result(task, json);
  Outcome& outcome = entry->outcome;
  outcome.state = Made::made;
  outcome.mean = result.mean;
  outcome.max = result.max;
  conclude(app, outcome);
  note_delivery(app, result, text_of(json, "sha256"), entry->paper, entry->plan);
  save_delivery(app, task.work, task.name);
  tell(app,
       text(words::kMade, result.name.c_str(), result.width, result.height, result.bytes / 1e6));
  return true;
}

void batch_failed(App& app, const Task& task, const std::string& sentence) {
  BatchEntry* entry = entry_making(app);
  if (!entry) return;
  entry->outcome.state = Made::failed;
  entry->outcome.sentence = sentence;
  conclude(app, entry->outcome);
  notice(app, task.name + ": " + sentence);
}

Json batch_json(const App& app) {
  constexpr const char* kStates[] = {"waiting", "making", "made", "failed"};
  Json entries = Json::array();
  for (const BatchEntry& each : app.batch.entries)
    entries.push_back({{"name", each.outcome.name},
                       {"paper", each.paper},
                       {"state", kStates[int(each.outcome.state)]},
                       {"mean", each.outcome.mean},
                       {"max", each.outcome.max},
                       {"sentence", each.outcome.sentence},
                       {"width", each.plan.sheet_width},
                       {"height", each.plan.sheet_height}});
  return {{"running", app.batch.running},
          {"trouble", app.batch.trouble},
          {"pattern", app.job.delivery.pattern},
          {"saving", app.folder.saving},
          {"folder", app.folder.chosen ? Json(app.folder.name) : Json()},
          {"entries", entries}};
}

}  // namespace proofleaf::shell
