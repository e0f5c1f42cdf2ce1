// Fitting the picture to the paper, and what the corrections do, asked of a worker.
#include <algorithm>

#include "app.h"
#include "fit/fit_json.h"
#include "job/choice_work.h"
#include "json_read.h"
#include "proof/words.h"
#include "recipe_panel.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

std::vector<FileUse> print_files(const App& app) {
  return {{"profile", app.job.master.profile_file},
          {"facts", app.choice.facts_file},
          {"paper", app.job.chosen_paper()->file}};
}

void begin(App& app, Task task, const Json& request) {
  task.since = now();
  task.file = app.job.chosen_paper()->file;
  task.name = app.job.chosen_paper()->name;
  task.work = app.host.start(dump_json(request), print_files(app));
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

// Everything an effect depends on.
std::string effect_key(const App& app) {
  const PaperState* paper = app.job.chosen_paper();
  const Json colours = colours_of_recipe(app);
  if (!paper || app.choice.facts_file == 0 || colours.is_null()) return "";
  return std::to_string(app.job.master.version) + "/" + std::to_string(paper->file) + "/" +
         dump_json(print_request(app, "effect")) + dump_json(colours);
}

std::vector<std::string> sentences(const Json& json) { return texts_of(json, "worse"); }

}  // namespace

Json print_request(const App& app, const char* op) {
  return {{"op", op},
          {"intent", word_for(app.job.print.intent)},
          {"black_point_compensation", app.job.print.black_point_compensation}};
}

bool looks_like_json(const std::vector<uint8_t>& head) {
  const auto first = std::find_if(head.begin(), head.end(), [](uint8_t letter) {
    return letter != ' ' && letter != '\n' && letter != '\r' && letter != '\t';
  });
  return first != head.end() && *first == '{';
}

void recipe_arrived(App& app, FileId file, const std::string& name) {
  Task task;
  task.kind = TaskKind::recipe;
  task.file = file;
  task.name = name;
  task.words = text(words::kReadingRecipe, name.c_str());
  task.since = now();
  task.work = app.host.start(dump_json({{"op", "recipe"}}), {{"master", file}});
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

bool take_recipe(App& app, const Task& task, const Json& json) {
  if (const Json* job = member(json, "job")) {
    app.host.drop_file(task.file);
    return take_job(app, *job, task.name);
  }
  const Json* found = member(json, "recipe");
  if (!found) return false;
  auto recipe = recipe_from_json(*found);
  if (!recipe) return false;
  app.host.drop_file(task.file);
  app.recipe.set_aside = false;
  app.recipe.fit_words.clear();
  set_recipe(app, recipe.value());
  tell(app, text(words::kRecipeTaken, task.name.c_str()));
  return true;
}

bool is_print_work(const Task& task) {
  return task.kind == TaskKind::fit || task.kind == TaskKind::effect ||
         task.kind == TaskKind::sample || task.kind == TaskKind::digest;
}

void start_fit(App& app) {
  if (!app.job.chosen_paper() || app.choice.facts_file == 0 || find_task(app, TaskKind::fit))
    return;
  Task task;
  task.kind = TaskKind::fit;
  task.words = text(words::kFittingNow, app.job.chosen_paper()->name.c_str());
  begin(app, task, print_request(app, "fit"));
}

bool effect_wanted(const App& app) {
  if (app.job.leaf != Leaf::fit || ImGui::IsAnyItemActive()) return false;
  const std::string key = effect_key(app);
  return !key.empty() && app.recipe.effect.key != key;
}

void ask_effect(App& app) {
  Task task;
  task.kind = TaskKind::effect;
  task.key = effect_key(app);
  Json request = print_request(app, "effect");
  request["recipe"] = colours_of_recipe(app);
  begin(app, task, request);
}

bool take_fit(App& app, const Task& task, const Json& json) {
  const std::string kind = text_of(json, "kind");
  const Json *before = member(json, "before"), *after = member(json, "after");
  if (!before || !after) return false;
  if (task.kind == TaskKind::effect) {
    if (kind != "effect") return false;
    app.recipe.effect = {task.key, "", variant_from_json(*before), variant_from_json(*after),
                         sentences(json)};
    return true;
  }
  const Json* found = member(json, "correction");
  if (kind != "fitted" || !found) return false;
  auto correction = correction_from_json(*found);
  if (!correction) return false;
  Recipe recipe = app.recipe.now;
  const double local = recipe.correction.local_contrast;
  recipe.correction = correction.take();
  recipe.correction.local_contrast = local;
  app.recipe.set_aside = false;
  set_recipe(app, recipe);
  app.recipe.fit_words = text_of(json, "sentence");
  std::string said = app.recipe.fit_words;
  for (const std::string& sentence : sentences(json)) said += " " + sentence;
  tell(app, said);
  return true;
}

void print_work_failed(App& app, const Task& task, const std::string& sentence) {
  if (task.kind == TaskKind::digest) {
    app.sheet.digest.clear();
    app.sheet.digest_version = app.job.master.version;
  } else if (task.kind == TaskKind::sample) {
    app.recipe.sample.key = task.key;
    app.recipe.sample.trouble = sentence;
  } else if (task.kind == TaskKind::effect)
    app.recipe.effect = {task.key, sentence, {}, {}, {}};
  else
    notice(app, sentence);
}

}  // namespace proofleaf::shell
