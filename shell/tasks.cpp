// Asks the host for work.
#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "proof/words.h"
#include "words.h"

namespace proofleaf::shell {
void add_task(App& app, Task task, const Json& request, const std::vector<FileUse>& files) {
  if (task.kind == TaskKind::paper) put_off_exact_cubes(app);
  task.since = now();
  task.work = app.host.start(dump_json(request), files);
  if (task.work > 0) app.tasks.push_back(std::move(task));
  app.host.request_frame();
}

Task* find_task(App& app, TaskKind kind) {
  for (Task& task : app.tasks)
    if (task.kind == kind) return &task;
  return nullptr;
}

void stop_task(App& app, int work) {
  const auto found = std::find_if(app.tasks.begin(), app.tasks.end(),
                                  [&](const Task& task) { return task.work == work; });
  if (found == app.tasks.end()) return;
  const Task task = *found;
  app.tasks.erase(found);
  app.host.cancel(work);
  if (task.kind == TaskKind::cube) cube_failed(app, task);
  let_go_of_file(app, task);
}

void let_go_of_file(App& app, const Task& task) {
  if (task.kind == TaskKind::open) end_early_cubes(app);
  const bool brought = task.kind == TaskKind::open || task.kind == TaskKind::paper ||
                       task.kind == TaskKind::recipe || task.kind == TaskKind::read_back ||
                       task.kind == TaskKind::returned_readings || task.kind == TaskKind::seal ||
                       task.kind == TaskKind::wrap;
  const bool kept =
      task.file == app.job.master.file || (app.smaller && task.file == app.smaller->file);
  if (brought && task.file != 0 && !kept) app.host.drop_file(task.file);
}

void notice(App& app, const std::string& sentence) {
  app.job.last_notice = sentence;
  auto& notices = app.job.notices;
  std::erase_if(notices, [&](const Notice& each) { return each.sentence == sentence; });
  notices.push_back({app.next_notice++, sentence});
  if (notices.size() > 3) notices.erase(notices.begin());
  tell(app, sentence);
}

void open_master(App& app, FileId file, const std::string& name, uint32_t pixels) {
  if (Task* earlier = find_task(app, TaskKind::open)) stop_task(app, earlier->work);
  Task task;
  task.kind = TaskKind::open;
  task.words = text(words::kOpening, name.c_str());
  task.file = file;
  task.name = name;
  task.pixels = pixels > 0 ? pixels : app.working_pixels;
  // A CMYK master without a profile can only be taken for the press paper that is chosen.
  const PaperState* paper = app.job.chosen_paper();
  task.assume_file = paper && paper->model == "CMYK" ? paper->file : 0;
  task.assume = "srgb";
  if (const MasterState& open = app.job.master; file == open.file) {
    task.assume_file = open.assume_file;
    task.assume = open.assume;
  }
  const Json request = {{"op", "open"}, {"assume", task.assume}, {"preview_pixels", task.pixels}};
  std::vector<FileUse> files = {{"master", file}};
  if (task.assume_file != 0) files.push_back({"assume", task.assume_file});
  add_task(app, task, request, files);
  begin_early_cubes(app, task.assume, files);
}

std::vector<FileUse> master_files(const App& app) {
  std::vector<FileUse> files = {{"master", app.job.master.file}};
  if (app.job.master.assume_file != 0) files.push_back({"assume", app.job.master.assume_file});
  return files;
}

void read_paper_file(App& app, FileId file, const std::string& name, bool choose) {
  Task task;
  task.kind = TaskKind::paper;
  task.words = text(words::kReadingPaper, name.c_str());
  task.file = file;
  task.name = name;
  task.choose = choose;
  add_task(app, task, {{"op", "paper"}}, {{"paper", file}});
}

void choose_space(App& app, const std::string& id) {
  const auto& papers = app.job.papers;
  for (size_t i = 0; i < papers.size(); ++i)
    if (papers[i].space == id) {
      app.job.paper = int(i);
      return;
    }
  for (const Task& task : app.tasks)
    if (task.kind == TaskKind::paper && task.space == id) return;
  Task task;
  task.kind = TaskKind::paper;
  task.space = id;
  task.choose = true;
  for (const StandardSpace& space : standard_spaces())
    if (id == space.id) task.name = space.title;
  task.words = text(words::kReadingPaper, task.name.c_str());
  add_task(app, task, {{"op", "paper"}, {"space", id}}, {});
}

Json delivery_request(const App& app) {
  const DeliverySettings& chosen = app.job.delivery;
  return {{"op", "deliver"},
          {"assume", app.job.master.assume},
          {"intent", word_for(app.job.print.intent)},
          {"black_point_compensation", app.job.print.black_point_compensation},
          {"format", chosen.tiff ? "tiff" : "jpeg"},
          {"bits", chosen.tiff ? chosen.bits : 8},
          {"quality", chosen.quality},
          {"full_colour_detail", chosen.full_colour_detail},
          {"ppi", chosen.ppi},
          {"keep_private", chosen.keep_private},
          {"seed", chosen.seed}};
}

void start_delivery(App& app) {
  const PaperState* paper = app.job.chosen_paper();
  if (!paper || app.job.master.file == 0 || find_task(app, TaskKind::deliver)) return;
  app.job.delivered.reset();
  app.show_leaf_top = 2;
  Task task;
  task.kind = TaskKind::deliver;
  task.name = delivery_name(app);
  task.words = text(words::kMaking, task.name.c_str());
  Json request = delivery_request(app);
  if (const Json recipe = whole_recipe(app); !recipe.is_null()) request["recipe"] = recipe;
  std::vector<FileUse> files = master_files(app);
  files.push_back({"paper", paper->file});
  add_task(app, task, request, files);
}

}  // namespace proofleaf::shell
