// The test strip on the panel: made before the large print is paid for, read back when it came.
#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "host.h"
#include "print/strip.h"

namespace proofleaf::shell {

enum class TaskKind;
struct App;
struct PaperState;
struct Task;

// What came back from a strip; laid over the proof of the paper it was printed on.
struct StripReading {
  FileId paper = 0;
  std::string sentence;                // the verdict, or what the eye found
  std::vector<std::string> sentences;  // what it says of the paper
  double mean = 0, p95 = 0, max = 0;   // [dE00]; of a measured strip
  Json correction;                     // print/proofing_json.h; null: nothing to lay over
};

struct StripState {
  int sheet = 1;  // by place among the sheets
  int ways = 2;   // 1..3
  // Its parts, shares of the printed picture: as the tool picked them, and as they are.
  std::vector<print::StripPlace> picked, places;
  std::string places_key;         // what they were picked for; empty: not yet
  std::string places_failed;      // not to be asked for again by itself
  bool make_then = false;         // the strip is made once they are picked
  bool parts_shown = false;       // in the picture
  int part = 0;                   // which one the leaf shows
  std::string part_trouble;       // why it cannot go there
  int held = -1;                  // the one under the pointer that is down
  double held_x = 0, held_y = 0;  // where in it, shares of the picture
  Json order;                     // of the strip that was made last; null: none
  Json patches;                   // its steps of grey
  FileId paper = 0;
  int work = 0;
  std::string name, sentence;
  double seen_black = 3, seen_white = 97;  // [L*] first steps seen apart
  StripReading reading;
  bool lay_over = false;  // the proof follows the reading
};

// strip.cpp
void start_strip(App& app);
bool take_strip(App& app, const Task& task, const Json& json);
bool readings_expected(const App& app, const std::vector<uint8_t>& head);
// Measurements of patches: a text of any kind.
bool looks_like_text(const std::vector<uint8_t>& head);
// Asks what measurements of this paper say, beside the strip's own patches.
void read_patches(App& app, TaskKind kind, const char* op, const PaperState& paper, FileId file,
                  const std::string& name);
void readings_arrived(App& app, FileId file, const std::string& name);
void read_by_eye(App& app);
Json paper_reading(const App& app);  // for the proof's requests; null: none
bool parts_current(const App& app);  // picked for what is set now
bool parts_moved(const App& app);    // away from the tool's pick
void want_parts(App& app);           // asks for them where they are not there
void parts_failed(App& app, const Task& task);
void draw_strip(App& app);  // leaf_strip.cpp

// strip_parts.cpp
bool parts_in_picture(const App& app);
void move_part(App& app, size_t which, double x, double y);  // 0..1 of the printed picture
int part_at(const App& app, float sx, float sy);             // -1: none
bool take_hold_of_part(App& app, float sx, float sy);
void drag_part(App& app, float sx, float sy);
void draw_part_frames(App& app);  // over the picture
void draw_parts(App& app);        // on the leaf

}  // namespace proofleaf::shell
