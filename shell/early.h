// The quick cubes of a master that is still being opened: they need its profile alone, which stands
// in the file's first bytes, so that the proof is there as soon as the picture is.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "host.h"
#include "picture.h"

namespace proofleaf::shell {

struct App;
struct Buffer;
struct CubeSlot;

struct EarlyCubes {
  enum class Stage { profile, proof, master };  // one after the other, in one worker
  Stage stage = Stage::profile;
  int work = 0;                                     // of the stage; 0: nothing is under way
  int version = 0;                                  // the master's, once it is open
  FileId profile_file = 0;                          // in which it tells its colours
  std::string asked;                                // what the cube under way is wanted for
  std::array<std::shared_ptr<ScreenCube>, 2> made;  // of the master's slot and of the proof's
};

// Begins them beside the opening of a master out of these files; ends those of an earlier one.
void begin_early_cubes(App& app, const std::string& assume, const std::vector<FileUse>& files);
// The master is open, or will not be: nothing more is begun.
void end_early_cubes(App& app);
// False: the work is another's.
bool early_answered(App& app, int work, std::vector<Buffer>& buffers);
bool early_failed(App& app, int work);
// Whether a cube for this is under way and will be here in a moment.
bool early_comes(const App& app, const std::string& key);
// The cube made for this, given away; none: ask for one.
std::shared_ptr<ScreenCube> take_early_cube(App& app, const CubeSlot& slot, const std::string& key);

}  // namespace proofleaf::shell
