// The same state told in words, for screen readers, and as JSON, for tests and support.
#include <cmath>

#include "app.h"
#include "json_read.h"
#include "print/proofing_json.h"
#include "proof/words.h"
#include "words.h"
#include "words_screen.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

constexpr double kTellEvery = 0.3;  // the standing description is renewed at most that often [s]
constexpr const char* kCompareIds[] = {"side by side", "divided", "held"};
constexpr Words kCompareWords[] = {words::kSideBySide, words::kDivided, words::kHeld};

std::string master_words(const MasterState& m) {
  if (m.file == 0) return words::kSayNoMaster;
  return text(words::kSayMaster, m.name.c_str(), m.width, m.height, m.bits,
              m.assumed ? words::kSayTakenAs : words::kSayGiven, m.profile_title.c_str());
}

std::string paper_words(const App& app) {
  const PaperState* paper = app.job.chosen_paper();
  if (!paper) return words::kSayNoPaper;
  return text(words::kSayPaper, paper->name.c_str(), paper->white.l, paper->black.l,
              intent_words(app.job.print.intent),
              app.job.print.black_point_compensation ? words::kOn : words::kOff);
}

std::string delivery_words(const App& app) {
  const DeliverySettings& d = app.job.delivery;
  if (app.job.delivered)
    return text(words::kSayDelivered, app.job.delivered->name.c_str(), app.job.delivered->mean,
                app.job.delivered->max) +
           app.job.delivered->sentence;
  return text(words::kSayDelivery, d.tiff ? "TIFF" : "JPEG", d.tiff ? d.bits : 8, d.ppi,
              d.keep_private ? words::kSayKept : words::kSayLeftOut);
}

std::string standing_words(const App& app) {
  std::string said = master_words(app.job.master) + " " + paper_words(app);
  if (const auto share = off_gamut_share(app))
    said += " " + text(words::kShare, percent(*share).c_str(), app.job.marking.threshold);
  said += text(words::kSayShown, kCompareWords[int(app.job.compare)]);
  if (screen_corrected(app)) said += words::kScreenCorrectedSpoken;
  said += delivery_words(app);
  said += text(words::kSayFitAndSize, fit_summary(app).c_str(), size_summary(app).c_str());
  said += choice_words(app);
  said += condition_words(app);
  for (const Task& task : app.tasks)
    if (now() - task.since > kTellEvery && !is_choice_work(task))
      said += " " + text(words::kSayWork, task.words.c_str(), std::floor(task.share * 10) * 10);
  if (app.job.view.cross && app.reading)
    for (const std::string& line : reading_lines(app)) said += " " + line + ".";
  for (const Notice& each : app.job.notices) said += words::kSayNotice + each.sentence;
  return said;
}

Json rects_json(const App& app) {
  Json rects = Json::object();
  for (const auto& [id, r] : app.ui.rects) rects[id] = {r.x, r.y, r.w, r.h};
  return rects;
}

Json delivered_json(const DeliveryResult& r) {
  return {{"name", r.name},   {"width", r.width},     {"height", r.height},
          {"bytes", r.bytes}, {"mean", r.mean},       {"p95", r.p95},
          {"max", r.max},     {"samples", r.samples}, {"sentence", r.sentence}};
}

Json master_json(const MasterState& m) {
  return {{"name", m.name},       {"width", m.width},   {"height", m.height},
          {"bits", m.bits},       {"model", m.model},   {"profile", m.profile_title},
          {"assumed", m.assumed}, {"assume", m.assume}, {"version", m.version}};
}

Json view_json(const App& app) {
  const View& view = app.job.view;
  const Pane pane = panes(app).front();
  return {{"whole", view.whole}, {"zoom", zoom_of(app, pane)}, {"x", view.x},
          {"y", view.y},         {"divider", view.divider},    {"master_held", view.master_held},
          {"cross", view.cross}, {"cross_x", view.cross_x},    {"cross_y", view.cross_y}};
}

Json detail_json(const Detail& detail) {
  uint32_t in_view = 0;
  for (const auto& tile : detail.tiles) in_view += tile->in_view ? 1 : 0;
  return {{"tiles", detail.tiles.size()},
          {"bytes", detail.bytes()},
          {"in_view", in_view},
          {"missing", detail.missing},
          {"asked", detail.asked_count}};
}

}  // namespace

std::string percent(double share) {
  const double value = share * 100;
  if (value == 0) return words::kShareNone;
  if (value < 0.1) return words::kLessThanTenth;
  return text(value < 9.95 ? "%.1f %%" : "%.0f %%", value);
}

void tell(App& app, const std::string& sentence) {
  app.news += (app.news.empty() ? "" : " ") + sentence;
  app.host.request_frame();
}

// What the cross reads, whenever it comes to rest somewhere new.
void tell_reading(App& app) {
  std::string said;
  if (app.job.view.cross && app.reading) {
    for (const std::string& line : reading_lines(app)) said += line + ". ";
  }
  if (said == app.told_reading) return;
  app.told_reading = said;
  if (!said.empty()) tell(app, said);
}

void update_voice(App& app) {
  if (app.ui.focused != app.told_focus) {
    app.told_focus = app.ui.focused;
    if (!app.told_focus.empty()) tell(app, app.told_focus);
  }
  const bool due = now() - app.told_at > kTellEvery;
  if (due) tell_reading(app);
  const std::string state = standing_words(app);
  const bool fresh = state != app.told_state;
  app.voice_waits = fresh && !due && app.news.empty();
  if (app.voice_waits || (!fresh && app.news.empty())) return;
  app.host.describe(state, app.news);
  app.told_state = state;
  app.told_at = now();
  app.news.clear();
}

std::string state_as_json(const App& app) {
  const JobState& job = app.job;
  const PaperState* paper = job.chosen_paper();
  Json busy = Json::array();
  for (const Task& task : app.tasks)  // what the proof leaves time for holds nobody up
    if (!is_choice_work(task)) busy.push_back({{"words", task.words}, {"share", task.share}});
  Json papers = Json::array();
  for (const PaperState& each : job.papers) papers.push_back(each.name);
  Json json = {
      {"recipe", recipe_state_json(app)},
      {"sheet",
       {{"deliveries", app.sheet.deliveries.size()},
        {"digest", app.sheet.digest},
        {"number", app.sheet.number},
        {"of", app.sheet.of}}},
      {"batch", batch_json(app)},
      {"wall", wall_shown(app)},
      {"screen_pixels_per_mm", app.screen.pixels_per_mm},
      {"local_contrast", app.contrast.used.empty() ? 0 : app.contrast.amount},
      {"strip",
       {{"name", app.strip.name},
        {"patches", app.strip.patches},
        {"order", app.strip.order},
        {"places", print::to_json(app.strip.places)},
        {"moved", parts_moved(app)},
        {"part_trouble", app.strip.part_trouble},
        {"sentence", app.strip.reading.sentence},
        {"sentences", app.strip.reading.sentences},
        {"correction", app.strip.reading.correction},
        {"lay_over", app.strip.lay_over}}},
      {"ready", proof_ready(app)},
      {"master", job.master.file ? master_json(job.master) : Json()},
      {"working",
       {{"most", app.working_pixels},
        {"width", app.preview.columns},
        {"height", app.preview.rows},
        {"offered", app.smaller ? Json(app.smaller->pixels) : Json()}}},
      {"paper", paper ? Json(paper->name) : Json()},
      {"papers", papers},
      {"intent", word_for(job.print.intent)},
      {"black_point_compensation", job.print.black_point_compensation},
      {"paper_white", job.proof_view.paper_white},
      {"paper_black", job.proof_view.paper_black},
      {"screen", word_for(app.surroundings.display_p3 ? Screen::display_p3 : Screen::srgb)},
      {"compare", kCompareIds[int(job.compare)]},
      {"marking", job.marking.on},
      {"threshold", job.marking.threshold},
      {"view", view_json(app)},
      {"grid", app.preview.proof.grid},
      {"proof", app.proof_gl.ready() ? "gpu" : "cpu"},
      {"proof_why", app.proof_gl.trouble()},
      {"proof_ms", app.proof_cost.seconds * 1000},
      {"detail", detail_json(app.detail)},
      {"leaf", int(job.leaf) + 1},
      {"sheet_raised", job.sheet_raised},
      {"busy", busy},
      {"focused", app.ui.focused},
      {"last_notice", job.last_notice},
      {"notices", int(job.notices.size())},
      {"delivery_name", delivery_name(app)},
      {"delivered", job.delivered ? delivered_json(*job.delivered) : Json()},
      {"choice", choice_json(app)},
      {"rects", rects_json(app)}};
  json["screen_check"] = check_json(app);
  json["language"] = language();
  json["texts"] = app.look.texts;
  json["condition"] = condition_json(app);
  json["returned"] = returned_json(app);
  json["shelf"] = shelf_json(app);
  json["offering"] = offering_json(app);
  const auto share = off_gamut_share(app);
  json["off_gamut_share"] = share ? Json(*share) : Json();
  if (app.reading)
    json["reading"] = {{"delta_e", app.reading->point.delta_e},
                       {"lines", reading_lines(app)},
                       {"x", app.reading->x},
                       {"y", app.reading->y}};
  return dump_json(json);
}

}  // namespace proofleaf::shell
