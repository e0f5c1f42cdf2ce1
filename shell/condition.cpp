// Asks for the condition report when nothing more urgent waits, and reads it.
#include "condition.h"

#include <algorithm>
#include <cmath>

#include "app.h"
#include "json_read.h"
#include "words_condition.h"

namespace proofleaf::shell {
namespace {

constexpr size_t kMostFindings = 100, kMostSpots = 500;

const Json& list_of(const Json& object, const char* name) {
  static const Json none = Json::array();
  const Json* value = member(object, name);
  return value && value->is_array() ? *value : none;
}

// [x, y, w, h], or an empty box.
Box box_from(const Json& json) {
  if (!json.is_array() || json.size() != 4) return {};
  for (const Json& each : json)
    if (!each.is_number()) return {};
  return {json[0].get<double>(), json[1].get<double>(), json[2].get<double>(),
          json[3].get<double>()};
}

bool within(const Box& box, double width, double height) {
  return box.w > 0 && box.h > 0 && box.x >= 0 && box.y >= 0 && box.x + box.w <= width + 1 &&
         box.y + box.h <= height + 1;
}

Severity severity_of(const std::string& word) {
  return word == "act" ? Severity::act : word == "look" ? Severity::look : Severity::good;
}

// As many digits as a person reads off: 0.42, 3.1, 57.
std::string value_words(const Json& finding) {
  const Json* value = member(finding, "value");
  if (!value || !value->is_number()) return "";
  const double number = value->get<double>(), size = std::fabs(number);
  const bool whole = number == std::round(number);
  std::string said = text(whole || size >= 100 ? "%.0f" : size >= 1 ? "%.1f" : "%.2f", size);
  if (number < 0) said = "−" + said;
  const std::string unit = proofleaf::said(text_of(finding, "unit").c_str());
  return unit.empty() ? said : said + "\u00a0" + unit;
}

Finding finding_from(const Json& json, double width, double height) {
  Finding finding{text_of(json, "id"),    severity_of(text_of(json, "severity")),
                  text_of(json, "title"), text_of(json, "what"),
                  text_of(json, "why"),   text_of(json, "do"),
                  value_words(json),      {}};
  for (const Json& each : list_of(json, "places"))
    if (const Box box = box_from(each); within(box, width, height)) finding.places.push_back(box);
  return finding;
}

void read_spots(const Json& json, double width, double height, Report& report) {
  for (const Json& each : list_of(json, "dust")) {
    if (report.spots.size() == kMostSpots) return;
    const double d = std::clamp(number_of(each, "diameter"), 1.0, 1e4);
    const double x = number_of(each, "x", -1), y = number_of(each, "y", -1);
    if (x < 0 || y < 0 || x > width || y > height) continue;
    report.spots.push_back({{x - d / 2, y - d / 2, d, d}, d, number_of(each, "contrast")});
  }
}

int& count_for(Report& report, Severity severity) {
  return severity == Severity::act    ? report.act
         : severity == Severity::look ? report.look
                                      : report.good;
}

// The width asked for [mm], where it is not the one at 300 ppi.
std::optional<double> print_width_mm(const App& app) {
  if (app.condition.width_cm <= 0) return std::nullopt;
  return app.condition.width_cm * 10;
}

Json request_for(const App& app) {
  Json request = {
      {"op", "condition"}, {"assume", app.job.master.assume}, {"dust_mm", app.condition.dust_mm}};
  if (const auto width = print_width_mm(app)) request["print_width_mm"] = *width;
  return request;
}

std::string condition_key(const App& app) {
  return std::to_string(app.job.master.version) + language() + dump_json(request_for(app));
}

// The proof is on the screen, or there is no paper to proof for.
bool first_proof_shown(const App& app) {
  return app.job.chosen_paper() ? proof_ready(app)
                                : !app.preview.empty() && app.master_cube.exact();
}

// Work in the lane of the report, which then waits.
bool lane_is_wanted(App& app) {
  return find_task(app, TaskKind::deliver) || find_task(app, TaskKind::open);
}

void drop_work(App& app) {
  if (app.condition.work == 0) return;
  app.host.cancel(app.condition.work);
  app.condition.work = 0;
  app.condition.asked.clear();
}

// Another master: what was said of the last one goes, the person's measures stay.
void follow_master(App& app) {
  ConditionState& c = app.condition;
  if (c.version == app.job.master.version) return;
  drop_work(app);
  ConditionState fresh;
  fresh.dust_mm = c.dust_mm;
  fresh.version = app.job.master.version;
  c = fresh;
}

void start_report(App& app, const std::string& key) {
  ConditionState& c = app.condition;
  c.share = 0;
  c.asked = key;
  c.failed.clear();
  c.work = app.host.start(dump_json(request_for(app)), master_files(app));
}

}  // namespace

const Finding* Report::find(const std::string& id) const {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&](const Finding& each) { return each.id == id; });
  return found == findings.end() ? nullptr : &*found;
}

std::optional<Report> report_from(const Json& json) {
  if (text_of(json, "kind") != "condition") return std::nullopt;
  const double width = number_of(json, "width"), height = number_of(json, "height");
  Report report;
  report.print_ppi = number_of(json, "print_ppi", 300);
  report.dust_px = number_of(json, "dust_px");
  for (const Json& each : list_of(json, "findings")) {
    if (report.findings.size() == kMostFindings) break;
    report.findings.push_back(finding_from(each, width, height));
    ++count_for(report, report.findings.back().severity);
  }
  for (const Json& each : list_of(json, "unsaid"))
    if (const std::string what = text_of(each, "what"); !what.empty())
      report.unsaid.push_back(what);
  read_spots(json, width, height, report);
  for (const Json& each : list_of(json, "print_sizes"))
    report.sizes.push_back({number_of(each, "ppi"), number_of(each, "width_cm"),
                            number_of(each, "height_cm"), number_of(each, "distance_cm")});
  return report;
}

std::string summary_words(const Report& report) {
  const std::string things = report.act == 1 ? words::kMendOne : text(words::kMendSome, report.act);
  if (report.act > 0 && report.look > 0) return things + text(words::kAndLook, report.look) + ".";
  if (report.act > 0) return things + ".";
  if (report.look > 0)
    return text(report.look == 1 ? words::kLookOne : words::kLookSome, report.look);
  return words::kAllInOrder;
}

void update_condition(App& app) {
  ConditionState& c = app.condition;
  follow_master(app);
  if (app.job.master.file == 0) return;
  const std::string key = condition_key(app);
  if (c.work != 0 && (lane_is_wanted(app) || c.asked != key)) drop_work(app);
  if (c.work != 0 || c.asked == key || c.stopped || !c.failed.empty()) return;
  if (!app.tasks.empty() || !first_proof_shown(app)) return;
  start_report(app, key);
}

void ask_condition_again(App& app) {
  app.condition.stopped = false;
  app.condition.failed.clear();
  app.condition.asked.clear();
  app.host.request_frame();
}

void stop_condition(App& app) {
  drop_work(app);
  app.condition.stopped = true;
}

bool condition_answered(App& app, int work, const std::string& json_text) {
  ConditionState& c = app.condition;
  if (work == 0 || work != c.work) return false;
  c.work = 0;
  Json json = parse_json(json_text);
  std::optional<Report> report = report_from(json);
  if (!report) {
    c.failed = words::kConditionUnread;
    return true;
  }
  end_walk(app);
  c.report = std::move(report);
  c.answer = std::move(json);
  if (!c.report->find(c.open)) c.open.clear();
  tell(app, std::string(words::kCondition) + ": " + summary_words(*c.report));
  return true;
}

bool condition_failed(App& app, int work, const std::string& sentence) {
  if (work == 0 || work != app.condition.work) return false;
  app.condition.work = 0;
  app.condition.failed = sentence;
  tell(app, sentence);
  return true;
}

void condition_progress(App& app, int work, double share) {
  if (work != 0 && work == app.condition.work) app.condition.share = std::clamp(share, 0.0, 1.0);
}

std::string condition_words(const App& app) {
  const ConditionState& c = app.condition;
  if (!c.report) return "";
  std::string said = " " + std::string(words::kCondition) + ": " + summary_words(*c.report);
  for (const Finding& each : c.report->findings)
    if (each.severity != Severity::good) said += " " + each.title + ": " + each.what;
  return said;
}

std::string condition_summary(const App& app) {
  const auto& report = app.condition.report;
  if (!report || report->act + report->look == 0) return "";
  return report->act > 0 ? text(words::kAndMend, report->act) : text(words::kAndLook, report->look);
}

Json condition_json(const App& app) {
  const ConditionState& c = app.condition;
  Json json = {{"working", c.work != 0},
               {"share", c.share},
               {"stopped", c.stopped},
               {"failed", c.failed},
               {"open", c.open},
               {"walk", c.walk},
               {"at", c.at},
               {"places", walk_boxes(app).size()},
               {"dust_mm", c.dust_mm},
               {"width_cm", c.width_cm},
               {"summary", c.report ? Json(summary_words(*c.report)) : Json()},
               {"report", c.report ? c.answer : Json()}};
  return json;
}

}  // namespace proofleaf::shell
