// Where the picture lies on the table, and drawing it there.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "words.h"
#include "words_returned.h"
#include "words_screen.h"

namespace proofleaf::shell {
namespace {

constexpr double kNearest = 16;     // device pixels per master pixel at most
constexpr double kPixelsApart = 3;  // from this zoom on, pixels are shown as squares

double whole_zoom(const App& app, const Rect& rect) {
  const double w = app.job.master.width, h = app.job.master.height, r = app.look.ratio();
  if (w <= 0 || h <= 0) return 1;
  return std::max(1e-4, std::min(rect.w * r / w, rect.h * r / h));
}

// The middle of the view, held so that no more table shows than must.
void hold_view(App& app, double zoom) {
  View& view = app.job.view;
  const Rect rect = panes(app).front().rect;
  const double w = app.job.master.width * zoom / app.look.ratio();
  const double h = app.job.master.height * zoom / app.look.ratio();
  const double half_x = rect.w / w / 2, half_y = rect.h / h / 2;
  view.x = half_x >= 0.5 ? 0.5 : std::clamp(view.x, half_x, 1 - half_x);
  view.y = half_y >= 0.5 ? 0.5 : std::clamp(view.y, half_y, 1 - half_y);
}

void moved(App& app) {
  app.view_still_since = now();
  app.host.request_frame();
}

const Pane& pane_at(const std::vector<Pane>& all, float sx, float sy) {
  for (const Pane& pane : all)
    if (pane.rect.holds(sx, sy)) return pane;
  return all.front();
}

// What of the master lies at `part` [master pixels], on the table.
Rect on_table(const App& app, const Rect& place, double x, double y, double width, double height) {
  const double scale_x = place.w / app.job.master.width;
  const double scale_y = place.h / app.job.master.height;
  return {place.x + float(x * scale_x), place.y + float(y * scale_y), float(width * scale_x),
          float(height * scale_y)};
}

Rect common(const Rect& one, const Rect& other) {
  const float left = std::max(one.x, other.x), top = std::max(one.y, other.y);
  return {left, top, std::min(one.right(), other.right()) - left,
          std::min(one.bottom(), other.bottom()) - top};
}

void draw_picture_part(App& app, const Picture& picture, bool proof, const Pane& pane,
                       const Rect& clip) {
  const Layer& layer = proof ? picture.proof : picture.master;
  const Rect place = picture_place(app, pane);
  const Rect part = on_table(app, place, picture.x, picture.y, picture.width, picture.height);
  const Rect cut = common(clip, place);
  const double pixels_each = part.w * app.look.ratio() / picture.columns;
  app.gl.draw(layer, part, cut, proof && app.job.marking.on ? app.job.marking.threshold : 0,
              pixels_each >= kPixelsApart && picture.columns == uint32_t(picture.width));
}

void draw_version(App& app, bool proof, const Pane& pane, const Rect& clip) {
  if (app.preview.empty()) return;
  const bool proofed = proof && app.preview.proof.texture != 0 && !app.proof_cube.wanted.empty();
  draw_picture_part(app, app.preview, proofed, pane, clip);
  const Rect place = picture_place(app, pane);
  for (const auto& tile : app.detail.tiles) {
    if (!tile->in_view) continue;
    const Rect own = on_table(app, place, double(tile->column) * kTileSide,
                              double(tile->row) * kTileSide, kTileSide, kTileSide);
    draw_picture_part(app, tile->picture, proofed, pane, common(clip, own));
  }
  if (!proof && returned_print_shown(app)) draw_returned_print(app, pane, common(clip, place));
}

// A small slip with a word on it, at a corner of a pane; shorter or none where the room is short.
void tag(App& app, std::string said, float x, float y, bool to_left, float most) {
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  const float room = most - 2 * k8;
  const bool of_print =
      said != std::string(words::kTagMaster) && said != std::string(words::kTagReturned);
  if (app.look.measure(Face::small, said).x > room)
    said = of_print ? std::string(words::kTagProofShort) : "";
  const float wide = app.look.measure(Face::small, said).x;
  if (said.empty() || wide > room) return;
  const float high = app.look.size(Face::small) + k8;
  const float left = to_left ? x - wide - 2 * k8 : x;
  list->AddRectFilled({left, y}, {left + wide + 2 * k8, y + high}, grey::kSheet, 4);
  app.look.put(list, Face::small, {left + k8, y + k4}, grey::kInk, said);
}

void draw_divider(App& app, const Pane& pane) {
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  const Rect place = picture_place(app, pane);
  const float top = std::max(pane.rect.y, place.y);
  const float bottom = std::min(pane.rect.bottom(), place.bottom());
  const float x = std::round(divider_x(app, pane));
  list->AddRectFilled({x - 1.5f, top}, {x + 1.5f, bottom}, grey::kFaintInk);
  list->AddRectFilled({x - 0.5f, top}, {x + 0.5f, bottom}, grey::kPale);
  // The handle: a leaf hanging on the line, near the top where it hides little.
  const float w = app.look.touch() ? 12.f : 9.f, h = app.look.touch() ? 26.f : 20.f;
  const float y = std::min(top + h + k12, (top + bottom) / 2);
  for (const float grown : {1.5f, 0.f}) {
    list->PathLineTo({x, y - h - grown});
    list->PathBezierQuadraticCurveTo({x + 2 * w + grown * 2, y}, {x, y + h + grown});
    list->PathBezierQuadraticCurveTo({x - 2 * w - grown * 2, y}, {x, y - h - grown});
    list->PathFillConvex(grown > 0 ? grey::kFaintInk : grey::kSheet);
  }
  list->AddLine({x, y - h * 0.6f}, {x, y + h * 0.6f}, grey::kEdge);
  app.ui.rects["divider"] = {x - 22, top, 44, bottom - top};
}

void draw_tags(App& app, const std::vector<Pane>& all) {
  const PaperState* paper = app.job.chosen_paper();
  if (!paper) return;
  const std::string on_paper = text(words::kTagProof, paper->name.c_str());
  const Words master = returned_print_shown(app) ? words::kTagReturned : words::kTagMaster;
  for (const Pane& pane : all) {
    const Rect place = picture_place(app, pane);
    const float left = std::max(place.x, pane.rect.x) + k8;
    const float right = std::min(place.right(), pane.rect.right()) - k8;
    const float bottom =
        std::min(place.bottom(), pane.rect.bottom()) - k8 - app.look.target() * 0.7f;
    if (pane.master && pane.proof) {
      const float line = divider_x(app, pane);
      tag(app, master, left, bottom, false, line - k8 - left);
      tag(app, on_paper, right, bottom, true, right - line - k8);
    } else {
      tag(app, pane.master ? master : on_paper, left, bottom, false, right - left);
    }
  }
}

void draw_cross(App& app, const Pane& pane) {
  const Rect place = picture_place(app, pane);
  const float x = std::round(place.x + float(app.job.view.cross_x) * place.w) + 0.5f;
  const float y = std::round(place.y + float(app.job.view.cross_y) * place.h) + 0.5f;
  if (!pane.rect.holds(x, y)) return;
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  for (const bool rim : {true, false}) {
    const ImU32 colour = rim ? grey::kInk : grey::kPale;
    const float thick = rim ? 3.f : 1.f, far = rim ? 17.f : 16.f, near = rim ? 4.f : 5.f;
    for (const float sign : {-1.f, 1.f}) {
      list->AddLine({x + sign * near, y}, {x + sign * far, y}, colour, thick);
      list->AddLine({x, y + sign * near}, {x, y + sign * far}, colour, thick);
    }
  }
}

}  // namespace

std::vector<Pane> panes(const App& app) {
  const Rect& stage = app.layout.stage;
  const bool no_paper = !app.job.chosen_paper();
  if (wall_shown(app)) {
    const bool master = no_paper || app.job.view.master_held;
    return {{on_wall(app), master, !master}};
  }
  if (no_paper || app.job.compare == Compare::held)
    return {{stage, no_paper || app.job.view.master_held, !(no_paper || app.job.view.master_held)}};
  if (app.job.view.master_held) return {{stage, true, false}};
  if (app.job.compare == Compare::divided) return {{stage, true, true}};
  const float gap = k12;
  const Rect left{stage.x, stage.y, (stage.w - gap) / 2, stage.h};
  const Rect top{stage.x, stage.y, stage.w, (stage.h - gap) / 2};
  if (whole_zoom(app, left) >= whole_zoom(app, top))
    return {{left, true, false}, {{left.right() + gap, stage.y, left.w, stage.h}, false, true}};
  return {{top, true, false}, {{stage.x, top.bottom() + gap, stage.w, top.h}, false, true}};
}

double zoom_of(const App& app, const Pane& pane) {
  if (wall_shown(app)) return master_on_wall(app).w * app.look.ratio() / app.job.master.width;
  return app.job.view.whole ? whole_zoom(app, pane.rect) : app.job.view.zoom;
}

Rect picture_place(const App& app, const Pane& pane) {
  if (wall_shown(app)) return master_on_wall(app);
  const double scale = zoom_of(app, pane) / app.look.ratio();
  const double w = app.job.master.width * scale, h = app.job.master.height * scale;
  const View& view = app.job.view;
  const double cx = view.whole ? 0.5 : view.x, cy = view.whole ? 0.5 : view.y;
  const double r = app.look.ratio();  // on whole device pixels, so that 1:1 is exact
  const double x = std::round((pane.rect.x + pane.rect.w / 2 - cx * w) * r) / r;
  const double y = std::round((pane.rect.y + pane.rect.h / 2 - cy * h) * r) / r;
  return {float(x), float(y), float(w), float(h)};
}

bool place_at(const App& app, float sx, float sy, double* px, double* py) {
  if (app.preview.empty() || photo_shown(app)) return false;
  const std::vector<Pane> all = panes(app);
  const Rect place = picture_place(app, pane_at(all, sx, sy));
  *px = (sx - place.x) / place.w;
  *py = (sy - place.y) / place.h;
  return *px >= 0 && *py >= 0 && *px < 1 && *py < 1;
}

void zoom_to(App& app, double zoom, float sx, float sy) {
  if (app.preview.empty() || wall_shown(app) || photo_shown(app)) return;
  const std::vector<Pane> all = panes(app);
  const Pane& pane = pane_at(all, sx, sy);
  const double least = whole_zoom(app, pane.rect);
  zoom = std::clamp(zoom, std::min(least, 1.0), kNearest);
  const Rect before = picture_place(app, pane);
  const double px = (sx - before.x) / before.w, py = (sy - before.y) / before.h;
  View& view = app.job.view;
  view.whole = zoom <= least * 1.0001 && least <= kNearest;
  view.zoom = zoom;
  const double w = app.job.master.width * zoom / app.look.ratio();
  const double h = app.job.master.height * zoom / app.look.ratio();
  view.x = px - (sx - (pane.rect.x + pane.rect.w / 2)) / w;
  view.y = py - (sy - (pane.rect.y + pane.rect.h / 2)) / h;
  hold_view(app, zoom);
  moved(app);
}

void pan_by(App& app, float dx, float dy) {
  if (app.preview.empty() || app.job.view.whole || wall_shown(app) || photo_shown(app)) return;
  const double scale = app.job.view.zoom / app.look.ratio();
  app.job.view.x -= dx / (app.job.master.width * scale);
  app.job.view.y -= dy / (app.job.master.height * scale);
  hold_view(app, app.job.view.zoom);
  moved(app);
}

void show_whole(App& app) {
  app.wall.on = false;
  app.job.view.whole = true;
  moved(app);
}

// Four times as near as the whole picture.
void go_to(App& app, double x, double y) {
  if (app.preview.empty()) return;
  app.wall.on = false;
  View& view = app.job.view;
  view.whole = false;
  view.zoom = std::min(kNearest, whole_zoom(app, panes(app).front().rect) * 4);
  view.x = x;
  view.y = y;
  moved(app);
}

void show_exact(App& app, float sx, float sy) {
  app.wall.on = false;
  zoom_to(app, 1, sx, sy);
}

float divider_x(const App& app, const Pane& pane) {
  const Rect place = picture_place(app, pane);
  const float left = std::max(pane.rect.x, place.x);
  const float right = std::min(pane.rect.right(), place.right());
  return left + (right - left) * float(app.job.view.divider);
}

void draw_picture(App& app) {
  const bool wall = wall_shown(app);
  if (!app.job.view.whole && !app.preview.empty() && !wall) hold_view(app, app.job.view.zoom);
  app.gl.begin(app.layout.width, app.layout.height, app.look.ratio());
  if (photo_shown(app)) {
    draw_photo(app);
    return app.gl.end();
  }
  if (wall) draw_wall(app);
  for (const Pane& pane : panes(app)) {
    if (pane.master && pane.proof) {
      const float line = divider_x(app, pane);
      Rect left = pane.rect, right = pane.rect;
      left.w = line - left.x;
      right.x = line;
      right.w = pane.rect.right() - line;
      draw_version(app, false, pane, left);
      draw_version(app, true, pane, right);
    } else {
      draw_version(app, pane.proof, pane, pane.rect);
    }
  }
  app.gl.end();
}

void draw_over_picture(App& app) {
  app.ui.rects["picture"] = app.layout.stage;
  if (app.preview.empty()) return;
  if (photo_shown(app)) return draw_corners(app);
  const std::vector<Pane> all = panes(app);
  wall_shown(app) ? draw_over_wall(app) : draw_tags(app, all);
  if (screen_corrected(app)) {
    const Rect place = picture_place(app, all.front());
    const float left = std::max(place.x, app.layout.stage.x) + k8;
    const float top = std::max(place.y, app.layout.stage.y) + k8;
    tag(app, words::kScreenCorrected, left, top, false, app.layout.stage.right() - left);
  }
  for (const Pane& pane : all) {
    if (pane.master && pane.proof) draw_divider(app, pane);
    if (app.job.view.cross) draw_cross(app, pane);
  }
}

}  // namespace proofleaf::shell
