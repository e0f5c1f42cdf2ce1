// The test strip on the panel: made before the large print is paid for, read back when it came.
#pragma once

#include <string>
#include <vector>

#include "host.h"
#include "job/json.h"

namespace proofleaf::shell {

struct App;
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
  Json order;     // of the strip that was made last; null: none
  Json patches;   // its steps of grey
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
void readings_arrived(App& app, FileId file, const std::string& name);
void read_by_eye(App& app);
Json paper_reading(const App& app);  // for the proof's requests; null: none
void draw_strip(App& app);           // leaf_strip.cpp

}  // namespace proofleaf::shell
