#include "chart.h"

#include <algorithm>
#include <cmath>

#include "app.h"
#include "words_choice.h"

namespace proofleaf::shell {
namespace {

struct Plot {
  Rect rect;
  Axis x, y;
  ImVec2 at(double px, double py) const {
    return {rect.x + float((px - x.low) / (x.high - x.low)) * rect.w,
            rect.bottom() - float((py - y.low) / (y.high - y.low)) * rect.h};
  }
  double x_of(float sx) const { return x.low + (sx - rect.x) / rect.w * (x.high - x.low); }
  double y_of(float sy) const { return y.low + (rect.bottom() - sy) / rect.h * (y.high - y.low); }
};

std::string mark_words(double value, double step) {
  const std::string digits =
      step < 1 ? text("%.1f", std::fabs(value)) : text("%.0f", std::fabs(value));
  return value < -1e-9 ? "−" + digits : digits;
}

// One scale for both axes: the shorter side decides, the longer axis shows more.
void make_equal(Plot& plot) {
  const double wide = plot.x.high - plot.x.low, tall = plot.y.high - plot.y.low;
  const double unit = std::max(wide / plot.rect.w, tall / plot.rect.h);
  const double more_x = (unit * plot.rect.w - wide) / 2, more_y = (unit * plot.rect.h - tall) / 2;
  plot.x.low -= more_x;
  plot.x.high += more_x;
  plot.y.low -= more_y;
  plot.y.high += more_y;
}

void draw_axes(const App& app, ImDrawList* list, const Plot& plot) {
  const Look& look = app.look;
  list->AddRectFilled(plot.rect.min(), plot.rect.max(), grey::kField);
  const float line = look.size(Face::small);
  for (double v = std::ceil(plot.x.low / plot.x.step - 1e-9) * plot.x.step; v <= plot.x.high + 1e-9;
       v += plot.x.step) {
    const ImVec2 foot = plot.at(v, plot.y.low);
    list->AddLine({foot.x, plot.rect.y}, foot, grey::kHairline);
    const std::string said = mark_words(v, plot.x.step);
    look.put(list, Face::small, {foot.x - look.measure(Face::small, said).x / 2, foot.y + 2},
             grey::kFaintInk, said);
  }
  for (double v = std::ceil(plot.y.low / plot.y.step - 1e-9) * plot.y.step; v <= plot.y.high + 1e-9;
       v += plot.y.step) {
    const ImVec2 foot = plot.at(plot.x.low, v);
    list->AddLine(foot, {plot.rect.right(), foot.y}, grey::kHairline);
    const std::string said = mark_words(v, plot.y.step);
    look.put(list, Face::small,
             {foot.x - look.measure(Face::small, said).x - k4, foot.y - line / 2}, grey::kFaintInk,
             said);
  }
  list->AddRect(plot.rect.min(), plot.rect.max(), grey::kEdge);
  const float name = look.measure(Face::small, plot.x.name).x;
  look.put(list, Face::small, {plot.rect.right() - name, plot.rect.bottom() + 2 + line},
           grey::kFaintInk, plot.x.name);
  look.put(list, Face::small, {plot.rect.x + k4, plot.rect.y + 2}, grey::kFaintInk, plot.y.name);
}

void draw_dashes(ImDrawList* list, const std::vector<ImVec2>& points, ImU32 colour, float thick) {
  constexpr float kDash = 6;
  float along = 0;  // of the dash and gap, [CSS px]
  for (size_t i = 1; i < points.size(); ++i) {
    const ImVec2 a = points[i - 1], b = points[i];
    const float length = std::hypot(b.x - a.x, b.y - a.y);
    for (float at = 0; at < length;) {
      const float left = kDash - std::fmod(along, kDash);
      const float end = std::min(length, at + std::max(left, 0.5f));
      const auto on = [&](float t) {
        return ImVec2(a.x + (b.x - a.x) * t / length, a.y + (b.y - a.y) * t / length);
      };
      if (std::fmod(along, 2 * kDash) < kDash) list->AddLine(on(at), on(end), colour, thick);
      along += end - at;
      at = end;
    }
  }
}

void draw_line(ImDrawList* list, const Plot& plot, const ChartLine& line) {
  std::vector<ImVec2> points;
  for (const auto& [x, y] : line.points) points.push_back(plot.at(x, y));
  if (points.empty()) return;
  if (line.closed) points.push_back(points.front());
  const ImU32 colour = line.faint ? grey::kEdge : grey::kInk;
  const float thick = line.faint ? 1.f : 2.f;
  if (line.broken)
    draw_dashes(list, points, colour, 1.6f);
  else
    list->AddPolyline(points.data(), int(points.size()), colour, 0, thick);
}

Plot plot_in(const App& app, const Chart& chart, const Rect& all) {
  const float line = app.look.size(Face::small);
  const float head = app.look.size(Face::bold) + line + k8, foot = 2 * line + k8;
  const float left = app.look.measure(Face::small, "−100").x + k8;
  Plot plot{
      {all.x + left, all.y + head, all.w - left - k12, all.h - head - foot}, chart.x, chart.y};
  if (chart.equal) make_equal(plot);
  return plot;
}

// Moves the place where it is read; empty when it is not being read.
std::optional<double> reading_of(App& app, const Chart& chart, const Ui::Item& it, const Plot& plot,
                                 bool keys) {
  auto& cursors = app.choice.cursors;
  const ImVec2 mouse = ImGui::GetIO().MousePos;
  // A mouse that merely rests there leaves the chart to the keys.
  const ImVec2 moved = ImGui::GetIO().MouseDelta;
  const bool rests = keys && !it.held && moved.x == 0 && moved.y == 0;
  const bool pointed = (it.hovered || it.held) && !rests && plot.rect.holds(mouse.x, mouse.y);
  const auto found = cursors.find(chart.id);
  double value = found == cursors.end() ? (chart.first + chart.last) / 2 : found->second;
  if (pointed) {
    const double x = plot.x_of(mouse.x), y = plot.y_of(mouse.y);
    value = chart.value_at ? chart.value_at(x, y) : x;
  } else if (keys) {
    value = std::round(value / chart.step + app.choice.steps_x) * chart.step;
  } else if (found == cursors.end() || !app.look.touch()) {
    return std::nullopt;  // a finger's reading stays once the finger has left
  }
  value = std::clamp(value, chart.first, chart.last);
  cursors[chart.id] = value;
  return value;
}

}  // namespace

double even_step(double range, int count) {
  const double rough = range / std::max(1, count);
  const double power = std::pow(10, std::floor(std::log10(rough)));
  for (const double factor : {1.0, 2.0, 5.0})
    if (factor * power >= rough) return factor * power;
  return 10 * power;
}

bool chart_has_keys(App& app, const std::string& id, const std::string& spoken) {
  if (app.ui.focused != spoken) return false;
  app.choice.chart_at = id;
  return true;
}

void draw_chart(App& app, const Chart& chart, float width, float height) {
  const auto kept = app.choice.cursors.find(chart.id);
  const double before =
      kept == app.choice.cursors.end() ? (chart.first + chart.last) / 2 : kept->second;
  const std::string spoken = chart.title + ". " + chart.read(before) + ". ";
  const Ui::Item it = app.ui.item(chart.id, width, height, spoken);
  const bool keys = chart_has_keys(app, chart.id, spoken);
  const Plot plot = plot_in(app, chart, it.rect);
  const std::optional<double> value = reading_of(app, chart, it, plot, keys);
  ImDrawList* list = ImGui::GetWindowDrawList();
  app.look.put(list, Face::bold, it.rect.min(), grey::kInk, chart.title);
  app.look.put_clipped(list, Face::small, {it.rect.x, it.rect.y + app.look.size(Face::bold) + 2},
                       it.rect.w, value ? grey::kInk : grey::kFaintInk,
                       value ? chart.read(*value) : words::kChartHint);
  draw_axes(app, list, plot);
  list->PushClipRect(plot.rect.min(), plot.rect.max(), true);
  for (const ChartLine& line : chart.lines) draw_line(list, plot, line);
  if (value && chart.mark) draw_line(list, plot, chart.mark(*value));
  list->PopClipRect();
  if (keys && app.choice.steps_x != 0) app.host.request_frame();
}

}  // namespace proofleaf::shell
