// Keeps the cubes up with the job.
#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "proof/words.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

constexpr size_t kKeptBytes = 100u << 20;  // of exact cubes, so that going back is quick
constexpr size_t kPixelsBetween = 61;      // those counted at first; seldom a picture's own rhythm

Json cube_settings(const App& app, const CubeSlot& slot) {
  Json request = {
      {"op", "cube"},
      {"screen", word_for(app.surroundings.display_p3 ? Screen::display_p3 : Screen::srgb)}};
  if (const Json check = screen_correction(app); !check.is_null())
    request["screen_answers"] = check;
  if (!slot.proof) return request;
  request["intent"] = word_for(app.job.print.intent);
  request["black_point_compensation"] = app.job.print.black_point_compensation;
  request["paper_white"] = app.job.proof_view.paper_white;
  request["paper_black"] = app.job.proof_view.paper_black;
  if (const Json colours = colours_of_recipe(app); !colours.is_null()) request["recipe"] = colours;
  if (const Json reading = paper_reading(app); !reading.is_null()) request["reading"] = reading;
  return request;
}

std::string present_key(const App& app, const CubeSlot& slot) {
  return app.job.master.file == 0 ? "" : cube_key(app, slot, app.job.master.version);
}

void ask_cube(App& app, CubeSlot& slot, uint32_t grid) {
  std::vector<FileUse> files = cube_files(app, slot, app.job.master.profile_file);
  // The way from the master straight to the screen is smooth: refining is for papers.
  if (slot.proof && grid == kProofGrid) {
    files.push_back({"blocks", app.blocks_file});
    files.push_back({"picture", printed_picture(app)});
  }
  Task task;
  task.kind = TaskKind::cube;
  task.proof_cube = slot.proof;
  task.key = slot.wanted;
  task.grid = grid;
  task.words = slot.proof ? words::kProofing : words::kScreening;
  task.since = now();
  task.work = app.host.start(dump_json(cube_request(app, slot, grid)), files);
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

// Notes which parts of the cube the picture uses, so that the exact cube is finest there.
void keep_blocks(App& app, const Cube& cube) {
  // A master's shaper is the same on every paper.
  const std::string key = std::to_string(app.job.master.version) + "/" + app.contrast.used;
  if (app.blocks_file != 0 && app.blocks_key == key && app.blocks_shaper == cube.shaper) return;
  if (app.blocks_file != 0) app.host.drop_file(app.blocks_file);
  app.blocks_file = app.host.keep_bytes("blocks", blocks_used(cube, printed_samples(app)));
  app.blocks_shaper = cube.shaper;
  app.blocks_key = key;
}

// The quick cube comes without counts: a part of the preview's pixels will do until the exact one.
OffGamut counts_for(const App& app, const Cube& cube, const std::vector<uint32_t>& counted) {
  OffGamut off;
  if (counted.size() != off.at_least.size())
    return count_off_gamut(cube, printed_samples(app), kPixelsBetween);
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

void remember_shown(App& app) { app.shown = {app.job.paper, app.job.print, app.job.proof_view}; }

// A cube that was wanted is here. After a quick one the exact one is asked for.
void show_cube(App& app, CubeSlot& slot, std::shared_ptr<const ScreenCube> cube) {
  slot.cube = std::move(cube);
  if (slot.proof) remember_shown(app);
  if (slot.cube->grid() >= kProofGrid) return keep_cube(app, slot.cube);
  keep_blocks(app, slot.cube->cube);
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

void look_for_early(App& app, CubeSlot& slot) {
  auto early = take_early_cube(app, slot, slot.wanted);
  if (!early) return;
  if (slot.proof) early->off_gamut = counts_for(app, early->cube, {});
  show_cube(app, slot, std::move(early));
}

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
  if (early_comes(app, slot.wanted)) return;
  const bool first = !slot.cube || slot.cube->key != slot.wanted;
  if (first) {
    put_off_exact_cubes(app);
    ask_cube(app, slot, kQuickGrid);
  } else if (!worker_is_wanted(app)) {
    ask_cube(app, slot, kProofGrid);
  }
}

void update_slot(App& app, CubeSlot& slot) {
  const std::string key = present_key(app, slot);
  if (key != slot.wanted) change_wanted(app, slot, key);
  if (!slot.cube || slot.cube->key != key) look_for_early(app, slot);
  ask_next(app, slot);
}

}  // namespace

std::string cube_key(const App& app, const CubeSlot& slot, int version) {
  const PaperState* paper = app.job.chosen_paper();
  if (slot.proof && !paper) return "";
  return std::to_string(version) + "/" + std::to_string(slot.proof ? paper->file : 0) + "/" +
         dump_json(cube_settings(app, slot)) + (slot.proof ? app.contrast.used : "");
}

Json cube_request(const App& app, const CubeSlot& slot, uint32_t grid) {
  Json request = cube_settings(app, slot);
  request["grid"] = grid;
  return request;
}

std::vector<FileUse> cube_files(const App& app, const CubeSlot& slot, FileId master_profile) {
  std::vector<FileUse> files = {{"profile", master_profile}};
  if (slot.proof) files.push_back({"paper", app.job.chosen_paper()->file});
  return files;
}

void update_proof(App& app) {
  update_slot(app, app.proof_cube);
  update_slot(app, app.master_cube);
  update_layers(app);
  update_detail(app);
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
  show_cube(app, slot, std::move(made));
}

void add_to_proof_cost(App& app, int work, double seconds) {
  for (const Task& task : app.tasks)
    if (task.work == work && task.proof_cube && task.key == app.proof_cube.wanted)
      app.proof_cost.seconds += seconds;
}

void cube_failed(App& app, const Task& task, bool go_back) {
  CubeSlot& slot = task.proof_cube ? app.proof_cube : app.master_cube;
  if (task.key != slot.wanted) return;
  slot.failed = slot.wanted;
  if (!go_back || !slot.proof || (slot.cube && slot.cube->key == slot.wanted)) return;
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
         contrast_current(app) && present_key(app, app.proof_cube) == app.proof_cube.wanted;
}

bool proof_busy(const App& app) {
  return app.proof_gl.waiting() || !picture_current(app, app.preview) || detail_waits(app);
}

}  // namespace proofleaf::shell
