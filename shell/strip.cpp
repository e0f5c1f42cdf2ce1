// Asks for test strips and for what came back from them.
#include "strip.h"

#include <algorithm>
#include <utility>

#include "app.h"
#include "json_read.h"
#include "print/proofing_json.h"
#include "proof/words.h"
#include "words.h"
#include "words_strip.h"

namespace proofleaf::shell {
namespace {

struct Sheet {
  double width_mm, height_mm;
};
constexpr Sheet kSheets[] = {{150, 100}, {210, 148}, {297, 210}};
constexpr double kOpened = 3;  // L* that the third way opens dark tones by

Json sheet_json(const App& app) {
  const Sheet& sheet = kSheets[size_t(app.strip.sheet)];
  return {{"width_mm", sheet.width_mm}, {"height_mm", sheet.height_mm}};
}

// Of the recipe only its size counts, so that parts that were moved outlast a correction.
Json places_request(const App& app) {
  Recipe size;
  size.sized = app.recipe.now.sized;
  size.size = app.recipe.now.size;
  size.limits = app.recipe.now.limits;
  return {{"op", "strip_places"},
          {"width", app.preview.columns},
          {"height", app.preview.rows},
          {"master_width", app.job.master.width},
          {"master_height", app.job.master.height},
          {"ppi", app.job.delivery.ppi},
          {"sheet", sheet_json(app)},
          {"variants", app.strip.ways},
          {"recipe", json_of(size)}};
}

// Places are shares of the picture, so they outlast another working size.
std::string places_key(const App& app) {
  Json request = places_request(app);
  request.erase("width");
  request.erase("height");
  return std::to_string(app.job.master.file) + "/" + app.job.master.assume + dump_json(request);
}

Json way(const std::string& name, const Recipe& recipe) {
  return {{"name", name}, {"recipe", json_of(recipe)}};
}

// As it is set; then with dark tones opened; then without corrections.
Json ways_of(const App& app) {
  const Recipe& set = app.recipe.now;
  Json ways = Json::array({way(words::kWayAsSet, set)});
  Recipe opened = set;
  opened.correction.shadows = std::min(7.0, set.correction.shadows + kOpened);
  if (app.strip.ways >= 2) ways.push_back(way(words::kWayOpened, opened));
  Recipe plain = set;
  plain.correction = {};
  if (app.strip.ways >= 3) ways.push_back(way(words::kWayPlain, plain));
  return ways;
}

std::string strip_name(const App& app) {
  return print_base(app) + "-test-strip" + (app.job.delivery.tiff ? ".tif" : ".jpg");
}

void make_strip_file(App& app) {
  const PaperState* paper = app.job.chosen_paper();
  if (!paper) return;
  Json request = delivery_request(app);
  request["keep_private"] = false;
  request["strip"] = {{"sheet", sheet_json(app)},
                      {"places", print::to_json(app.strip.places)},
                      {"variants", ways_of(app)}};
  std::vector<FileUse> files = master_files(app);
  files.push_back({"paper", paper->file});
  Task task;
  task.kind = TaskKind::strip;
  task.file = paper->file;
  task.name = strip_name(app);
  task.words = text(words::kMaking, task.name.c_str());
  add_task(app, task, request, files);
}

bool take_places(App& app, const Task& task, const Json& json) {
  const Json* found = member(json, "places");
  auto places = found ? print::places_from_json(*found) : Error{""};
  if (!places || places.value().empty()) return false;
  StripState& strip = app.strip;
  strip.picked = strip.places = places.take();
  strip.places_key = task.key;
  strip.part = 0;
  strip.part_trouble.clear();
  if (std::exchange(strip.make_then, false)) make_strip_file(app);
  return true;
}

bool take_file(App& app, const Task& task, const Json& json) {
  const Json* strip = member(json, "strip");
  const Json* patches = strip ? member(*strip, "patches") : nullptr;
  if (!patches) return false;
  StripState& state = app.strip;
  state.order = *strip;
  state.patches = *patches;
  state.paper = task.file;
  state.work = task.work;
  state.name = task.name;
  state.sentence = text_of(json, "sentence");
  save_delivery(app, task.work, task.name);
  tell(app, text(words::kStripMade, task.name.c_str()));
  return true;
}

bool take_back(App& app, const Task& task, const Json& json) {
  if (text_of(json, "kind") != "read_back") return false;
  StripReading reading;
  reading.paper = app.strip.paper;
  reading.sentence = text_of(json, "sentence");
  reading.mean = number_of(json, "mean");
  reading.p95 = number_of(json, "p95");
  reading.max = number_of(json, "max");
  if (const Json* found = member(json, "correction"); found && found->is_object()) {
    reading.correction = *found;
    reading.sentences = texts_of(*found, "sentences");
  }
  app.host.drop_file(task.file);
  app.strip.reading = reading;
  app.strip.lay_over = false;  // it is shown before it is used
  tell(app, reading.sentence);
  return true;
}

bool take_eye(App& app, const Json& json) {
  if (text_of(json, "kind") != "eye_reading") return false;
  StripReading reading;
  reading.paper = app.strip.paper;
  reading.sentences = texts_of(json, "sentences");
  app.strip.reading = reading;
  app.strip.lay_over = false;
  for (const std::string& sentence : reading.sentences) tell(app, sentence);
  return true;
}

}  // namespace

bool parts_current(const App& app) {
  return !app.strip.places.empty() && app.strip.places_key == places_key(app);
}

bool parts_moved(const App& app) {
  return !std::equal(app.strip.places.begin(), app.strip.places.end(), app.strip.picked.begin(),
                     app.strip.picked.end(),
                     [](const print::StripPlace& one, const print::StripPlace& other) {
                       return one.x == other.x && one.y == other.y;
                     });
}

void want_parts(App& app) {
  const std::string key = places_key(app);
  if (app.preview.empty() || parts_current(app) || app.strip.places_failed == key ||
      ImGui::IsAnyItemActive())
    return;
  if (const Task* earlier = find_task(app, TaskKind::strip_places)) {
    if (earlier->key == key) return;
    stop_task(app, earlier->work);
  }
  Task task;
  task.key = key;
  task.kind = TaskKind::strip_places;
  task.words = words::kStripChoosing;
  task.name = words::kStrip;
  add_task(app, task, places_request(app),
           {{"profile", app.job.master.profile_file}, {"picture", app.job.master.picture_file}});
}

void parts_failed(App& app, const Task& task) {
  app.strip.places_failed = task.key;
  app.strip.make_then = false;
}

void start_strip(App& app) {
  if (!app.job.chosen_paper() || app.preview.empty() || find_task(app, TaskKind::strip)) return;
  if (parts_current(app)) return make_strip_file(app);
  app.strip.make_then = true;
  app.strip.places_failed.clear();
  want_parts(app);
}

bool looks_like_text(const std::vector<uint8_t>& head) {
  return !head.empty() && std::all_of(head.begin(), head.end(), [](uint8_t letter) {
    return letter >= 0x20 || letter == '\n' || letter == '\r' || letter == '\t';
  });
}

// Text, while a strip is out: nothing else the page takes is plain text but recipes.
bool readings_expected(const App& app, const std::vector<uint8_t>& head) {
  return app.strip.patches.is_array() && looks_like_text(head);
}

void read_patches(App& app, TaskKind kind, const char* op, const PaperState& paper, FileId file,
                  const std::string& name) {
  Json request = print_request(app, op);
  request["patches"] = app.strip.patches;
  Task task;
  task.kind = kind;
  task.file = file;
  task.name = name;
  task.words = text(words::kReadingPaper, name.c_str());
  add_task(app, task, request,
           {{"profile", app.job.master.profile_file}, {"paper", paper.file}, {"readings", file}});
}

void readings_arrived(App& app, FileId file, const std::string& name) {
  const PaperState* paper = paper_of(app, app.strip.paper);
  if (!paper) return notice(app, words::kStripPaperGone);
  read_patches(app, TaskKind::read_back, "read_back", *paper, file, name);
}

void read_by_eye(App& app) {
  Task task;
  task.kind = TaskKind::eye;
  task.name = words::kStrip;
  add_task(app, task,
           {{"op", "eye_reading"},
            {"first_from_black", app.strip.seen_black},
            {"first_from_white", app.strip.seen_white}},
           {});
}

bool take_strip(App& app, const Task& task, const Json& json) {
  if (task.kind == TaskKind::strip_places) return take_places(app, task, json);
  if (task.kind == TaskKind::strip) return take_file(app, task, json);
  if (task.kind == TaskKind::eye) return take_eye(app, json);
  return take_back(app, task, json);
}

Json paper_reading(const App& app) {
  const StripReading& reading = app.strip.reading;
  const PaperState* paper = app.job.chosen_paper();
  const bool used = app.strip.lay_over && paper && paper->file == reading.paper;
  return used && reading.correction.is_object() ? reading.correction : Json();
}

}  // namespace proofleaf::shell
