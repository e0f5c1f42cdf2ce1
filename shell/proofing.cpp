// Keeps the cubes, the layers of the picture and the stretch in full detail up with the job.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "job/words.h"
#include "json_read.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

constexpr size_t kKeptBytes = 100u << 20;  // of exact cubes, so that going back is quick
constexpr size_t kPixelsBetween = 61;      // those counted at first; seldom a picture's own rhythm
constexpr double kStill = 0.2;             // the view rests that long before detail is fetched [s]
constexpr double kMostDetail = 8e6;        // of one stretch [pixels]

Json cube_request(const App& app, const CubeSlot& slot) {
  Json request = {
      {"op", "cube"},
      {"screen", word_for(app.surroundings.display_p3 ? Screen::display_p3 : Screen::srgb)}};
  if (!slot.proof) return request;
  request["intent"] = word_for(app.job.print.intent);
  request["black_point_compensation"] = app.job.print.black_point_compensation;
  request["paper_white"] = app.job.proof_view.paper_white;
  request["paper_black"] = app.job.proof_view.paper_black;
  if (const Json colours = colours_of_recipe(app); !colours.is_null()) request["recipe"] = colours;
  return request;
}

// Everything a cube depends on, apart from its grid.
std::string cube_key(const App& app, const CubeSlot& slot) {
  const PaperState* paper = app.job.chosen_paper();
  if (app.job.master.file == 0 || (slot.proof && !paper)) return "";
  return std::to_string(app.job.master.version) + "/" +
         std::to_string(slot.proof ? paper->file : 0) + "/" + dump_json(cube_request(app, slot));
}

void ask_cube(App& app, CubeSlot& slot, uint32_t grid) {
  Json request = cube_request(app, slot);
  request["grid"] = grid;
  std::vector<FileUse> files = {{"profile", app.job.master.profile_file}};
  if (slot.proof) files.push_back({"paper", app.job.chosen_paper()->file});
  // The way from the master straight to the screen is smooth: refining is for papers.
  if (slot.proof && grid == kProofGrid) {
    files.push_back({"blocks", app.blocks_file});
    files.push_back({"picture", app.job.master.picture_file});
  }
  Task task;
  task.kind = TaskKind::cube;
  task.proof_cube = slot.proof;
  task.key = slot.wanted;
  task.grid = grid;
  task.words = slot.proof ? words::kProofing : words::kScreening;
  task.since = now();
  task.work = app.host.start(dump_json(request), files);
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

// Notes which parts of the cube the picture uses, so that the exact cube is finest there.
void keep_blocks(App& app, const Cube& cube) {
  // A master's shaper is the same on every paper.
  if (app.blocks_file != 0 && app.blocks_version == app.job.master.version &&
      app.blocks_shaper == cube.shaper)
    return;
  if (app.blocks_file != 0) app.host.drop_file(app.blocks_file);
  app.blocks_file = app.host.keep_bytes("blocks", blocks_used(cube, app.preview.rgb));
  app.blocks_shaper = cube.shaper;
  app.blocks_version = app.job.master.version;
}

// The quick cube comes without counts: a part of the preview's pixels will do until the exact one.
OffGamut counts_for(const App& app, const Cube& cube, const std::vector<uint32_t>& counted) {
  OffGamut off;
  if (counted.size() != off.at_least.size())
    return count_off_gamut(cube, app.preview.rgb, kPixelsBetween);
  std::copy(counted.begin(), counted.end(), off.at_least.begin());
  return off;
}

void keep_cube(App& app, std::shared_ptr<const ScreenCube> cube) {
  auto& kept = app.kept_cubes;
  kept.push_back(std::move(cube));
  size_t bytes = 0;
  for (const auto& each : kept) bytes += each->bytes();
  while (bytes > kKeptBytes && kept.size() > 1) {
    bytes -= kept.front()->bytes();
    kept.erase(kept.begin());
  }
}

// Ends work for settings that are no longer wanted.
void stop_cubes(App& app, const CubeSlot& slot) {
  std::erase_if(app.tasks, [&](const Task& task) {
    const bool old =
        task.kind == TaskKind::cube && task.proof_cube == slot.proof && task.key != slot.wanted;
    if (old) app.host.cancel(task.work);
    return old;
  });
}

void remember_shown(App& app) { app.shown = {app.job.paper, app.job.print, app.job.proof_view}; }

void change_wanted(App& app, CubeSlot& slot, const std::string& key) {
  if (slot.proof) app.proof_cost = {};
  slot.wanted = key;
  slot.failed.clear();
  stop_cubes(app, slot);
  if (key.empty()) return slot.cube.reset();
  const auto kept = std::find_if(app.kept_cubes.begin(), app.kept_cubes.end(),
                                 [&](const auto& cube) { return cube->key == key; });
  if (kept == app.kept_cubes.end()) return;
  std::rotate(kept, kept + 1, app.kept_cubes.end());
  slot.cube = app.kept_cubes.back();
  if (slot.proof) remember_shown(app);
}

// Papers, quick cubes and stretches in view come before the exact cubes: all share one worker.
bool worker_is_wanted(const App& app) {
  return std::any_of(app.tasks.begin(), app.tasks.end(), [](const Task& task) {
    return task.kind == TaskKind::paper || task.kind == TaskKind::crop ||
           (task.kind == TaskKind::cube && task.grid == kQuickGrid);
  });
}

// A quick cube first, then the exact one.
void ask_next(App& app, CubeSlot& slot) {
  const bool asked = std::any_of(app.tasks.begin(), app.tasks.end(), [&](const Task& task) {
    return task.kind == TaskKind::cube && task.proof_cube == slot.proof;
  });
  if (asked || slot.wanted.empty() || slot.exact() || slot.failed == slot.wanted) return;
  const bool first = !slot.cube || slot.cube->key != slot.wanted;
  if (first) {
    put_off_exact_cubes(app);
    ask_cube(app, slot, kQuickGrid);
  } else if (!worker_is_wanted(app)) {
    ask_cube(app, slot, kProofGrid);
  }
}

void update_slot(App& app, CubeSlot& slot) {
  const std::string key = cube_key(app, slot);
  if (key != slot.wanted) change_wanted(app, slot, key);
  ask_next(app, slot);
}

void swap_in_crop(App& app) {
  if (app.next_crop.empty() || !picture_current(app, app.next_crop)) return;
  app.gl.drop(app.crop.master);
  app.gl.drop(app.crop.proof);
  app.crop = std::move(app.next_crop);
  app.next_crop = Picture{};
}

struct Stretch {
  double left, top, right, bottom;  // [master pixels]
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};

// What is in view, with a margin of `margin` times its size, on whole pixels.
Stretch in_view(const App& app, double margin) {
  Stretch all{1e9, 1e9, 0, 0};
  const double w = app.job.master.width, h = app.job.master.height;
  for (const Pane& pane : panes(app)) {
    const Rect place = picture_place(app, pane);
    const double scale = w / place.w;
    const double more_x = pane.rect.w * margin, more_y = pane.rect.h * margin;
    all.left = std::min(all.left, (pane.rect.x - more_x - place.x) * scale);
    all.right = std::max(all.right, (pane.rect.right() + more_x - place.x) * scale);
    all.top = std::min(all.top, (pane.rect.y - more_y - place.y) * scale);
    all.bottom = std::max(all.bottom, (pane.rect.bottom() + more_y - place.y) * scale);
  }
  return {std::floor(std::clamp(all.left, 0.0, w)), std::floor(std::clamp(all.top, 0.0, h)),
          std::ceil(std::clamp(all.right, 0.0, w)), std::ceil(std::clamp(all.bottom, 0.0, h))};
}

bool covers(const Picture& picture, const Stretch& stretch) {
  return !picture.empty() && picture.x <= stretch.left && picture.y <= stretch.top &&
         picture.x + picture.width >= stretch.right && picture.y + picture.height >= stretch.bottom;
}

bool wants_detail(const App& app) {
  if (app.preview.empty() || app.preview.columns >= app.job.master.width) return false;
  const double preview_scale = double(app.preview.columns) / app.job.master.width;
  return zoom_of(app, panes(app).front()) > preview_scale * 1.1;
}

void ask_crop(App& app, const Stretch& stretch) {
  put_off_exact_cubes(app);
  Task task;
  task.kind = TaskKind::crop;
  task.words = words::kDetailing;
  task.since = now();
  const Json request = {{"op", "crop"},
                        {"assume", app.job.master.assume},
                        {"x", uint32_t(stretch.left)},
                        {"y", uint32_t(stretch.top)},
                        {"width", uint32_t(stretch.width())},
                        {"height", uint32_t(stretch.height())}};
  task.work = app.host.start(dump_json(request), master_files(app));
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

void update_crop(App& app) {
  if (!wants_detail(app)) {
    if (Task* task = find_task(app, TaskKind::crop)) stop_task(app, task->work);
    return;
  }
  const Stretch needed = in_view(app, 0);
  if (covers(app.crop, needed) || covers(app.next_crop, needed)) return;
  if (now() - app.view_still_since < kStill || find_task(app, TaskKind::crop)) return;
  Stretch wide = in_view(app, 0.3);
  const double side = app.gl.largest_side();
  if (wide.width() * wide.height() > kMostDetail || wide.width() > side || wide.height() > side)
    wide = needed;
  if (wide.width() * wide.height() > kMostDetail || wide.width() < 1 || wide.height() < 1) return;
  ask_crop(app, wide);
}

}  // namespace

void update_proof(App& app) {
  update_slot(app, app.proof_cube);
  update_slot(app, app.master_cube);
  update_layers(app);
  swap_in_crop(app);
  update_crop(app);
}

void take_cube(App& app, const Task& task, ByteView packed,
               const std::vector<uint32_t>& off_gamut) {
  CubeSlot& slot = task.proof_cube ? app.proof_cube : app.master_cube;
  if (task.key != slot.wanted) return;
  ProofCost other;
  const CostOfScope cost(slot.proof ? app.proof_cost : other);
  Result<Cube> cube = unpack_cube(packed);
  if (!cube) {
    notice(app, cube.error().message);
    return cube_failed(app, task);
  }
  auto made = std::make_shared<ScreenCube>(ScreenCube{cube.take(), task.key, {}});
  if (slot.proof) made->off_gamut = counts_for(app, made->cube, off_gamut);
  slot.cube = std::move(made);
  if (slot.proof) remember_shown(app);
  if (slot.cube->grid() >= kProofGrid) return keep_cube(app, slot.cube);
  keep_blocks(app, slot.cube->cube);
}

void cube_failed(App& app, const Task& task) {
  CubeSlot& slot = task.proof_cube ? app.proof_cube : app.master_cube;
  if (task.key != slot.wanted) return;
  slot.failed = slot.wanted;
  if (!slot.proof || (slot.cube && slot.cube->key == slot.wanted)) return;
  app.job.paper = app.shown.paper;  // the settings that can be shown
  app.job.print = app.shown.print;
  app.job.proof_view = app.shown.view;
}

void put_off_exact_cubes(App& app) {
  std::erase_if(app.tasks, [&](const Task& task) {
    const bool exact = task.kind == TaskKind::cube && task.grid == kProofGrid;
    if (exact) app.host.cancel(task.work);
    return exact;
  });
}

bool proof_ready(const App& app) {
  return !app.preview.empty() && app.proof_cube.exact() && app.master_cube.exact() &&
         !app.proof_cube.wanted.empty() && picture_current(app, app.preview) &&
         cube_key(app, app.proof_cube) == app.proof_cube.wanted;
}

bool proof_busy(const App& app) {
  return app.proof_gl.waiting() || !picture_current(app, app.preview) ||
         !picture_current(app, app.crop) || !picture_current(app, app.next_crop) ||
         (wants_detail(app) && now() - app.view_still_since < kStill + 0.05);
}

}  // namespace proofleaf::shell
