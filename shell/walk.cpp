// The walk from one place of a finding to the next: the picture goes there, the place is outlined,
// and a slip with buttons lies above the foot line.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "condition.h"
#include "words_condition.h"
#include "words_returned.h"

namespace proofleaf::shell {
namespace {

constexpr double kFill = 0.5;            // of the pane, by a place that is walked to
constexpr float kLeastOutline = 28;      // [CSS px] a side
constexpr float kAir = 6, kCorner = 10;  // around the place; the turned corner [CSS px]
constexpr char kDust[] = "dust";

bool walks_spots(const ConditionState& c) {
  return c.walk == kDust && c.report && !c.report->spots.empty();
}

// Spots are seen pixel by pixel; other places as large as they fit, at most so.
double zoom_for(const App& app, const Box& box, const Pane& pane) {
  constexpr double kNearMark = 3;  // marks are small, and no pixels of the master
  if (walks_spots(app.condition)) return 1;
  const double r = app.look.ratio();
  return std::min({app.condition.walk == kReturnedWalk ? kNearMark : 1.0,
                   pane.rect.w * r * kFill / box.w, pane.rect.h * r * kFill / box.h});
}

// Where on its pane a place is to lie: its middle, or that of the master's half.
float wanted_x(const App& app, const Pane& pane) {
  const float middle = pane.rect.x + pane.rect.w / 2;
  if (!pane.master || !pane.proof) return middle;
  const float line = pane.rect.x + pane.rect.w * float(app.job.view.divider);
  if (line - pane.rect.x > pane.rect.w / 4) return (pane.rect.x + line) / 2;
  return (line + pane.rect.right()) / 2;
}

void show_place(App& app, const Box& box) {
  if (app.preview.empty()) return;
  const Pane pane = panes(app).front();
  const float x = pane.rect.x + pane.rect.w / 2, y = pane.rect.y + pane.rect.h / 2;
  const double zoom = zoom_for(app, box, pane);
  zoom_to(app, zoom, x, y);
  View& view = app.job.view;
  if (view.whole) return;
  const double shown = app.job.master.width * view.zoom / app.look.ratio();  // [CSS px]
  view.x = (box.x + box.w / 2) / app.job.master.width - (wanted_x(app, pane) - x) / shown;
  view.y = (box.y + box.h / 2) / app.job.master.height;
  pan_by(app, 0, 0);  // no more table than must be
}

std::string walk_words(const App& app) {
  const ConditionState& c = app.condition;
  if (c.walk == kReturnedWalk)
    return text(words::kWalkAt, c.at + 1, int(walk_boxes(app).size()), words::kMarkTitle);
  const Finding* finding = c.report ? c.report->find(c.walk) : nullptr;
  if (!finding) return "";
  return text(words::kWalkAt, c.at + 1, int(walk_boxes(app).size()), finding->title.c_str());
}

std::string spot_words(const App& app) {
  const ConditionState& c = app.condition;
  if (c.walk == kReturnedWalk) return returned_mark_words(app, c.at);
  if (!walks_spots(c)) return "";
  const Spot& spot = c.report->spots[size_t(c.at)];
  return text(words::kWalkSpot, spot.diameter / c.report->print_ppi * 25.4,
              std::fabs(spot.contrast), spot.contrast < 0 ? words::kDarker : words::kLighter);
}

Rect on_screen(const App& app, const Pane& pane, const Box& box) {
  const Rect place = picture_place(app, pane);
  const double scale = place.w / app.job.master.width;
  const double cx = place.x + (box.x + box.w / 2) * scale;
  const double cy = place.y + (box.y + box.h / 2) * scale;
  const float w = std::max(kLeastOutline, float(box.w * scale) + 2 * kAir);
  const float h = std::max(kLeastOutline, float(box.h * scale) + 2 * kAir);
  return {std::round(float(cx) - w / 2) + 0.5f, std::round(float(cy) - h / 2) + 0.5f, std::round(w),
          std::round(h)};
}

// A slip of paper with one corner turned down, in grey with a pale core: it shows on any picture
// and colours none.
void outline(ImDrawList* list, const Rect& r, bool chosen) {
  const float c = std::min(kCorner, std::min(r.w, r.h) / 3);
  const ImVec2 edge[] = {{r.x, r.y},
                         {r.right() - c, r.y},
                         {r.right(), r.y + c},
                         {r.right(), r.bottom()},
                         {r.x, r.bottom()}};
  const ImVec2 flap[] = {{r.right() - c, r.y}, {r.right() - c, r.y + c}, {r.right(), r.y + c}};
  for (const bool rim : {true, false}) {
    const ImU32 colour = rim ? grey::kInk : grey::kPale;
    const float thick = (chosen ? 1.5f : 1.f) + (rim ? 2.f : 0.f);
    list->AddPolyline(edge, 5, colour, ImDrawFlags_Closed, thick);
    if (chosen) list->AddPolyline(flap, 3, colour, 0, thick);
  }
}

bool meet(const Rect& a, const Rect& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

struct Step {
  const char* id;
  Words words;
  int by;
};
constexpr Step kSteps[] = {{"walk-previous", words::kPrevious, -1},
                           {"walk-next", words::kNext, 1},
                           {"walk-done", words::kDone, 0}};

float steps_width(const App& app) {
  float wide = 0;
  for (const Step& step : kSteps)
    wide += std::max(app.look.target(), app.look.measure(Face::small, step.words).x + 2 * k8) + k4;
  return wide;
}

void draw_steps(App& app) {
  int by = 0;
  bool done = false;
  for (const Step& step : kSteps) {
    if (&step != kSteps) ImGui::SameLine(0, k4);
    if (!app.ui.word_button(step.id, step.words)) continue;
    by = step.by;
    done = step.by == 0;
  }
  if (by != 0) walk_step(app, by);
  if (done) end_walk(app);
}

}  // namespace

std::vector<Box> walk_boxes(const App& app) {
  const ConditionState& c = app.condition;
  if (c.walk == kReturnedWalk) return returned_boxes(app);
  const Finding* finding = c.report ? c.report->find(c.walk) : nullptr;
  if (!finding) return {};
  if (!walks_spots(c)) return finding->places;
  std::vector<Box> boxes;
  for (const Spot& spot : c.report->spots) boxes.push_back(spot.box);
  return boxes;
}

void walk_to(App& app, const std::string& id, int at) {
  ConditionState& c = app.condition;
  c.walk = id;
  const std::vector<Box> boxes = walk_boxes(app);
  if (boxes.empty()) return end_walk(app);
  const int count = int(boxes.size());
  c.at = (at % count + count) % count;
  const Box& box = boxes[size_t(c.at)];
  show_place(app, box);
  const std::string spot = spot_words(app);
  tell(app, walk_words(app) + ". " + (spot.empty() ? "" : spot + ". ") +
                text(words::kWalkWhere, (box.x + box.w / 2) / app.job.master.width * 100,
                     (box.y + box.h / 2) / app.job.master.height * 100));
}

void walk_step(App& app, int by) {
  if (!app.condition.walk.empty()) walk_to(app, app.condition.walk, app.condition.at + by);
}

// Without a walk, the keys begin one: with the finding that is open, else the first with places.
bool walk_key(App& app, const std::string& key) {
  ConditionState& c = app.condition;
  if ((key != "n" && key != "u") || (!c.report && c.walk.empty())) return false;
  const int by = key == "n" ? 1 : -1;
  if (!c.walk.empty()) {
    walk_step(app, by);
    return true;
  }
  const Finding* open = c.report->find(c.open);
  for (const Finding& each : c.report->findings)
    if (!each.places.empty() && (!open || open->places.empty())) open = &each;
  if (!open || open->places.empty()) return true;
  c.open = open->id;
  walk_to(app, open->id, by > 0 ? 0 : -1);
  return true;
}

void end_walk(App& app) {
  app.condition.walk.clear();
  app.condition.at = 0;
}

void draw_outlines(App& app) {
  const std::vector<Box> boxes = walk_boxes(app);
  if (boxes.empty() || app.preview.empty() || photo_shown(app)) return;
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  for (const Pane& pane : panes(app)) {
    list->PushClipRect(pane.rect.min(), pane.rect.max(), true);
    for (size_t i = 0; i < boxes.size(); ++i) {
      const Rect rect = on_screen(app, pane, boxes[i]);
      const bool chosen = int(i) == app.condition.at;
      if (!meet(rect, pane.rect)) continue;
      outline(list, rect, chosen);
      if (chosen) app.ui.rects["outline"] = rect;
    }
    list->PopClipRect();
  }
}

float walk_room(const App& app) {
  return app.condition.walk.empty() ? 0 : app.look.target() + k12 + k8;
}

void draw_walk(App& app) {
  if (app.condition.walk.empty()) return;
  const Rect& foot = app.layout.foot;
  const std::string said = walk_words(app), spot = spot_words(app);
  const float line = app.look.size(Face::small) + 2, steps = steps_width(app);
  const float wide = std::min(foot.w, 560.f), high = walk_room(app) - k8;
  const Rect rect{foot.x + (foot.w - wide) / 2, foot.y - k8 - high, wide, high};
  app.layout.blockers.push_back(rect);
  ImGui::SetNextWindowPos(rect.min());
  ImGui::SetNextWindowSize({rect.w, rect.h});
  ImGui::Begin("walk", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoFocusOnAppearing |
                   ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoBackground);
  ImDrawList* list = ImGui::GetWindowDrawList();
  draw_slip(list, rect);
  const float lines = spot.empty() ? line : 2 * line;
  const float top = rect.y + (high - lines) / 2, room = wide - steps - k12 - k8;
  app.look.put_clipped(list, Face::small, {rect.x + k12, top}, room, grey::kInk, said);
  app.look.put_clipped(list, Face::small, {rect.x + k12, top + line}, room, grey::kFaintInk, spot);
  ImGui::SetCursorPos({wide - steps - k4, (high - app.look.target()) / 2});
  draw_steps(app);
  ImGui::End();
}

}  // namespace proofleaf::shell
