// The condition report in the panel: what the engine found on the master, and the walk from one
// place of it to the next. One home for all of it, so that JobState stays small.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/json.h"

namespace proofleaf::shell {

struct App;

// A box on the upright master [pixels].
struct Box {
  double x = 0, y = 0, w = 0, h = 0;
};

enum class Severity { act, look, good };

struct Finding {
  std::string id;
  Severity severity = Severity::good;
  std::string title, what, why, todo;  // todo: what to do about it
  std::string value;                   // with its unit, as shown; may be empty
  std::vector<Box> places;             // biggest first
};

struct Spot {
  Box box;
  double diameter = 0;  // [pixels]
  double contrast = 0;  // [L*] negative: darker than its surround
};

struct PrintSize {
  double ppi = 0, width_cm = 0, height_cm = 0, distance_cm = 0;
};

struct Report {
  double print_ppi = 300, dust_px = 0;
  std::vector<Finding> findings;  // act, look, good
  std::vector<std::string> unsaid;
  std::vector<Spot> spots;  // strongest first
  std::vector<PrintSize> sizes;
  int act = 0, look = 0, good = 0;  // findings of each severity

  const Finding* find(const std::string& id) const;
};

// Reads an answer of the kind "condition" (engine/job/work.h); nothing where it is another thing.
// What is missing or of another type is left out.
std::optional<Report> report_from(const Json& json);
// "1 thing to mend, 2 to look at", or that nothing was found.
std::string summary_words(const Report& report);

struct ConditionState {
  double dust_mm = 0.5;  // smallest spot on the print that counts
  double width_cm = 0;   // of the print; 0: the width at 300 ppi
  int work = 0;          // under way; 0: none
  double share = 0;
  std::string asked;     // what the work, or the report there is, was asked for
  bool stopped = false;  // by the person: not asked for again by itself
  std::string failed;    // a sentence
  std::optional<Report> report;
  Json answer;      // the report as the engine gave it, for the saved report
  int version = 0;  // of the master the report is about

  std::string open;  // id of the finding whose words are shown
  std::string walk;  // id of the finding whose places are walked; empty: none
  int at = 0;        // which of them
};

// condition.cpp: keeps the report up with the master, after all work that is more urgent.
void update_condition(App& app);
void ask_condition_again(App& app);
void stop_condition(App& app);
// True when the work was the report's.
bool condition_answered(App& app, int work, const std::string& json);
bool condition_failed(App& app, int work, const std::string& sentence);
void condition_progress(App& app, int work, double share);
std::string condition_words(const App& app);    // for the description
std::string condition_summary(const App& app);  // for the leaf's heading: ", 1 to mend" or nothing
Json condition_json(const App& app);            // for state_json

// walk.cpp
std::vector<Box> walk_boxes(const App& app);  // of the finding that is walked
void walk_to(App& app, const std::string& id, int at);
void walk_step(App& app, int by);
bool walk_key(App& app, const std::string& key);
void end_walk(App& app);
void draw_outlines(App& app);
float walk_room(const App& app);  // kept free above the foot line for the slip [CSS px]
void draw_walk(App& app);         // the slip with its buttons

// leaf_condition.cpp
void draw_condition(App& app);

// report_file.cpp
enum class ReportKind { page, numbers };
void save_report(App& app, ReportKind kind);

}  // namespace proofleaf::shell
