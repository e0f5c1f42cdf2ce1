// Keeps the proof's local contrast up with the recipe.
#include "contrast.h"

#include <cstring>

#include "app.h"
#include "json_read.h"
#include "words.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

double wanted_amount(const App& app) {
  const bool shown = app.job.master.file != 0 && !app.recipe.set_aside;
  return shown ? app.recipe.now.correction.local_contrast : 0;
}

std::string contrast_key(const App& app) {
  const double amount = wanted_amount(app);
  return amount == 0 ? "" : std::to_string(app.job.master.version) + "/" + text("%.6g", amount);
}

void drop_samples(Picture& picture) {
  ProofGl::drop(picture.printed);
  picture.printed = {};
}

void drop_files(App& app) {
  for (FileId* file : {&app.contrast.picture, &app.contrast.guide}) {
    if (*file != 0) app.host.drop_file(*file);
    *file = 0;
  }
}

// The master's own samples are printed again.
void leave_off(App& app) {
  app.contrast.used.clear();
  app.contrast.amount = 0;
  drop_samples(app.preview);
  drop_files(app);
  drop_detail(app);
}

void ask(App& app, const std::string& key) {
  Task task;
  task.kind = TaskKind::contrast;
  task.key = key;
  task.name = words::kLocalContrast;
  task.words = words::kContrasting;
  add_task(app, task,
           {{"op", "local_contrast"},
            {"width", app.preview.columns},
            {"height", app.preview.rows},
            {"amount", wanted_amount(app)}},
           {{"profile", app.job.master.profile_file}, {"picture", app.job.master.picture_file}});
}

}  // namespace

void update_contrast(App& app) {
  const std::string key = contrast_key(app), version = std::to_string(app.job.master.version) + "/";
  if (!app.contrast.used.empty() && !app.contrast.used.starts_with(version)) leave_off(app);
  const Task* task = find_task(app, TaskKind::contrast);
  if (task && task->key != key) {
    stop_task(app, task->work);
    task = nullptr;
  }
  if (key == app.contrast.used) return;
  if (key.empty()) return leave_off(app);
  if (task || key == app.contrast.failed || ImGui::IsAnyItemActive()) return;
  ask(app, key);
}

bool take_contrast(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  const Bytes picture = buffer_of(buffers, "picture"), guide = buffer_of(buffers, "guide");
  const bool fits = text_of(json, "kind") == "local_contrast" && !guide.empty() &&
                    picture.size() == app.preview.rgb.size() * sizeof(uint16_t);
  if (!fits || task.key != contrast_key(app)) return fits;
  leave_off(app);
  app.preview.printed.rgb.resize(app.preview.rgb.size());
  std::memcpy(app.preview.printed.rgb.data(), picture.data(), picture.size());
  app.contrast.used = task.key;
  app.contrast.amount = number_of(json, "amount");
  app.contrast.picture = app.host.keep_bytes("printed", picture);
  app.contrast.guide = app.host.keep_bytes("guide", guide);
  return true;
}

void contrast_failed(App& app, const Task& task, const std::string& sentence) {
  app.contrast.failed = task.key;
  notice(app, sentence);
}

bool contrast_current(const App& app) {
  const std::string key = contrast_key(app);
  return key == app.contrast.used || key == app.contrast.failed;
}

const std::vector<uint16_t>& printed_samples(const App& app) {
  return app.preview.printed.rgb.empty() ? app.preview.rgb : app.preview.printed.rgb;
}

FileId printed_picture(const App& app) {
  return app.contrast.picture != 0 ? app.contrast.picture : app.job.master.picture_file;
}

}  // namespace proofleaf::shell
