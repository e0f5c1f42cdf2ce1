// Takes what the host's workers answer into the job. A bad answer changes nothing.
#include <algorithm>
#include <cstring>

#include "app.h"
#include "json_read.h"
#include "words.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

Bytes* find_buffer(std::vector<Buffer>& buffers, const char* name) {
  for (Buffer& buffer : buffers)
    if (buffer.name == name) return &buffer.bytes;
  return nullptr;
}

// 16-bit RGB of columns x rows pixels out of a buffer; empty where the length does not fit.
std::vector<uint16_t> samples_of(const Bytes* bytes, uint32_t columns, uint32_t rows) {
  const uint64_t count = uint64_t{columns} * rows * 3;
  if (!bytes || count == 0 || count * 2 != bytes->size()) return {};
  std::vector<uint16_t> samples(count);
  std::memcpy(samples.data(), bytes->data(), bytes->size());
  return samples;
}

std::vector<uint32_t> counts_of(const Json& json, const char* name) {
  std::vector<uint32_t> counts;
  if (const Json* list = member(json, name); list && list->is_array())
    for (const Json& each : *list)
      if (each.is_number_unsigned()) counts.push_back(each.get<uint32_t>());
  return counts;
}

MasterState master_from(const Json& json, const Task& task, const App& app) {
  MasterState master;
  master.file = task.file;
  master.name = task.name;
  master.width = count_of(json, "width");
  master.height = count_of(json, "height");
  master.bits = count_of(json, "bits");
  master.model = text_of(json, "model");
  master.container = text_of(json, "container");
  master.profile_title = text_of(json, "profile");
  master.assumed = flag_of(json, "assumed");
  master.assume = task.assume;
  master.assume_file = task.assume_file;
  if (const double ppi = number_of(json, "ppi"); ppi > 0) master.ppi = ppi;
  master.notes = texts_of(json, "notes");
  if (const Json* traces = member(json, "private"))
    master.traces = {flag_of(*traces, "place"), flag_of(*traces, "serial"),
                     flag_of(*traces, "owner")};
  master.version = app.job.master.version + 1;
  return master;
}

bool take_master(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  MasterState master = master_from(json, task, app);
  Picture preview;
  preview.columns = count_of(json, "preview_width");
  preview.rows = count_of(json, "preview_height");
  preview.rgb = samples_of(find_buffer(buffers, "preview"), preview.columns, preview.rows);
  const Bytes* icc = find_buffer(buffers, "profile");
  if (master.width == 0 || master.height == 0 || preview.empty() || !icc) return false;
  Result<Profile> profile = Profile::open(*icc, task.name);
  if (!profile) return false;
  master.profile = profile.take();
  master.profile_file = app.host.keep_bytes("master.icc", *icc);
  master.picture_file = app.host.keep_bytes("picture", *find_buffer(buffers, "preview"));
  preview.width = master.width;
  preview.height = master.height;

  const MasterState before = app.job.master;
  for (const FileId made : {before.profile_file, before.picture_file})
    if (made != 0) app.host.drop_file(made);
  if (before.file != 0 && before.file != master.file) app.host.drop_file(before.file);
  const bool same_picture = before.file == master.file;
  const bool same_colours = same_picture && before.profile.bytes() == master.profile.bytes();
  app.job.master = std::move(master);
  end_early_cubes(app);
  if (!same_picture) {
    app.job.view = View{};
    app.job.delivery.name_edited = false;
  }
  if (!same_colours) app.job.delivered.reset();
  app.working_pixels = task.pixels;
  forget_smaller(app);
  drop_picture(app, app.preview);
  drop_detail(app);
  app.preview = std::move(preview);
  tell(app, text(words::kMasterOpen, task.name.c_str()));
  go_on_with_master(app);
  return true;
}

Lab lab_of(const Json& json, const char* name) {
  const Json* value = member(json, name);
  if (!value || !value->is_array() || value->size() != 3) return {};
  for (const Json& each : *value)
    if (!each.is_number()) return {};
  return {(*value)[0].get<double>(), (*value)[1].get<double>(), (*value)[2].get<double>()};
}

bool take_paper(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  const Bytes* icc = find_buffer(buffers, "profile");
  if (!icc || icc->empty()) return false;
  PaperState paper;
  paper.name = text_of(json, "name");
  if (paper.name.empty()) paper.name = task.name;
  paper.model = text_of(json, "model");
  paper.space = task.space;
  paper.loaded = true;
  paper.working_space = flag_of(json, "working_space");
  paper.white = lab_of(json, "white");
  paper.black = lab_of(json, "black");
  paper.ink_limit = number_of(json, "ink_limit");
  if (const Json* own = member(json, "own_table"); own && own->is_array())
    for (size_t i = 0; i < std::min<size_t>(3, own->size()); ++i)
      paper.own_table[i] = (*own)[i].is_boolean() && (*own)[i].get<bool>();
  paper.notes = texts_of(json, "notes");
  paper.profile = *icc;
  paper.key = shelf_key(*icc);
  recall_paper_name(app, paper);

  auto& papers = app.job.papers;
  for (size_t i = 0; i < papers.size(); ++i)
    if (papers[i].profile == paper.profile) {  // brought a second time
      if (task.file != 0) app.host.drop_file(task.file);
      if (task.choose) app.job.paper = int(i);
      return true;
    }
  paper.file = task.file != 0 ? task.file : app.host.keep_bytes(paper.name + ".icc", *icc);
  shelve(app, task.file, paper);
  papers.push_back(std::move(paper));
  if (task.choose || app.job.paper < 0) app.job.paper = int(papers.size()) - 1;
  if (task.choose) tell(app, text(words::kPaperChosen, papers.back().name.c_str()));
  go_on_with_paper(app, int(papers.size()) - 1);
  return true;
}

bool take_delivery(App& app, const Task& task, const Json& json) {
  const DeliveryResult result = delivery_result(task, json);
  app.job.delivered = result;
  const auto plan = print_plan(app);
  const PaperState* paper = app.job.chosen_paper();
  note_delivery(app, result, text_of(json, "sha256"), paper ? paper->name : "",
                plan ? plan.value() : print::PrintPlan{});
  app.show_leaf_top = 2;
  save_delivery(app, task.work, task.name);
  tell(app,
       text(words::kMade, result.name.c_str(), result.width, result.height, result.bytes / 1e6) +
           " " + result.sentence);
  return true;
}

bool take(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  const std::string kind = text_of(json, "kind");
  switch (task.kind) {
    case TaskKind::open:
      return kind == "master" && take_master(app, task, json, buffers);
    case TaskKind::paper:
      return kind == "paper" && take_paper(app, task, json, buffers);
    case TaskKind::crop:
      return kind == "crop" &&
             take_tiles(app, json, buffer_of(buffers, "pixels"), buffer_of(buffers, "printed"));
    case TaskKind::deliver:
      return kind == "delivered" && take_delivery(app, task, json);
    case TaskKind::contrast:
      return take_contrast(app, task, json, buffers);
    case TaskKind::batch:
      return take_batch(app, task, json);
    case TaskKind::facts:
    case TaskKind::judge:
    case TaskKind::difference:
    case TaskKind::card:
      return take_choice(app, task, json, buffers);
    case TaskKind::digest:
      return take_digest(app, json);
    case TaskKind::strip_places:
    case TaskKind::strip:
    case TaskKind::read_back:
    case TaskKind::eye:
      return take_strip(app, task, json);
    case TaskKind::returned:
    case TaskKind::returned_readings:
      return take_returned(app, task, json, buffers);
    case TaskKind::sample:
      return take_sample(app, task, json, buffers);
    case TaskKind::recipe:
      return take_recipe(app, task, json);
    case TaskKind::offer:
    case TaskKind::seal:
    case TaskKind::wrap:
      return take_offer_work(app, task, json, buffers);
    case TaskKind::fit:
    case TaskKind::effect:
      return take_fit(app, task, json);
    case TaskKind::cube: {
      const Bytes* packed = find_buffer(buffers, "cube");
      if (kind != "cube" || !packed) return false;
      take_cube(app, task, *packed, counts_of(json, "off_gamut"));
      return true;
    }
  }
  return false;
}

// Removes and returns the task of that number.
std::optional<Task> end_task(App& app, int work) {
  const auto found = std::find_if(app.tasks.begin(), app.tasks.end(),
                                  [&](const Task& task) { return task.work == work; });
  if (found == app.tasks.end()) return std::nullopt;
  Task task = std::move(*found);
  app.tasks.erase(found);
  return task;
}

// A refused file is let go of; the work stays as it was.
void drop_refused(App& app, const Task& task) {
  let_go_of_file(app, task);
  if (task.kind == TaskKind::cube) cube_failed(app, task);
  if (task.kind == TaskKind::crop) detail_failed(app);
  if (task.kind == TaskKind::strip_places) parts_failed(app, task);
  if (task.kind == TaskKind::returned) returned_failed(app, task);
}

// Its settings stay as they are, for the smaller working size.
void starved_at_work(App& app, const Task& task) {
  const std::string said = offer_smaller(app, task);
  if (task.kind == TaskKind::facts)
    choice_failed(app, task, said);
  else if (task.kind == TaskKind::contrast)
    app.contrast.failed = task.key;
  else if (task.kind == TaskKind::cube)
    cube_failed(app, task, false);
  else
    drop_refused(app, task);
}

}  // namespace

DeliveryResult delivery_result(const Task& task, const Json& json) {
  DeliveryResult result;
  result.work = task.work;
  result.name = task.name;
  result.sentence = text_of(json, "sentence");
  result.width = count_of(json, "width");
  result.height = count_of(json, "height");
  result.bytes = number_of(json, "bytes");
  result.mean = number_of(json, "mean");
  result.p95 = number_of(json, "p95");
  result.max = number_of(json, "max");
  result.samples = count_of(json, "samples");
  return result;
}

void take_answer(App& app, int work, const std::string& json_text, std::vector<Buffer> buffers) {
  if (condition_answered(app, work, json_text)) return;
  if (parcel_answered(app, work, json_text, buffers)) return;
  if (early_answered(app, work, buffers)) return;
  const std::optional<Task> task = end_task(app, work);
  if (!task) return;
  const Json json = parse_json(json_text);
  if (!json.is_discarded() && take(app, *task, json, buffers)) return;
  const std::string unread = text(words::kAnswerUnread, task->name.c_str());
  if (is_print_work(*task)) return print_work_failed(app, *task, unread);
  if (is_choice_work(*task)) return choice_failed(app, *task, unread);
  if (task->kind == TaskKind::batch) return batch_failed(app, *task, unread);
  if (task->kind == TaskKind::contrast) return contrast_failed(app, *task, unread);
  notice(app, task->name.empty() ? std::string(words::kProofUnread) : unread);
  drop_refused(app, *task);
}

void take_failure(App& app, int work, const std::string& sentence, bool starved) {
  if (condition_failed(app, work, sentence) || parcel_failed(app, work, sentence)) return;
  if (early_failed(app, work)) return;
  const std::optional<Task> task = end_task(app, work);
  if (!task) return;
  if (starved && working_size_matters(*task)) return starved_at_work(app, *task);
  if (is_print_work(*task)) return print_work_failed(app, *task, sentence);
  if (is_choice_work(*task)) return choice_failed(app, *task, sentence);
  if (task->kind == TaskKind::batch) return batch_failed(app, *task, sentence);
  if (task->kind == TaskKind::contrast) return contrast_failed(app, *task, sentence);
  notice(app, sentence);
  drop_refused(app, *task);
}

}  // namespace proofleaf::shell
