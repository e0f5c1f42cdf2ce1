// Takes a photo or measurements of the returned print, asks for the comparison, and ticks what it
// tells.
#include "returned.h"

#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "proof/words.h"
#include "words.h"
#include "words_returned.h"

namespace proofleaf::shell {
namespace {

using returned::Corners;
using returned::Found;
using returned::Point;

Json corners_json(const Corners& corners) {
  Json list = Json::array();
  for (const Point& p : corners) list.push_back({p.x, p.y});
  return list;
}

std::optional<Corners> corners_from(const Json& json) {
  const Json* list = member(json, "corners");
  if (!list || !list->is_array() || list->size() != 4) return std::nullopt;
  Corners corners;
  for (size_t i = 0; i < 4; ++i) {
    const Json& each = (*list)[i];
    if (!each.is_array() || each.size() != 2 || !each[0].is_number() || !each[1].is_number())
      return std::nullopt;
    corners[i] = {each[0].get<double>(), each[1].get<double>()};
  }
  return corners;
}

Json request_for(const App& app) {
  const ReturnedState& r = app.returned;
  Json request = print_request(app, "returned");
  request["recipe"] = whole_recipe(app);
  request["ppi"] = app.job.delivery.ppi;
  request["width"] = app.preview.columns;
  request["height"] = app.preview.rows;
  request["master_width"] = app.job.master.width;
  request["master_height"] = app.job.master.height;
  request["corners"] = r.set ? corners_json(*r.set) : Json();
  request["refine"] = r.refine;
  request["scan"] = r.scan;
  request["neutral"] = r.neutral ? Json{r.neutral->x, r.neutral->y} : Json();
  request["mark_mm"] = r.mark_mm;
  request["screen"] = word_for(app.surroundings.display_p3 ? Screen::display_p3 : Screen::srgb);
  request["paper_white"] = app.job.proof_view.paper_white;
  return request;
}

std::string returned_key(const App& app) {
  const PaperState* paper = app.job.chosen_paper();
  return std::to_string(app.job.master.version) + "/" + std::to_string(paper ? paper->file : 0) +
         "/" + std::to_string(app.returned.file) + "/" + dump_json(request_for(app));
}

void ask(App& app, const std::string& key) {
  ReturnedState& r = app.returned;
  if (const Task* earlier = find_task(app, TaskKind::returned)) stop_task(app, earlier->work);
  Task task;
  task.kind = TaskKind::returned;
  task.name = r.name;
  task.key = key;
  task.words = text(words::kComparing, r.name.c_str());
  r.asked = key;
  add_task(app, task, request_for(app),
           {{"master", r.file},
            {"profile", app.job.master.profile_file},
            {"picture", app.job.master.picture_file},
            {"paper", app.job.chosen_paper()->file}});
}

bool can_compare(const App& app) {
  return app.job.chosen_paper() && !app.preview.empty() && print_plan(app);
}

void put_picture(App& app, MadePicture& into, Bytes rgba, uint32_t width, uint32_t height) {
  app.gl.drop(into.layer);
  into.picture = Picture{};
  if (rgba.size() != size_t{width} * height * 4) return;
  into.picture.columns = width;
  into.picture.rows = height;
  into.layer.shown = std::move(rgba);
}

void read_tones(const Json& json, ReturnedState& r) {
  r.tones.clear();
  const Json* tones = member(json, "tones");
  if (!tones || !tones->is_array()) return;
  for (const Json& each : *tones)
    if (each.is_array() && each.size() == 2 && each[0].is_number() && each[1].is_number())
      r.tones.push_back({each[0].get<double>(), each[1].get<double>()});
}

void read_shadow_place(const Json& json, ReturnedState& r) {
  r.shadow_place.reset();
  const Json* place = member(json, "shadow_place");
  if (!place || !place->is_array() || place->size() != 4) return;
  for (const Json& each : *place)
    if (!each.is_number()) return;
  r.shadow_place = Box{(*place)[0].get<double>(), (*place)[1].get<double>(),
                       (*place)[2].get<double>(), (*place)[3].get<double>()};
}

Looked looked_of(Found found) {
  return found == Found::fine    ? Looked::ok
         : found == Found::wrong ? Looked::wrong
                                 : Looked::unknown;
}

// Only what nobody has looked at yet, or the last comparison itself ticked.
void tick(JobCheck& check, JobCheck& ticked, Found found) {
  if (check.found != Looked::unknown && check.found != ticked.found) return;
  check.found = ticked.found = looked_of(found);
}

void tick_all(App& app, const JobSeen& seen) {
  JobReturned& mine = app.sheet.returned;
  JobReturned& ticked = app.returned.ticked;
  // A photo can show that the shape is wrong, never that the size is right.
  const bool sized = seen.size.verdict != Found::fine || seen.size.width_mm;
  tick(mine.size, ticked.size, sized ? seen.size.verdict : Found::untold);
  tick(mine.cast, ticked.cast, seen.cast.verdict);
  tick(mine.shadow_step, ticked.shadow_step, seen.shadow.verdict);
  tick(mine.marks, ticked.marks, seen.marks.verdict);
}

bool take_comparison(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  const auto corners = corners_from(json);
  if (text_of(json, "kind") != "returned" || !corners) return false;
  ReturnedState& r = app.returned;
  const bool first = !r.answered;
  r.answered = true;
  r.corners = *corners;
  r.found = flag_of(json, "found");
  r.match = number_of(json, "match");
  r.light_falls = number_of(json, "light_falls", 1);
  r.profile = text_of(json, "profile");
  r.profile_assumed = flag_of(json, "assumed");
  r.scan_ppi.reset();
  if (const double ppi = number_of(json, "scan_ppi"); ppi > 0) r.scan_ppi = ppi;
  read_tones(json, r);
  read_shadow_place(json, r);
  put_picture(app, r.photo, buffer_of(buffers, "photo"), count_of(json, "width"),
              count_of(json, "height"));
  put_picture(app, r.print, buffer_of(buffers, "print"), count_of(json, "print_width"),
              count_of(json, "print_height"));
  if (app.condition.walk == kReturnedWalk) end_walk(app);
  app.sheet.returned.seen.reset();
  const Json* seen = member(json, "seen");
  if (!r.found || !seen) {
    r.show = ReturnedState::Show::photo;
    notice(app, text(words::kPrintNotFound, task.name.c_str()));
    return true;
  }
  auto read = seen_from_json(*seen);
  if (!read) return false;
  tick_all(app, read.value());
  app.sheet.returned.seen = read.take();
  if (first) r.show = ReturnedState::Show::print;
  tell(app, text(words::kCompared, task.name.c_str()));
  return true;
}

bool take_readings(App& app, const Task& task, const Json& json) {
  if (text_of(json, "kind") != "read_back") return false;
  app.host.drop_file(task.file);
  const double mean = number_of(json, "mean"), p95 = number_of(json, "p95");
  const Json* patches = member(json, "patches");
  app.sheet.returned.measured = JobMeasured{uint32_t(patches ? patches->size() : 0), mean, p95,
                                            number_of(json, "max"), verdict_of(mean, p95)};
  app.returned.measured_sentence = text_of(json, "sentence");
  tell(app, app.returned.measured_sentence);
  return true;
}

}  // namespace

void expect_print(App& app) {
  app.returned.expecting = true;
  app.host.pick_file();
}

bool print_expected(const App& app) { return app.returned.expecting; }

void print_arrived(App& app, FileId file, const std::string& name,
                   const std::vector<uint8_t>& head) {
  ReturnedState& r = app.returned;
  r.expecting = false;
  if (!can_compare(app)) {
    app.host.drop_file(file);
    return notice(app, words::kNeedBothForPrint);
  }
  if (looks_like_text(head))
    return read_patches(app, TaskKind::returned_readings, "returned_readings",
                        *app.job.chosen_paper(), file, name);
  drop_returned(app);
  r.file = file;
  r.name = name;
  r.master = app.job.master.file;
  ask(app, returned_key(app));
}

void update_returned(App& app) {
  ReturnedState& r = app.returned;
  if (r.file == 0) return;
  if (r.master != app.job.master.file) return drop_returned(app);
  if (!r.answered || !can_compare(app) || ImGui::IsAnyItemActive()) return;
  const std::string key = returned_key(app);
  if (key != r.asked) ask(app, key);
}

bool take_returned(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  if (task.kind == TaskKind::returned_readings) return take_readings(app, task, json);
  return take_comparison(app, task, json, buffers);
}

void returned_failed(App& app, const Task& task) {
  if (task.kind == TaskKind::returned && !app.returned.answered) drop_returned(app);
}

void drop_returned(App& app) {
  ReturnedState& r = app.returned;
  if (r.file != 0) app.host.drop_file(r.file);
  app.gl.drop(r.photo.layer);
  app.gl.drop(r.print.layer);
  if (app.condition.walk == kReturnedWalk) end_walk(app);
  ReturnedState fresh;
  fresh.mark_mm = r.mark_mm;
  fresh.ticked = r.ticked;
  fresh.measured_sentence = r.measured_sentence;
  r = std::move(fresh);
}

Json returned_json(const App& app) {
  const ReturnedState& r = app.returned;
  const JobReturned& mine = app.sheet.returned;
  return {{"expecting", r.expecting},
          {"name", r.name},
          {"answered", r.answered},
          {"found", r.found},
          {"match", r.match},
          {"corners", corners_json(r.corners)},
          {"show", int(r.show)},
          {"photo_shown", photo_shown(app)},
          {"light_falls", r.light_falls},
          {"seen", mine.seen ? json_of(*mine.seen) : Json()},
          {"measured", r.measured_sentence},
          {"checks",
           {int(mine.size.found), int(mine.cast.found), int(mine.shadow_step.found),
            int(mine.marks.found)}}};
}

}  // namespace proofleaf::shell
