// Mouse, fingers, wheel and keys: to the picture, or to the sheet through Dear ImGui.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app.h"

namespace proofleaf::shell {
namespace {

constexpr float kTapSlack = 8;       // a tap may wander that far [CSS px]
constexpr double kLongPress = 0.45;  // [s]
constexpr double kDoubleTap = 0.35;  // [s]
constexpr float kWheelStep = 1.15f;  // zoom per wheel line
constexpr float kGlideEnd = 20;      // [CSS px/s]

bool on_table(const App& app, float x, float y) {
  return std::none_of(app.layout.blockers.begin(), app.layout.blockers.end(),
                      [&](const Rect& rect) { return rect.holds(x, y); });
}

bool near_divider(const App& app, float x, float y) {
  if (app.preview.empty() || photo_shown(app)) return false;
  const std::vector<Pane> all = panes(app);
  const Pane& pane = all.front();
  return pane.master && pane.proof && pane.rect.holds(x, y) &&
         std::fabs(x - divider_x(app, pane)) < (app.look.touch() ? 22.f : 10.f);
}

void drag_divider(App& app, float x) {
  const std::vector<Pane> all = panes(app);
  const Rect place = picture_place(app, all.front());
  const float left = std::max(place.x, all.front().rect.x);
  const float right = std::min(place.right(), all.front().rect.right());
  app.job.view.divider = std::clamp((x - left) / std::max(1.f, right - left), 0.f, 1.f);
}

void picture_down(App& app, int id, float x, float y) {
  Gestures& g = app.gestures;
  g.on_picture[id] = {x, y, x, y};
  g.picture_focus = true;
  ImGui::SetWindowFocus(nullptr);
  if (g.on_picture.size() > 1) {
    g.dividing = g.reading = false;
    app.strip.held = -1;
    let_go_of_corner(app);
    g.moved = true;
    return;
  }
  g.down_at = now();
  g.moved = g.reading = false;
  g.dividing =
      !take_hold_of_corner(app, x, y) && !take_hold_of_part(app, x, y) && near_divider(app, x, y);
}

// Two fingers: their middle pans, their distance zooms.
void two_fingers(App& app, Gestures::Finger& moving, float x, float y) {
  auto& fingers = app.gestures.on_picture;
  Gestures::Finger& one = fingers.begin()->second;
  Gestures::Finger& two = std::next(fingers.begin())->second;
  const float before = std::hypot(one.x - two.x, one.y - two.y);
  const float mid_x = (one.x + two.x) / 2, mid_y = (one.y + two.y) / 2;
  moving.x = x;
  moving.y = y;
  const float after = std::hypot(one.x - two.x, one.y - two.y);
  const float new_x = (one.x + two.x) / 2, new_y = (one.y + two.y) / 2;
  pan_by(app, new_x - mid_x, new_y - mid_y);
  if (before > 1) zoom_to(app, zoom_of(app, panes(app).front()) * after / before, new_x, new_y);
}

void picture_move(App& app, int id, float x, float y) {
  Gestures& g = app.gestures;
  Gestures::Finger& finger = g.on_picture[id];
  if (g.on_picture.size() == 2) return two_fingers(app, finger, x, y);
  if (std::hypot(x - finger.start_x, y - finger.start_y) > kTapSlack && !g.moved) {
    g.moved = true;
    finger.x = finger.start_x;
    finger.y = finger.start_y;
  }
  if (g.reading) {
    g.hover_x = x;
    g.hover_y = y;
  } else if (app.returned.held >= 0) {
    drag_corner(app, x, y);
  } else if (app.strip.held >= 0) {
    if (g.moved) drag_part(app, x, y);
  } else if (g.dividing) {
    drag_divider(app, x);
  } else if (g.moved) {
    pan_by(app, x - finger.x, y - finger.y);
  }
  finger.x = x;
  finger.y = y;
}

void picture_tap(App& app, float x, float y) {
  Gestures& g = app.gestures;
  if (photo_shown(app)) return tap_photo(app, x, y);
  const bool second = now() - g.last_tap < kDoubleTap &&
                      std::hypot(x - g.last_tap_x, y - g.last_tap_y) < 3 * kTapSlack;
  g.last_tap = second ? -10 : now();
  g.last_tap_x = x;
  g.last_tap_y = y;
  if (!second) return;
  if (app.job.view.whole)
    show_exact(app, x, y);
  else
    show_whole(app);
}

void picture_up(App& app, int id, float x, float y, bool touch) {
  Gestures& g = app.gestures;
  const bool alone = g.on_picture.size() == 1;
  g.on_picture.erase(id);
  const bool part = std::exchange(app.strip.held, -1) >= 0 || let_go_of_corner(app);
  if (alone && !g.moved && !g.reading && !g.dividing && !part) picture_tap(app, x, y);
  if (touch) g.hover_x = g.hover_y = -1;
  if (g.on_picture.empty()) g.dividing = g.reading = false;
}

void imgui_mouse(float x, float y) { ImGui::GetIO().AddMousePosEvent(x, y); }

// A finger on the sheet: wait to see whether it taps, scrolls or drags a slider.
void sheet_down(App& app, int id, float x, float y) {
  Gestures& g = app.gestures;
  g.sheet = Gestures::Sheet::waiting;
  g.sheet_finger = id;
  g.sheet_x = g.sheet_start_x = x;
  g.sheet_y = g.sheet_start_y = y;
  g.sheet_since = now();
  g.glide = 0;
  imgui_mouse(x, y);
}

void pass_on(App& app) {
  Gestures& g = app.gestures;
  g.sheet = Gestures::Sheet::passed_on;
  imgui_mouse(g.sheet_start_x, g.sheet_start_y);
  ImGui::GetIO().AddMouseButtonEvent(0, true);
}

void sheet_move(App& app, float x, float y) {
  Gestures& g = app.gestures;
  const float dx = x - g.sheet_start_x, dy = y - g.sheet_start_y;
  if (g.sheet == Gestures::Sheet::waiting && std::hypot(dx, dy) > kTapSlack) {
    if (std::fabs(dy) > std::fabs(dx)) {
      g.sheet = Gestures::Sheet::scrolling;
      imgui_mouse(-FLT_MAX, -FLT_MAX);
    } else {
      pass_on(app);
    }
  }
  if (g.sheet == Gestures::Sheet::scrolling) {
    g.scroll += y - g.sheet_y;
    g.glide = 0.6f * g.glide + 0.4f * (y - g.sheet_y) * 60;
  } else if (g.sheet == Gestures::Sheet::passed_on) {
    imgui_mouse(x, y);
  }
  g.sheet_x = x;
  g.sheet_y = y;
}

void sheet_up(App& app) {
  Gestures& g = app.gestures;
  if (g.sheet == Gestures::Sheet::waiting) pass_on(app);
  if (g.sheet == Gestures::Sheet::passed_on) {
    ImGui::GetIO().AddMouseButtonEvent(0, false);
    imgui_mouse(-FLT_MAX, -FLT_MAX);
  }
  // A strip pulled up raises the sheet, pushed down lowers it.
  if (g.sheet == Gestures::Sheet::scrolling && app.layout.narrow &&
      app.layout.strip.holds(g.sheet_start_x, g.sheet_start_y)) {
    app.job.sheet_raised = g.sheet_y < g.sheet_start_y;
    g.glide = 0;
  }
  g.sheet = Gestures::Sheet::none;
}

void on_touch(App& app, Shell::Pointer what, int id, float x, float y) {
  Gestures& g = app.gestures;
  const bool picture = g.on_picture.count(id) > 0;
  switch (what) {
    case Shell::Pointer::down:
      if (on_table(app, x, y) && g.on_picture.size() < 2)
        picture_down(app, id, x, y);
      else if (g.sheet == Gestures::Sheet::none) {
        g.picture_focus = false;
        sheet_down(app, id, x, y);
      }
      break;
    case Shell::Pointer::move:
      if (picture)
        picture_move(app, id, x, y);
      else if (id == g.sheet_finger && g.sheet != Gestures::Sheet::none)
        sheet_move(app, x, y);
      break;
    case Shell::Pointer::up:
    case Shell::Pointer::leave:
      if (picture)
        picture_up(app, id, x, y, true);
      else if (id == g.sheet_finger && g.sheet != Gestures::Sheet::none)
        sheet_up(app);
      break;
  }
}

void set_mouse_cursor(App& app, float x, float y, bool table) {
  const Gestures& g = app.gestures;
  if (!table && g.on_picture.empty()) return app.host.set_cursor("default");
  if (g.dividing || near_divider(app, x, y)) return app.host.set_cursor("ew-resize");
  if (app.preview.empty()) return app.host.set_cursor("default");
  if (app.strip.held >= 0 || part_at(app, x, y) >= 0) return app.host.set_cursor("move");
  if (!g.on_picture.empty() && g.moved) return app.host.set_cursor("grabbing");
  app.host.set_cursor("crosshair");
}

void on_mouse(App& app, Shell::Pointer what, int id, float x, float y, int button) {
  Gestures& g = app.gestures;
  const bool table = on_table(app, x, y);
  const bool picture = g.on_picture.count(id) > 0;
  if (what == Shell::Pointer::leave) {
    g.hover_x = g.hover_y = -1;
    if (!picture) imgui_mouse(-FLT_MAX, -FLT_MAX);
    return;
  }
  if (!picture) imgui_mouse(x, y);
  const bool hovering = table || picture;
  g.hover_x = hovering ? x : -1;
  g.hover_y = hovering ? y : -1;
  if (what == Shell::Pointer::down && button <= 1) {
    if (table)
      picture_down(app, id, x, y);
    else {
      g.picture_focus = false;
      ImGui::GetIO().AddMouseButtonEvent(0, true);
    }
  } else if (what == Shell::Pointer::move && picture) {
    picture_move(app, id, x, y);
  } else if (what == Shell::Pointer::up) {
    if (picture)
      picture_up(app, id, x, y, false);
    else
      ImGui::GetIO().AddMouseButtonEvent(0, false);
  }
  set_mouse_cursor(app, x, y, table);
}

}  // namespace

void on_pointer(App& app, Shell::Pointer what, int id, int kind, float x, float y, int button) {
  if (kind == 1)
    on_touch(app, what, id, x, y);
  else
    on_mouse(app, what, id, x, y, button);
}

void on_wheel(App& app, float dx, float dy, bool pinch) {
  const Gestures& g = app.gestures;
  if (g.hover_x < 0) {
    if (!pinch) ImGui::GetIO().AddMouseWheelEvent(-dx, -dy);
    return;
  }
  const double step = std::pow(double(kWheelStep), double(-dy) * (pinch ? 0.6 : 0.4));
  zoom_to(app, zoom_of(app, panes(app).front()) * step, g.hover_x, g.hover_y);
}

bool update_gestures(App& app, float seconds) {
  Gestures& g = app.gestures;
  if (g.sheet == Gestures::Sheet::waiting && now() - g.sheet_since > 0.2) pass_on(app);
  const bool one_still = g.on_picture.size() == 1 && !g.moved && !g.dividing &&
                         app.strip.held < 0 && app.returned.held < 0 && !photo_shown(app) &&
                         app.look.touch();
  if (one_still && !g.reading && now() - g.down_at > kLongPress) {
    g.reading = true;
    g.hover_x = g.on_picture.begin()->second.x;
    g.hover_y = g.on_picture.begin()->second.y;
  }
  if (g.sheet == Gestures::Sheet::none && std::fabs(g.glide) > kGlideEnd) {
    const float step = std::min(seconds, 0.05f);
    g.scroll += g.glide * step;
    g.glide *= std::exp(-5 * step);
    return true;
  }
  return g.sheet == Gestures::Sheet::waiting || (one_still && !g.reading);
}

}  // namespace proofleaf::shell
