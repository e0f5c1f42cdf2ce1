// The recipe on the panel: what is done to the master before it is printed, with steps back, and
// what it does to the print on the chosen paper.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "host.h"
#include "rank/judge.h"
#include "recipe/recipe.h"

namespace proofleaf::shell {

struct App;
struct Task;
struct Buffer;

// What the present corrections do on the chosen paper, as the ranking measures it.
struct Effect {
  std::string key;  // what it was found for; empty: nothing yet
  std::string trouble;
  Variant before, after;
  std::vector<std::string> worse;  // a sentence to each measure that got worse
};

// A piece of the print as the screen shows it.
struct Sample {
  std::string key;  // what it was made for; empty: nothing yet
  std::string trouble;
  unsigned with = 0, without = 0;  // textures
  uint32_t width = 0, height = 0;  // as shown [device pixels]
  double ppi = 0;
  int across = 0;              // room for it [device pixels]
  bool from_distance = false;  // as it looks from reading distance
  double distance_cm = 40;
  bool true_size = false;  // on this screen
};

struct RecipeState {
  Recipe now;
  bool set_aside = false;  // the proof is shown without corrections for a while
  // Steps back and forward as JSON, the newest last.
  std::string settled;  // `now` as it was when a control was last let go of
  std::vector<std::string> earlier, later;
  Effect effect;
  Sample sample;
  std::string fit_words;  // what the last fit said
  int hue = 0, tone = 0;  // which band of hue, which tone the leaf shows
  int shape = 0;          // of the crop, by place among kShapes
};

inline constexpr size_t kMostSteps = 100;

// recipe_steps.cpp
void update_recipe(App& app);  // notes a step once the controls rest, asks for the effect
void step_back(App& app);
void step_forward(App& app);
void set_recipe(App& app, const Recipe& recipe);
// The part that changes single colours, as requests carry it; null where there is none or it is set
// aside.
Json colours_of_recipe(const App& app);
Json whole_recipe(const App& app);  // null where it changes nothing
std::shared_ptr<const ColourMap> recipe_map(const App& app);
// Pixels and size of the print; an error's sentence where it cannot be.
Result<print::PrintPlan> print_plan(const App& app);
void save_recipe(App& app);
Json recipe_state_json(const App& app);

// recipe_work.cpp: requests and answers
// A request of that kind, with the intent the job prints with.
Json print_request(const App& app, const char* op);
// A recipe's file was brought.
bool looks_like_json(const std::vector<uint8_t>& head);
void recipe_arrived(App& app, FileId file, const std::string& name);
bool take_recipe(App& app, const Task& task, const Json& json);
void start_fit(App& app);
bool is_print_work(const Task& task);
bool take_fit(App& app, const Task& task, const Json& json);
void print_work_failed(App& app, const Task& task, const std::string& sentence);
void ask_effect(App& app);
bool effect_wanted(const App& app);

// sample.cpp
bool sample_wanted(const App& app);
void ask_sample(App& app);
bool take_sample(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers);
void drop_sample(App& app);  // its textures are gone with the context
void draw_sample(App& app);

// leaf_fit.cpp, leaf_size.cpp
void draw_fit_leaf(App& app);
void draw_monochrome(App& app);
void draw_size_leaf(App& app);
void draw_crop_frame(App& app);  // over the picture
std::string fit_summary(const App& app);
std::string size_summary(const App& app);

}  // namespace proofleaf::shell
