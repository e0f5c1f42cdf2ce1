// What a tab that the system closed (for want of memory, or behind others) needs to go on where it
// was: the job and the view. The page keeps it while the tab lives (web/page/kept.js).
#pragma once

#include <string>

#include "base/json.h"

namespace proofleaf::shell {

struct App;
struct PaperState;

struct LeftWork {
  Json waiting;       // for its master to be opened; null: nothing
  std::string paper;  // SHA-256 of the profile to be chosen when it comes; empty: none
};

// The work as it stands; empty while there is none.
std::string work_as_json(const App& app);
// with_master: the page brings the master as well, else the person is asked for it. What cannot be
// read is passed over.
void take_left_work(App& app, const std::string& json, bool with_master);
// To be called once a master is open or a paper has been read.
void go_on_with_master(App& app);
void go_on_with_paper(App& app, int index);

}  // namespace proofleaf::shell
