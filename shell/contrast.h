// Local contrast in the proof: a worker makes the preview and the tiles with it, as the print file
// gets it; what the master shows stays as it is.
#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "host.h"

namespace proofleaf::shell {

struct App;
struct Buffer;
struct Task;

struct ContrastState {
  std::string used;    // what the preview and the tiles were made for; empty: none
  std::string failed;  // not to be asked for again
  double amount = 0;   // of what is used
  FileId picture = 0;  // the preview with it
  FileId guide = 0;    // fit/local_contrast.h, packed
};

void update_contrast(App& app);
bool take_contrast(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers);
void contrast_failed(App& app, const Task& task, const std::string& sentence);
bool contrast_current(const App& app);  // what is shown has as much as is wanted
// The preview's samples as they are printed; its file for requests.
const std::vector<uint16_t>& printed_samples(const App& app);
FileId printed_picture(const App& app);

}  // namespace proofleaf::shell
