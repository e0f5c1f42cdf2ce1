// The person's own papers: brought one by one, in a folder or in a parcel, kept in the browser's
// own storage between visits (names of the person's own: paper_names.cpp).
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "base/json.h"
#include "host.h"

namespace proofleaf::shell {

struct App;
struct Buffer;
struct PaperState;

// A profile that waits for its turn to be read.
struct ArrivedPaper {
  FileId file = 0;
  std::string name;
  bool choose = false;  // becomes the chosen one
  bool own = false;     // brought by the person, now or at an earlier visit
  bool kept = false;    // comes from the shelf
};

struct ShelfState {
  std::deque<ArrivedPaper> waiting;
  ArrivedPaper reading;  // the one under way; file 0: none
  int unpacking = 0;     // work that opens a parcel; 0: none
  FileId parcel = 0;     // its file
  std::string parcel_name;
  int kept = 0;          // papers in the browser's storage
  bool refused = false;  // the browser keeps nothing
  bool asking = false;   // whether all are to be forgotten
};

// A paper's key on the shelf: its profile's bytes in 16 hex digits (FNV-1a, 64 bits).
std::string shelf_key(const std::vector<uint8_t>& profile);

void paper_arrived(App& app, ArrivedPaper paper);
void parcel_arrived(App& app, FileId file, const std::string& name);
void update_shelf(App& app);  // reads the next one that waits
// True when the work was a parcel's.
bool parcel_answered(App& app, int work, const std::string& json, std::vector<Buffer>& buffers);
bool parcel_failed(App& app, int work, const std::string& sentence);
// A paper has just been read: puts it on the shelf.
void shelve(App& app, FileId file, PaperState& paper);
// A folder was looked through; cut: it holds more than is looked at.
void folder_seen(App& app, const std::string& name, int papers, bool cut);
// What became of the browser's storage: "kept", "refused", "full", "cleared"; count: papers in it.
void shelf_told(App& app, const std::string& outcome, int count);

// leaf_shelf.cpp
void draw_shelf(App& app);        // what is kept, and the button to forget it all
Json shelf_json(const App& app);  // for state_json

}  // namespace proofleaf::shell
