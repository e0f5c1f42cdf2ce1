// Print files' names, where they go, and several of them made one after another.
#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "host.h"
#include "sheet/names.h"

namespace proofleaf::shell {

struct App;
struct Task;

enum class Made { waiting, making, made, failed };

// What became of a file; kept, so that what is made is not made again.
struct Outcome {
  std::string key;  // everything the file depends on, and the name the pattern gives it
  std::string name;
  Made state = Made::made;
  double mean = 0, max = 0;  // of its check [dE00]
  std::string sentence;      // why it could not be made
};

struct BatchEntry {
  Outcome outcome;
  std::string paper;
  FileId paper_file = 0;
  Json request;
  print::PrintPlan plan;
};

struct BatchState {
  bool on = false;
  std::vector<FileId> papers;  // chosen for it
  std::string sizes;           // longer sides [cm], as typed
  std::string trouble;         // why nothing can be planned
  std::vector<BatchEntry> entries;
  std::vector<Outcome> outcomes;
  bool running = false;
  FileId master = 0;  // the run began with
};

// Where print files go: a folder, else the browser's downloads.
struct FolderState {
  bool chosen = false;
  std::string name;
  std::vector<std::string> holds;  // names of files
  int saving = 0;                  // files on their way into it
};

// batch.cpp
void update_batch(App& app);  // plans, or goes on with the next file
int files_made(const BatchState& batch);
void start_batch(App& app);
void stop_batch(App& app);
void forget_batch(App& app);  // all files are to be made anew
bool take_batch(App& app, const Task& task, const Json& json);
void batch_failed(App& app, const Task& task, const std::string& sentence);
Json batch_json(const App& app);

// file_names.cpp
// The job as far as names go.
Job job_for_names(const App& app);
// By the pattern, without regard to what the folder holds. Error: the pattern's, or the size's.
Result<std::string> pattern_name(const App& app);
// The print file's name without its ending, for what belongs to it.
std::string print_base(const App& app);
// Hands a delivery over: into the folder, else to the downloads.
void save_delivery(App& app, int work, const std::string& name);
void folder_chosen(App& app, const std::string& name, const std::string& names, bool refused);
// outcome: "saved", "exists", "refused", "gone".
void delivery_saved(App& app, const std::string& name, const std::string& outcome);

// leaf_names.cpp, leaf_batch.cpp
void draw_names(App& app);
void draw_folder(App& app);
void draw_batch(App& app);

}  // namespace proofleaf::shell
