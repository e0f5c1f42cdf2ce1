// The condition report on leaf 1: a summary, the findings, the sizes, and what could not be told.
#include <algorithm>

#include "app.h"
#include "condition.h"
#include "words.h"
#include "words_condition.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

void draw_working(App& app) {
  Ui& ui = app.ui;
  ConditionState& c = app.condition;
  if (c.work != 0) {
    ui.words(Face::body, text(words::kConditionReading, c.share * 100));
    ui.bar(float(c.share), ui.width());
    if (ui.button("stop-condition", words::kStop, false)) stop_condition(app);
  } else if (c.stopped || !c.failed.empty()) {
    ui.words(Face::body, c.stopped ? words::kConditionStopped : c.failed);
    if (ui.button("ask-condition", words::kConditionAgain, false)) ask_condition_again(app);
  } else if (!c.report) {
    ui.help(words::kConditionWaits);
  }
}

// The places of a finding as numbers to press, in rows.
void draw_place_buttons(App& app, const Finding& finding) {
  Ui& ui = app.ui;
  const int count = int(finding.places.size());
  ui.help(count == 1 ? words::kPlaceOne : text(words::kPlaceCount, count));
  const float each = std::max(app.look.target(), 40.f);
  const int in_row = std::max(1, int((ui.width() + k4) / (each + k4)));
  for (int i = 0; i < count; ++i) {
    if (i % in_row != 0) ImGui::SameLine(0, k4);
    const bool here = app.condition.walk == finding.id && app.condition.at == i;
    const std::string number = std::to_string(i + 1);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const Ui::Item it = ui.item("place-" + finding.id + "-" + number, each, app.look.target(),
                                text(words::kPlaceNumber, finding.title.c_str(), number.c_str()) +
                                    (here ? std::string(words::kPlaceShown) : ""));
    ImDrawList* list = ImGui::GetWindowDrawList();
    if (it.hovered || it.held || here)
      list->AddRectFilled(it.rect.min(), it.rect.max(), here ? grey::kPressed : grey::kField, 4);
    list->AddRect(it.rect.min(), it.rect.max(), grey::kEdge, 4, 0, here ? 2.f : 1.f);
    const ImVec2 size = app.look.measure(Face::small, number);
    app.look.put(list, Face::small,
                 {at.x + (each - size.x) / 2, at.y + (app.look.target() - size.y) / 2}, grey::kInk,
                 number);
    if (it.pressed) walk_to(app, finding.id, i);
  }
}

void draw_opened(App& app, const Finding& finding) {
  Ui& ui = app.ui;
  ImGui::Indent(k16);
  if (finding.severity == Severity::good) ui.help(finding.what);
  if (!finding.why.empty()) ui.help(finding.why);
  if (!finding.todo.empty()) ui.words(Face::small, finding.todo);
  const bool spots = finding.id == "dust" && !app.condition.report->spots.empty();
  if (spots) {
    if (ui.button("walk-spots", words::kSpotWalk, false)) walk_to(app, finding.id, 0);
  } else if (!finding.places.empty()) {
    draw_place_buttons(app, finding);
  }
  ImGui::Unindent(k16);
  ui.space(k8);
}

// Pressing a finding opens its words and takes the picture to its first place.
void draw_finding(App& app, const Finding& finding) {
  ConditionState& c = app.condition;
  const bool open = c.open == finding.id;
  const float room = app.look.measure(Face::small, finding.value).x + k16;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float wide = app.ui.width();
  const std::string line = finding.severity == Severity::good ? "" : finding.what;
  const bool pressed = app.ui.choice("finding-" + finding.id, finding.title, line, open, room);
  const float high = ImGui::GetItemRectSize().y;
  const float middle =
      line.empty() ? at.y + (high - app.look.size(Face::small)) / 2 : at.y + k8 + 1;
  app.look.put(ImGui::GetWindowDrawList(), Face::small, {at.x + wide - room + k8, middle},
               grey::kInk, finding.value);
  if (pressed) {
    c.open = open ? "" : finding.id;
    if (open)
      end_walk(app);
    else
      walk_to(app, finding.id, 0);
  }
  if (open) draw_opened(app, finding);
}

void draw_group(App& app, Severity severity, const Words& heading) {
  // Going to a place may not change the list, so its members can be held.
  bool any = false;
  for (const Finding& each : app.condition.report->findings) {
    if (each.severity != severity) continue;
    if (!any) app.ui.section(heading);
    any = true;
    draw_finding(app, each);
  }
}

double width_at_300(const App& app) { return app.job.master.width / 300.0 * 2.54; }

void draw_measures(App& app) {
  Ui& ui = app.ui;
  ConditionState& c = app.condition;
  const Report& report = *c.report;
  const double usual = width_at_300(app);
  double width = c.width_cm > 0 ? c.width_cm : usual;
  ui.space(k12);
  if (ui.decimal("print-width", words::kPrintWidth, text(words::kPrintWidthHelp, report.print_ppi),
                 &width, 1, 1000, usual)) {
    c.width_cm = width == usual ? 0 : width;
    ask_condition_again(app);
  }
  if (ui.decimal("spot-size", words::kSpotSize, text(words::kSpotSizeHelp, report.dust_px),
                 &c.dust_mm, 0.05, 20, 0.5))
    ask_condition_again(app);
}

void draw_sizes(App& app) {
  const Report& report = *app.condition.report;
  if (report.sizes.empty()) return;
  Ui& ui = app.ui;
  ui.section(words::kSizes);
  const float wide = ui.width(), line = app.look.size(Face::small) + k4;
  for (const PrintSize& size : report.sizes) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList* list = ImGui::GetWindowDrawList();
    app.look.put(list, Face::small, at, grey::kInk, text(words::kSizeLine, size.ppi));
    app.look.put(list, Face::small, {at.x + wide * 0.22f, at.y}, grey::kInk,
                 text(words::kSizeCm, size.width_cm, size.height_cm));
    app.look.put_clipped(list, Face::small, {at.x + wide * 0.62f, at.y}, wide * 0.38f,
                         grey::kFaintInk, text(words::kSizeFrom, size.distance_cm));
    ImGui::Dummy({wide, line - ImGui::GetStyle().ItemSpacing.y + k4});
  }
  ui.help(words::kSizesHelp);
}

void draw_unsaid(App& app) {
  const Report& report = *app.condition.report;
  if (report.unsaid.empty()) return;
  app.ui.section(words::kUnsaid);
  for (const std::string& line : report.unsaid) app.ui.help(line);
}

void draw_saving(App& app) {
  Ui& ui = app.ui;
  ui.section(words::kReport);
  ui.help(words::kReportHelp);
  if (ui.button("save-page", words::kSavePage, false)) save_report(app, ReportKind::page);
  if (ui.button("save-numbers", words::kSaveNumbers, false)) save_report(app, ReportKind::numbers);
}

}  // namespace

void draw_condition(App& app) {
  app.ui.space(k12);
  app.ui.words(Face::bold, words::kCondition);
  if (app.condition.report) app.ui.words(Face::body, summary_words(*app.condition.report));
  if (!app.condition.report) return draw_working(app);
  draw_group(app, Severity::act, words::kToMend);
  draw_group(app, Severity::look, words::kToLookAt);
  draw_group(app, Severity::good, words::kInOrder);
  draw_measures(app);
  draw_working(app);  // beneath what was changed
  draw_sizes(app);
  draw_unsaid(app);
  draw_saving(app);
}

}  // namespace proofleaf::shell
