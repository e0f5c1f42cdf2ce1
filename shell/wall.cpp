// The print on a plain wall: to scale, beside a mark as high as a person.
#include "wall.h"

#include <algorithm>
#include <cmath>

#include "app.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

std::optional<print::WallLayout> layout_of(const App& app) {
  const auto plan = print_plan(app);
  if (!plan) return std::nullopt;
  const Rect& stage = app.layout.stage;
  return print::wall_layout(plan.value(), stage.w, stage.h, app.wall.person_cm * 10);
}

Rect on_stage(const App& app, const print::WallBox& box) {
  const Rect& stage = app.layout.stage;
  return {stage.x + float(box.x), stage.y + float(box.y), float(box.width), float(box.height)};
}

// Bare paper as the proof shows it.
ImU32 paper_white(App& app) {
  make_chain(app);
  const std::array<float, 3> master{1, 1, 1};
  std::array<float, 3> screen{1, 1, 1};
  if (app.chain) app.chain->to_screen(master, screen);
  std::array<int, 3> code{};
  for (size_t c = 0; c < 3; ++c) code[c] = int(std::clamp(screen[c], 0.f, 1.f) * 255 + 0.5f);
  return IM_COL32(code[0], code[1], code[2], 255);
}

}  // namespace

bool wall_shown(const App& app) {
  return app.wall.on && !app.preview.empty() && !app.choice.open && layout_of(app).has_value();
}

Rect on_wall(const App& app) { return on_stage(app, layout_of(app)->picture); }

Rect master_on_wall(const App& app) {
  const Rect picture = on_wall(app);
  const auto plan = print_plan(app);
  const print::PixelRect& crop = plan.value().crop;
  const float scale = picture.w / float(crop.width);
  return {picture.x - float(crop.x) * scale, picture.y - float(crop.y) * scale,
          float(app.job.master.width) * scale, float(app.job.master.height) * scale};
}

void draw_wall(App& app) {
  const auto layout = layout_of(app);
  if (!layout) return;
  const Rect& stage = app.layout.stage;
  const float floor = stage.y + float(layout->floor);
  app.gl.fill({stage.x, stage.y, stage.w, floor - stage.y}, grey::kPressed);
  app.gl.fill({stage.x, floor, stage.w, stage.bottom() - floor}, grey::kTableLine);
  const Rect sheet = on_stage(app, layout->sheet);
  app.gl.fill({sheet.x + 2, sheet.y + 3, sheet.w, sheet.h}, grey::kHairline);  // its shadow
  app.gl.fill(sheet, paper_white(app));
}

void draw_over_wall(App& app) {
  const auto layout = layout_of(app);
  if (!layout) return;
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  const Rect person = on_stage(app, layout->person);
  const float x = std::round(person.x) + 0.5f, foot = person.bottom();
  list->AddLine({x, person.y}, {x, foot}, grey::kInk, 1.5f);
  for (const float y : {person.y, foot}) list->AddLine({x - 8, y}, {x + 8, y}, grey::kInk, 1.5f);
  for (double cm = 50; cm < app.wall.person_cm; cm += 50) {
    const float y = foot - float(cm * 10 * layout->scale);
    list->AddLine({x - 4, y}, {x + 4, y}, grey::kInk, 1);
  }
  const std::string said = text(words::kPersonMark, app.wall.person_cm);
  const ImVec2 size = app.look.measure(Face::small, said);
  const float left = std::max(app.layout.stage.x + k4, x - size.x / 2);
  app.look.put(list, Face::small, {left, person.y - size.y - k4}, grey::kInk, said);
  app.ui.rects["wall-person"] = person;
  app.ui.rects["wall-picture"] = on_wall(app);
  app.ui.rects["wall-sheet"] = on_stage(app, layout->sheet);
}

}  // namespace proofleaf::shell
