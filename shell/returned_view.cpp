// The returned print on the table: its photo with the four corners, or laid flat over the master.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "returned.h"
#include "words_returned.h"

namespace proofleaf::shell {
namespace {

using returned::Corners;
using returned::Point;

constexpr float kHandle = 9;  // radius of a corner's ring [CSS px]
constexpr float kLens = 62;   // radius of the lens beside a corner that is held [CSS px]
constexpr float kTimes = 4;   // it shows things so much larger

// The sheet's front in shares of the printed picture: from 0..1 by as much as lies around it.
struct Around {
  double left = 0, top = 0, width = 1, height = 1;  // of the front, in shares of the picture
  print::PixelRect crop;                            // of the master
};
std::optional<Around> around_picture(const App& app) {
  const auto plan = print_plan(app);
  if (!plan || plan.value().width == 0 || plan.value().height == 0) return std::nullopt;
  const print::PrintPlan& p = plan.value();
  const double rim = double(p.border) + p.mat;
  return Around{-rim / p.width, -rim / p.height, 1 + 2 * rim / p.width, 1 + 2 * rim / p.height,
                p.crop};
}

Rect photo_place(const App& app) {
  const Rect& stage = app.layout.stage;
  const Picture& photo = app.returned.photo.picture;
  const float room = kHandle + 3;  // for handles on the photo's very corners
  const float scale = std::min((stage.w - 2 * room) / float(photo.columns),
                               (stage.h - 2 * room) / float(photo.rows));
  const float w = float(photo.columns) * scale, h = float(photo.rows) * scale;
  return {stage.x + (stage.w - w) / 2, stage.y + (stage.h - h) / 2, w, h};
}

ImVec2 on_photo(const Rect& place, const Point& p) {
  return {place.x + float(p.x) * place.w, place.y + float(p.y) * place.h};
}

const Corners& corners_now(const App& app) {
  const ReturnedState& r = app.returned;
  if (r.dragged) return *r.dragged;
  const bool waiting = r.set && find_task(const_cast<App&>(app), TaskKind::returned);
  return waiting ? *r.set : r.corners;
}

int corner_at(const App& app, float sx, float sy) {
  const Rect place = photo_place(app);
  const float reach = app.look.touch() ? 32.f : 18.f;
  int nearest = -1;
  float least = reach;
  for (size_t i = 0; i < 4; ++i) {
    const ImVec2 at = on_photo(place, corners_now(app)[i]);
    const float far = std::hypot(at.x - sx, at.y - sy);
    if (far < least) {
      least = far;
      nearest = int(i);
    }
  }
  return nearest;
}

void send_layer(App& app, MadePicture& made) {
  if (made.layer.texture == 0 && !made.empty()) app.gl.upload(made.picture, made.layer);
}

// What lies under the corner, larger, away from the finger.
void draw_lens(App& app, const Rect& place, const Point& p) {
  const Rect& stage = app.layout.stage;
  const ImVec2 at = on_photo(place, p);
  const float x = std::clamp(at.x, stage.x + kLens, stage.right() - kLens);
  const float above = at.y - kLens - 48, below = at.y + kLens + 48;
  const float y = above - kLens > stage.y ? above : below;
  const float du = kLens / kTimes / place.w, dv = kLens / kTimes / place.h;
  ImDrawList* list = ImGui::GetForegroundDrawList();
  const auto u = float(p.x), v = float(p.y);
  list->AddRectFilled({x - kLens - 2, y - kLens - 2}, {x + kLens + 2, y + kLens + 2}, grey::kInk,
                      4);
  list->AddImage(ImTextureID(intptr_t(app.returned.photo.layer.texture)), {x - kLens, y - kLens},
                 {x + kLens, y + kLens}, {u - du, v - dv}, {u + du, v + dv});
  for (const bool rim : {true, false}) {
    const ImU32 colour = rim ? grey::kInk : grey::kPale;
    const float thick = rim ? 3.f : 1.f;
    list->AddLine({x - 14, y}, {x + 14, y}, colour, thick);
    list->AddLine({x, y - 14}, {x, y + 14}, colour, thick);
  }
}

void draw_quad(ImDrawList* list, const Rect& place, const Corners& corners) {
  ImVec2 points[4];
  for (size_t i = 0; i < 4; ++i) points[i] = on_photo(place, corners[i]);
  list->AddPolyline(points, 4, grey::kInk, ImDrawFlags_Closed, 3.5f);
  list->AddPolyline(points, 4, grey::kPale, ImDrawFlags_Closed, 1.5f);
}

// Its own upper left is filled, so that a print that lies on its side is seen to.
void draw_handle(ImDrawList* list, const ImVec2& at, bool first, bool held) {
  const float r = held ? kHandle + 3 : kHandle;
  list->AddCircleFilled(at, r, first ? grey::kPale : IM_COL32(0xF4, 0xF4, 0xF4, 0x50));
  list->AddCircle(at, r + 1, grey::kInk, 0, 3);
  list->AddCircle(at, r, grey::kPale, 0, 1.5f);
  if (first) list->AddCircleFilled(at, 2.5f, grey::kInk);
}

}  // namespace

bool photo_shown(const App& app) {
  return app.returned.show == ReturnedState::Show::photo && app.job.leaf == Leaf::print &&
         !app.choice.open && !app.returned.photo.empty();
}

bool returned_print_shown(const App& app) {
  return app.returned.show == ReturnedState::Show::print && app.job.leaf == Leaf::print &&
         !app.choice.open && !app.returned.print.empty() && around_picture(app).has_value();
}

Rect front_on(const App& app, const Rect& picture) {
  const auto around = around_picture(app);
  if (!around) return picture;
  const double sx = picture.w / double(app.job.master.width),
               sy = picture.h / double(app.job.master.height);
  const double w = around->crop.width * sx, h = around->crop.height * sy;
  return {picture.x + float(around->crop.x * sx + around->left * w),
          picture.y + float(around->crop.y * sy + around->top * h), float(around->width * w),
          float(around->height * h)};
}

void forget_returned_layers(App& app) {
  app.returned.photo.layer.texture = app.returned.print.layer.texture = 0;
}

void draw_photo(App& app) {
  send_layer(app, app.returned.photo);
  const Rect place = photo_place(app);
  app.gl.draw(app.returned.photo.layer, place, place, 0, false);
}

void draw_returned_print(App& app, const Pane& pane, const Rect& clip) {
  constexpr float kRim = 1.5f;  // [CSS px] where the border's white runs into the picture
  send_layer(app, app.returned.print);
  const Rect inside{clip.x + kRim, clip.y + kRim, clip.w - 2 * kRim, clip.h - 2 * kRim};
  app.gl.draw(app.returned.print.layer, front_on(app, picture_place(app, pane)), inside, 0, false);
}

void draw_corners(App& app) {
  const Rect place = photo_place(app);
  const ReturnedState& r = app.returned;
  const Corners& corners = corners_now(app);
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  draw_quad(list, place, corners);
  for (size_t i = 0; i < 4; ++i) {
    const ImVec2 at = on_photo(place, corners[i]);
    draw_handle(list, at, i == 0, r.held == int(i));
    app.ui.rects[text("print-corner-%zu", i)] = {at.x - kHandle, at.y - kHandle, 2 * kHandle,
                                                 2 * kHandle};
  }
  if (r.neutral) {
    const ImVec2 at = on_photo(place, *r.neutral);
    list->AddCircle(at, 7, grey::kInk, 0, 4);
    list->AddCircle(at, 7, grey::kPale, 0, 1.5f);
  }
  app.ui.rects["print-photo"] = place;
  if (r.held >= 0) draw_lens(app, place, corners[size_t(r.held)]);
}

bool take_hold_of_corner(App& app, float sx, float sy) {
  if (!photo_shown(app)) return false;
  ReturnedState& r = app.returned;
  r.held = r.choosing_neutral ? -1 : corner_at(app, sx, sy);
  if (r.held < 0) return false;
  r.dragged = corners_now(app);
  const ImVec2 at = on_photo(photo_place(app), (*r.dragged)[size_t(r.held)]);
  r.held_x = sx - at.x;
  r.held_y = sy - at.y;
  return true;
}

void drag_corner(App& app, float sx, float sy) {
  ReturnedState& r = app.returned;
  if (!photo_shown(app) || r.held < 0 || !r.dragged) return;
  const Rect place = photo_place(app);
  Corners moved = *r.dragged;
  moved[size_t(r.held)] = {std::clamp((sx - r.held_x - place.x) / place.w, -0.2f, 1.2f),
                           std::clamp((sy - r.held_y - place.y) / place.h, -0.2f, 1.2f)};
  if (returned::is_convex(moved)) r.dragged = moved;
  app.host.request_frame();
}

bool let_go_of_corner(App& app) {
  ReturnedState& r = app.returned;
  if (r.held < 0) return false;
  if (app.gestures.moved && r.dragged) r.set = r.dragged;
  r.dragged.reset();
  r.held = -1;
  return true;
}

void tap_photo(App& app, float sx, float sy) {
  ReturnedState& r = app.returned;
  const Rect place = photo_place(app);
  if (!r.choosing_neutral || !place.holds(sx, sy)) return;
  r.choosing_neutral = false;
  r.neutral = Point{(sx - place.x) / place.w, (sy - place.y) / place.h};
}

std::vector<Box> returned_boxes(const App& app) {
  std::vector<Box> boxes;
  const auto& seen = app.sheet.returned.seen;
  if (!seen || app.job.master.width == 0) return boxes;
  const Rect front =
      front_on(app, {0, 0, float(app.job.master.width), float(app.job.master.height)});
  for (const returned::Mark& mark : seen->marks.marks)
    boxes.push_back({front.x + mark.x * front.w, front.y + mark.y * front.h,
                     std::max(1.0, mark.w * front.w), std::max(1.0, mark.h * front.h)});
  return boxes;
}

std::string returned_mark_words(const App& app, int at) {
  const auto& seen = app.sheet.returned.seen;
  if (!seen || at < 0 || at >= int(seen->marks.marks.size())) return "";
  const returned::Mark& mark = seen->marks.marks[size_t(at)];
  const double much = std::fabs(mark.contrast);
  const bool darker = mark.contrast < 0;
  switch (mark.kind) {
    case returned::MarkKind::scratch:
      return text(darker ? words::kScratchDarker : words::kScratchLighter, mark.length_mm, much);
    case returned::MarkKind::band:
      return text(darker ? words::kBandDarker : words::kBandLighter, mark.width_mm, much);
    case returned::MarkKind::spot:
      break;
  }
  return text(darker ? words::kSpotDarker : words::kSpotLighter, mark.length_mm, much);
}

}  // namespace proofleaf::shell
