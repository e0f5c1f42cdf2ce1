// What the check shows: squares and rows at the screen's own pixels.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app.h"
#include "drawn.h"
#include "imgui_internal.h"
#include "words_screen.h"

namespace proofleaf::shell {
namespace {

using Colour = std::array<uint8_t, 3>;

constexpr uint8_t kTableCode = 0x77;  // as grey::kTable
constexpr uint8_t kHalfLight = 188;   // sRGB's code for half of the light
constexpr uint8_t kDimGround = 0x30;  // around a channel's squares
constexpr std::array<uint8_t, 8> kTurningGreys{6, 12, 20, 32, 220, 232, 242, 249};

Colour of_grey(int code) { return {uint8_t(code), uint8_t(code), uint8_t(code)}; }

// One channel alone.
Colour alone(size_t channel, int code) {
  Colour colour{};
  colour[channel] = uint8_t(code);
  return colour;
}

struct Field {
  int x, y, width, height;  // [device pixels]
};

Field field_of(const App& app) {
  const float ratio = app.look.ratio();
  const Rect& rect = app.check.field;
  const auto pixels = [&](float length) { return int(std::lround(length * ratio)); };
  const int x = pixels(rect.x), y = pixels(rect.y);
  return {x, y, pixels(rect.right()) - x, pixels(rect.bottom()) - y};
}

Patch ground(const Field& field, const Colour& colour) {
  return {field.x, field.y, field.width, field.height, colour};
}

// A square in the middle, of that side.
Patch middle(const Field& field, int side, const Colour& colour) {
  return {field.x + (field.width - side) / 2, field.y + (field.height - side) / 2, side, side,
          colour};
}

// Eight squares in order, left to right, then down.
std::vector<Patch> eight(const Field& field) {
  const int columns = field.width > field.height ? 4 : field.width * 2 > field.height ? 4 : 2;
  const int rows = 8 / columns;
  const int cell = std::min(field.width / columns, field.height / rows), side = cell / 2;
  const int left = field.x + (field.width - cell * columns) / 2 + (cell - side) / 2;
  const int top = field.y + (field.height - cell * rows) / 2 + (cell - side) / 2;
  std::vector<Patch> squares;
  for (int i = 0; i < 8; ++i)
    squares.push_back({left + i % columns * cell, top + i / columns * cell, side, side});
  return squares;
}

template <class Codes>
void add_eight(std::vector<Patch>& patches, const Field& field, const Codes& codes) {
  std::vector<Patch> squares = eight(field);
  for (size_t i = 0; i < squares.size(); ++i) {
    squares[i].colour = of_grey(codes[i]);
    patches.push_back(squares[i]);
  }
}

void add_rows(std::vector<Patch>& patches, const Field& field) {
  const int side = std::min(field.width * 2 / 5, field.height * 3 / 5);
  const int gap = field.width / 20;
  Patch left = middle(field, side, of_grey(255));
  left.pattern = {1, 2};
  Patch right = left;
  left.x -= (side + gap) / 2;
  right.x += (side + gap) / 2;
  right.board = true;
  patches.push_back(left);
  patches.push_back(right);
}

void add_comparison(App& app, const Field& field, size_t channel) {
  const ScreenCheck& check = app.check;
  const screen::ToneStep& step = screen::kTonePlan[size_t(check.match)];
  const int bright = step.bright < 0 ? 255 : check.answers.tone[channel][size_t(step.bright)];
  const int side = std::min(field.width, field.height) * 6 / 7;
  Patch around = middle(field, side, alone(channel, bright));
  around.pattern = step.pattern;
  app.check.patches.push_back(around);
  app.check.patches.push_back(middle(field, side / 2, alone(channel, check.solid)));
}

Rect css(const App& app, const Patch& patch) {
  const float ratio = app.look.ratio();
  return {float(patch.x) / ratio, float(patch.y) / ratio, float(patch.width) / ratio,
          float(patch.height) / ratio};
}

void draw_patches(const ImDrawList*, const ImDrawCmd* command) {
  auto& app = *static_cast<App*>(command->UserCallbackData);
  app.check.gl.draw(app.check.patches, int(std::lround(app.layout.height * app.look.ratio())));
}

// The squares can be tapped; the list beside them is what the keyboard goes through.
void draw_tappable(App& app, bool dark) {
  ScreenCheck& check = app.check;
  ImDrawList* list = ImGui::GetWindowDrawList();
  ImGui::PushItemFlag(ImGuiItemFlags_NoNav, true);
  for (int i = 0; i < 8; ++i) {
    const Rect square = css(app, check.patches[size_t(i) + 1]);
    ImGui::SetCursorScreenPos(square.min());
    const std::string id = text("step-square-%d", i + 1), said = text(words::kSquare, i + 1);
    if (app.ui.item(id, square.w, square.h, said).pressed) answer_step(app, i);
    // Dim enough to blind nobody.
    const std::string number = std::to_string(i + 1);
    const float wide = app.look.measure(Face::small, number).x;
    app.look.put(list, Face::small, {square.x + (square.w - wide) / 2, square.bottom() + k4},
                 dark ? IM_COL32(0x50, 0x50, 0x50, 255) : IM_COL32(0x90, 0x90, 0x90, 255), number);
  }
  ImGui::PopItemFlag();
}

}  // namespace

void lay_field(App& app) {
  ScreenCheck& check = app.check;
  std::vector<Patch>& patches = check.patches;
  const Field field = field_of(app);
  const std::vector<Patch> before = std::exchange(patches, {});
  switch (check.step) {
    case CheckStep::tint:
      patches = {ground(field, of_grey(kTableCode)),
                 middle(field, std::min(field.width, field.height) / 2, of_grey(255))};
      break;
    case CheckStep::rows:
      patches = {ground(field, of_grey(kHalfLight))};
      add_rows(patches, field);
      break;
    case CheckStep::dark:
      patches = {ground(field, of_grey(0))};
      add_eight(patches, field, screen::kDarkSteps);
      break;
    case CheckStep::light:
      patches = {ground(field, of_grey(255))};
      add_eight(patches, field, screen::kLightSteps);
      break;
    case CheckStep::red:
    case CheckStep::green:
    case CheckStep::blue:
      patches = {ground(field, of_grey(kDimGround))};
      add_comparison(app, field, channel_of(check.step));
      break;
    case CheckStep::neutral: {
      const auto codes = screen::neutral_codes(check.moved, check.platform.canvas);
      patches = {ground(field, {uint8_t(codes[0]), uint8_t(codes[1]), uint8_t(codes[2])})};
      break;
    }
    case CheckStep::turning:
      patches = {ground(field, of_grey(kTableCode))};
      add_eight(patches, field, kTurningGreys);
      break;
    case CheckStep::white:
      patches = {ground(field, of_grey(255))};
      break;
    case CheckStep::result:
      break;
  }
  if (patches != before) texture_changed();
}

void draw_field(App& app) {
  ScreenCheck& check = app.check;
  if (check.patches.empty()) return;
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddCallback(draw_patches, &app);
  list->AddCallback(ImDrawCallback_ResetRenderState, nullptr);
  app.ui.rects["check-field"] = check.field;
  for (size_t i = 1; i < check.patches.size(); ++i)
    app.ui.rects[text("check-patch-%d", int(i))] = css(app, check.patches[i]);
  if (check.step == CheckStep::dark) draw_tappable(app, true);
  if (check.step == CheckStep::light) draw_tappable(app, false);
}

}  // namespace proofleaf::shell
