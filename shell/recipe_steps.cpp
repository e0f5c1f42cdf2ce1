// The recipe's steps back and forward, and what of it a request carries.
#include "app.h"
#include "print/print_json.h"
#include "recipe_panel.h"
#include "words.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

void move_step(App& app, std::vector<std::string>& from, std::vector<std::string>& to,
               const Words& done, const Words& nothing) {
  if (from.empty()) return tell(app, nothing);
  RecipeState& state = app.recipe;
  auto recipe = recipe_from_json(parse_json(from.back()));
  from.pop_back();
  if (!recipe) return;
  to.push_back(state.settled);
  state.now = recipe.take();
  state.settled = dump_json(json_of(state.now));
  tell(app, done);
}

}  // namespace

void update_recipe(App& app) {
  RecipeState& state = app.recipe;
  if (state.settled.empty()) state.settled = dump_json(json_of(Recipe{}));
  if (ImGui::IsAnyItemActive()) return;
  const std::string present = dump_json(json_of(state.now));
  if (present != state.settled) {
    state.earlier.push_back(state.settled);
    if (state.earlier.size() > kMostSteps) state.earlier.erase(state.earlier.begin());
    state.later.clear();
    state.settled = present;
  }
}

void step_back(App& app) {
  move_step(app, app.recipe.earlier, app.recipe.later, words::kSteppedBack, words::kNoStepBack);
}

void step_forward(App& app) {
  move_step(app, app.recipe.later, app.recipe.earlier, words::kSteppedForward,
            words::kNoStepForward);
}

void set_recipe(App& app, const Recipe& recipe) {
  app.recipe.now = recipe;
  app.host.request_frame();
}

Json colours_of_recipe(const App& app) {
  const Recipe& recipe = app.recipe.now;
  if (app.recipe.set_aside || !changes_colours(recipe)) return nullptr;
  Recipe colours;
  colours.correction = recipe.correction;
  colours.correction.local_contrast = 0;
  colours.monochrome = recipe.monochrome;
  return json_of(colours);
}

Json whole_recipe(const App& app) {
  const Recipe& recipe = app.recipe.now;
  return changes_colours(recipe) || changes_pixels(recipe) ? json_of(recipe) : Json();
}

std::shared_ptr<const ColourMap> recipe_map(const App& app) {
  if (app.recipe.set_aside || !app.job.master.profile) return nullptr;
  auto map = colours_of(app.recipe.now, app.job.master.profile);
  return map ? map.value() : nullptr;
}

Result<print::PrintPlan> print_plan(const App& app) {
  const MasterState& m = app.job.master;
  return plan_of(app.recipe.now, m.width, m.height, app.job.delivery.ppi);
}

void save_recipe(App& app) {
  const std::string file = without_ending(app.job.master.name) + "-recipe.json";
  app.host.save_text(file, "application/json", dump_json(json_of(app.recipe.now), 2));
  tell(app, text(words::kRecipeSaved, file.c_str()));
}

Json recipe_state_json(const App& app) {
  const RecipeState& state = app.recipe;
  Json json{{"now", json_of(state.now)},
            {"set_aside", state.set_aside},
            {"steps_back", state.earlier.size()},
            {"steps_forward", state.later.size()},
            {"fit", state.fit_words},
            {"sampled", !state.sample.key.empty()},
            {"sample",
             {{"distance_cm", state.sample.from_distance ? state.sample.distance_cm : 0},
              {"true_size", state.sample.true_size},
              {"width", state.sample.width},
              {"height", state.sample.height},
              {"ppi", state.sample.ppi},
              {"wanted", sample_wanted(app)},
              {"trouble", state.sample.trouble}}},
            {"effect", nullptr}};
  if (!state.effect.key.empty() && state.effect.trouble.empty())
    json["effect"] = {{"before", state.effect.before.score},
                      {"after", state.effect.after.score},
                      {"worse", state.effect.worse}};
  if (app.job.master.file != 0) {
    const auto plan = print_plan(app);
    json["plan"] = plan ? print::to_json(plan.value()) : Json(plan.error().message);
  }
  return json;
}

}  // namespace proofleaf::shell
