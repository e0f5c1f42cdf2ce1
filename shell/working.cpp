#include "working.h"

#include <algorithm>
#include <utility>

#include "app.h"
#include "raster/preview.h"
#include "words_working.h"

namespace proofleaf::shell {
namespace {

double megapixels(uint64_t pixels) { return double(pixels) / 1e6; }

uint64_t pixels_of(const Picture& preview) { return uint64_t{preview.columns} * preview.rows; }

// What is to be opened again, and at which size.
SmallerOpening smaller_than(const App& app, FileId file, const std::string& name, uint32_t tried) {
  SmallerOpening next{file, name, 0, 0, 0, ""};
  const MasterState& master = app.job.master;
  const bool known = file == master.file;
  next.pixels = smaller_working_pixels(tried, known ? pixels_of(app.preview) : 0);
  if (!known || next.pixels == 0) return next;
  const uint32_t factor = shrink_factor(master.width, master.height, next.pixels);
  next.columns = (master.width + factor - 1) / factor;
  next.rows = (master.height + factor - 1) / factor;
  return next;
}

}  // namespace

bool working_size_matters(const Task& task) {
  return task.kind == TaskKind::open || task.kind == TaskKind::cube ||
         task.kind == TaskKind::facts || task.kind == TaskKind::contrast ||
         task.kind == TaskKind::offer || task.kind == TaskKind::strip_places;
}

std::string offer_smaller(App& app, const Task& task) {
  const MasterState& master = app.job.master;
  const bool opening = task.kind == TaskKind::open;
  const std::string& name = opening ? task.name : master.name;
  const uint32_t tried = opening ? task.pixels : app.working_pixels;
  SmallerOpening next = smaller_than(app, opening ? task.file : master.file, name, tried);
  next.sentence = next.pixels == 0 ? text(words::kStarvedAtLast, name.c_str(),
                                          megapixels(kSmallestWorkingPixels))
                                   : text(words::kStarved, name.c_str(), megapixels(tried));
  const std::string said = next.sentence;
  // The proof and the master's own picture often fail together.
  if (app.smaller && app.smaller->sentence == said && app.job.last_notice == said) return said;
  if (!app.smaller || app.smaller->file != next.file) forget_smaller(app);
  app.smaller.reset();
  if (next.pixels > 0) app.smaller = std::move(next);
  notice(app, said);
  if (app.smaller) tell(app, words::kSmallerAtHand);
  return said;
}

void forget_smaller(App& app) {
  const auto gone = std::exchange(app.smaller, std::nullopt);
  if (!gone) return;
  std::erase_if(app.job.notices,
                [&](const Notice& each) { return each.sentence == gone->sentence; });
  if (gone->file != app.job.master.file) app.host.drop_file(gone->file);
}

void open_smaller(App& app) {
  if (!app.smaller) return;
  const SmallerOpening wanted = *app.smaller;
  std::erase_if(app.job.notices,
                [&](const Notice& each) { return each.sentence == wanted.sentence; });
  open_master(app, wanted.file, wanted.name, wanted.pixels);
}

std::string smaller_label(const SmallerOpening& smaller) {
  if (smaller.columns > 0) return text(words::kReopenKnown, smaller.columns, smaller.rows);
  return text(words::kReopen, megapixels(smaller.pixels));
}

void draw_smaller(App& app) {
  if (!app.smaller || find_task(app, TaskKind::open)) return;
  app.ui.words(Face::body, app.smaller->sentence);
  app.ui.space(k8);
  if (app.ui.button("reopen-smaller", smaller_label(*app.smaller), true)) open_smaller(app);
  app.ui.space(k16);
}

void draw_working_size(App& app) {
  const MasterState& m = app.job.master;
  if (app.working_pixels >= kUsualWorkingPixels || app.preview.columns >= m.width) return;
  app.ui.help(text(words::kWorkingSmall, app.preview.columns, app.preview.rows));
  if (app.ui.word_button("working-usual", words::kWorkingUsual))
    open_master(app, m.file, m.name, kUsualWorkingPixels);
}

}  // namespace proofleaf::shell
