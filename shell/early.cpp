#include "early.h"

#include <utility>

#include "app.h"
#include "json_read.h"

namespace proofleaf::shell {
namespace {

const CubeSlot& slot_of(const App& app) {
  return app.early.stage == EarlyCubes::Stage::proof ? app.proof_cube : app.master_cube;
}

void let_go_of_profile(App& app) {
  if (const FileId file = std::exchange(app.early.profile_file, 0); file != 0)
    app.host.drop_file(file);
}

void begin_cube(App& app, EarlyCubes::Stage stage) {
  EarlyCubes& early = app.early;
  early.stage = stage;
  const CubeSlot& slot = slot_of(app);
  early.asked = cube_key(app, slot, early.version);
  // Once the master is open the cube is asked for in the usual way.
  const bool late = app.job.master.version >= early.version;
  if (!late && !early.asked.empty())
    early.work = app.host.start(dump_json(cube_request(app, slot, kQuickGrid)),
                                cube_files(app, slot, early.profile_file));
  if (stage == EarlyCubes::Stage::master || late) return let_go_of_profile(app);
  if (early.work == 0) begin_cube(app, EarlyCubes::Stage::master);
}

void take_profile(App& app, std::vector<Buffer>& buffers) {
  const Bytes icc = buffer_of(buffers, "profile");
  if (icc.empty()) return;
  app.early.profile_file = app.host.keep_bytes("master.icc", icc);
  begin_cube(app, EarlyCubes::Stage::proof);
}

void take_cube_early(App& app, std::vector<Buffer>& buffers) {
  EarlyCubes& early = app.early;
  const bool proof = early.stage == EarlyCubes::Stage::proof;
  if (auto cube = unpack_cube(buffer_of(buffers, "cube")))
    early.made[proof] = std::make_shared<ScreenCube>(ScreenCube{cube.take(), early.asked, {}});
  early.asked.clear();
  if (proof) begin_cube(app, EarlyCubes::Stage::master);
}

}  // namespace

void begin_early_cubes(App& app, const std::string& assume, const std::vector<FileUse>& files) {
  end_early_cubes(app);
  if (const int under_way = std::exchange(app.early.work, 0)) app.host.cancel(under_way);
  app.early = EarlyCubes{};
  app.early.version = app.job.master.version + 1;
  app.early.work = app.host.start(dump_json({{"op", "profile"}, {"assume", assume}}), files);
}

void end_early_cubes(App& app) {
  let_go_of_profile(app);
  if (app.early.stage != EarlyCubes::Stage::profile) return;
  if (const int under_way = std::exchange(app.early.work, 0)) app.host.cancel(under_way);
}

bool early_answered(App& app, int work, std::vector<Buffer>& buffers) {
  if (work != app.early.work || work == 0) return false;
  app.early.work = 0;
  if (app.early.stage == EarlyCubes::Stage::profile) {
    take_profile(app, buffers);
  } else {
    take_cube_early(app, buffers);
  }
  return true;
}

bool early_failed(App& app, int work) {
  if (work != app.early.work || work == 0) return false;
  app.early.work = 0;  // what is wrong is told by the opening itself, or by the cube asked for then
  app.early.asked.clear();
  let_go_of_profile(app);
  return true;
}

bool early_comes(const App& app, const std::string& key) {
  return app.early.work != 0 && !key.empty() && app.early.asked == key;
}

std::shared_ptr<ScreenCube> take_early_cube(App& app, const CubeSlot& slot,
                                            const std::string& key) {
  auto& made = app.early.made[slot.proof];
  if (!made || made->key != key) return nullptr;
  return std::exchange(made, nullptr);
}

}  // namespace proofleaf::shell
