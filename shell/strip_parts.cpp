// The test strip's parts in the picture: shown, chosen and moved.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "strip.h"
#include "words.h"
#include "words_strip.h"

namespace proofleaf::shell {
namespace {

// A place of the printed picture as one of the master, both 0..1, along one side.
struct Along {
  double from, length;
  double to_master(double share) const { return from + share * length; }
  double to_print(double share) const { return length > 0 ? (share - from) / length : 0; }
};

// Where the printed picture lies on the master.
struct Printed {
  Along x, y;
};
Printed printed(const App& app) {
  const double w = app.job.master.width, h = app.job.master.height;
  const auto plan = print_plan(app);
  if (!plan) return {{0, 1}, {0, 1}};
  const print::PixelRect& crop = plan.value().crop;
  return {{crop.x / w, crop.width / w}, {crop.y / h, crop.height / h}};
}

Rect on_screen(const Printed& on, const Rect& picture, const print::StripPlace& place) {
  return {picture.x + float(on.x.to_master(place.x)) * picture.w,
          picture.y + float(on.y.to_master(place.y)) * picture.h,
          float(place.width * on.x.length) * picture.w,
          float(place.height * on.y.length) * picture.h};
}

void draw_frame(App& app, const Rect& rect, size_t which) {
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  const bool chosen = int(which) == app.strip.part;
  list->AddRect({rect.x - 1, rect.y - 1}, {rect.right() + 1, rect.bottom() + 1}, grey::kInk, 0, 0,
                chosen ? 5.f : 3.f);
  list->AddRect(rect.min(), rect.max(), grey::kPale, 0, 0, chosen ? 2.f : 1.f);
  const std::string number = std::to_string(which + 1);
  const ImVec2 size = app.look.measure(Face::small, number);
  list->AddRectFilled(rect.min(), {rect.x + size.x + k8, rect.y + size.y + 2}, grey::kSheet);
  app.look.put(list, Face::small, {rect.x + k4, rect.y + 1}, grey::kInk, number);
}

}  // namespace

bool parts_in_picture(const App& app) {
  return app.strip.parts_shown && !photo_shown(app) && app.job.leaf == Leaf::print &&
         !app.choice.open && parts_current(app) && !app.preview.empty();
}

void move_part(App& app, size_t which, double x, double y) {
  StripState& strip = app.strip;
  auto moved = print::move_place(strip.places, which, x, y);
  strip.part_trouble = moved ? "" : moved.error().message;
  if (!moved) return;
  // A part that is back where it was picked has its own reason again.
  strip.places = moved.take();
  print::StripPlace& place = strip.places[which];
  const print::StripPlace& own = strip.picked[which];
  if (std::fabs(place.x - own.x) + std::fabs(place.y - own.y) < 1e-9) place = own;
  app.host.request_frame();
}

int part_at(const App& app, float sx, float sy) {
  if (!parts_in_picture(app)) return -1;
  const Printed on = printed(app);
  for (const Pane& pane : panes(app)) {
    if (!pane.rect.holds(sx, sy)) continue;
    const Rect picture = picture_place(app, pane);
    for (size_t i = 0; i < app.strip.places.size(); ++i)
      if (on_screen(on, picture, app.strip.places[i]).holds(sx, sy)) return int(i);
  }
  return -1;
}

bool take_hold_of_part(App& app, float sx, float sy) {
  StripState& strip = app.strip;
  strip.held = part_at(app, sx, sy);
  double px = 0, py = 0;
  if (strip.held < 0 || !place_at(app, sx, sy, &px, &py)) return false;
  const Printed on = printed(app);
  const print::StripPlace& place = strip.places[size_t(strip.held)];
  strip.part = strip.held;
  strip.held_x = on.x.to_print(px) - place.x;
  strip.held_y = on.y.to_print(py) - place.y;
  return true;
}

void drag_part(App& app, float sx, float sy) {
  double px = 0, py = 0;
  if (!parts_in_picture(app) || !place_at(app, sx, sy, &px, &py)) return;
  const Printed on = printed(app);
  move_part(app, size_t(app.strip.held), on.x.to_print(px) - app.strip.held_x,
            on.y.to_print(py) - app.strip.held_y);
}

void draw_part_frames(App& app) {
  if (!parts_in_picture(app)) return;
  const Printed on = printed(app);
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  for (const Pane& pane : panes(app)) {
    const Rect picture = picture_place(app, pane);
    list->PushClipRect(pane.rect.min(), pane.rect.max(), true);
    for (size_t i = 0; i < app.strip.places.size(); ++i) {
      const Rect rect = on_screen(on, picture, app.strip.places[i]);
      draw_frame(app, rect, i);
      app.ui.rects[text("strip-frame-%zu", i)] = rect;
    }
    list->PopClipRect();
  }
}

void draw_parts(App& app) {
  Ui& ui = app.ui;
  StripState& strip = app.strip;
  ui.toggle("strip-parts", words::kParts, words::kPartsHelp, &strip.parts_shown);
  if (!strip.parts_shown) return;
  want_parts(app);
  if (!parts_current(app)) return ui.help(words::kStripChoosing);
  strip.part = std::clamp(strip.part, 0, int(strip.places.size()) - 1);
  for (size_t i = 0; i < strip.places.size(); ++i) {
    if (i > 0) ImGui::SameLine(0, k4);
    if (ui.word_button(text("part-%zu", i), std::to_string(i + 1), int(i) == strip.part))
      strip.part = int(i);
  }
  const auto which = size_t(strip.part);
  const print::StripPlace place = strip.places[which], own = strip.picked[which];
  ui.words(Face::body, text(words::kPart, strip.part + 1, print::word_for(place.reason)));
  double x = place.x * 100, y = place.y * 100;
  bool moved = ui.amount("part-x", words::kPartX, words::kPartHelp, &x, 0, 100 - place.width * 100,
                         own.x * 100);
  moved |= ui.amount("part-y", words::kPartY, words::kPartHelp, &y, 0, 100 - place.height * 100,
                     own.y * 100);
  if (moved) move_part(app, which, x / 100, y / 100);
  if (!strip.part_trouble.empty()) ui.words(Face::body, strip.part_trouble);
  if (parts_moved(app) && ui.button("parts-back", words::kPartsBack, false)) {
    strip.places = strip.picked;
    strip.part_trouble.clear();
  }
}

}  // namespace proofleaf::shell
