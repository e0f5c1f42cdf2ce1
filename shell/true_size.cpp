// How many of this screen's pixels make a millimetre: the person holds a bank card against an
// outline and brings both to one size.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "app.h"
#include "wall.h"
#include "words.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

constexpr char kKey[] = "screen pixels per mm";
constexpr double kLeast = 1.5, kMost = 40;  // [device px / mm] of any screen
constexpr double kUsual = 96 / 25.4;        // [CSS px / mm] by CSS's own definition

bool sound(double pixels_per_mm) { return pixels_per_mm >= kLeast && pixels_per_mm <= kMost; }

void keep(App& app, double pixels_per_mm) {
  app.screen.pixels_per_mm = pixels_per_mm;
  app.host.remember(kKey, std::to_string(pixels_per_mm));
}

// A corner to draw the outline larger or smaller by.
void corner(App& app, const Rect& card, bool wide) {
  const float side = app.look.target();
  ImGui::SetCursorScreenPos({card.right() - side / 2, card.bottom() - side / 2});
  const Ui::Item it = app.ui.item("card-corner", side, side, words::kCardCorner);
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddCircleFilled(card.max(), it.held ? 10.f : 8.f, kAccent);
  if (!it.held) return;
  const ImVec2 moved = ImGui::GetIO().MouseDelta;
  const double across = wide ? moved.x : moved.y,
               other = (wide ? moved.y : moved.x) * (kCardLong / kCardShort);
  // Whichever way it is pulled more; the outline stands in the middle, so it grows by both sides.
  app.screen.outline += std::fabs(across) > std::fabs(other) ? 2 * across : 2 * other;
}

}  // namespace

void recall_screen(App& app) {
  const double kept = std::strtod(app.host.recall(kKey).c_str(), nullptr);
  if (sound(kept)) app.screen.pixels_per_mm = kept;
}

void draw_screen_card(App& app) {
  ScreenState& screen = app.screen;
  if (!screen.measuring) return;
  const Layout& l = app.layout;
  const float ratio = app.look.ratio();
  if (screen.outline == 0) {
    const double known = screen.pixels_per_mm / ratio;
    screen.outline = kCardLong * (known > 0 ? known : kUsual);
  }
  const float column = std::min(l.width - 2 * k16, 420.f);
  // The words, the number with its slider, the buttons.
  const float below = app.look.measure(Face::body, words::kCardHelp, column).y +
                      3 * app.look.target() + k32 + 4 * k8;
  // Lying where there is room for a card on a fine screen, else standing.
  const bool wide = l.width >= 560;
  const double most = wide ? std::min(l.width - 2 * k32, (l.height - below) * 1.58f)
                           : std::min(l.height - below, (l.width - 2 * k32) * 1.58f);
  screen.outline = std::clamp(screen.outline, kLeast * kCardLong / ratio, std::max(130.0, most));
  app.layout.blockers.push_back({0, 0, l.width, l.height});
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({l.width, l.height});
  ImGui::SetNextWindowFocus();
  ImGui::Begin("screen-card", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoScrollWithMouse);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float longer = float(screen.outline), shorter = longer * float(kCardShort / kCardLong);
  const Rect card{std::round((l.width - (wide ? longer : shorter)) / 2),
                  std::round((l.height - below - (wide ? shorter : longer)) / 2),
                  wide ? longer : shorter, wide ? shorter : longer};
  list->AddRectFilled(card.min(), card.max(), grey::kPale, 10);
  list->AddRect(card.min(), card.max(), grey::kInk, 10, 0, 1.5f);
  app.ui.rects["card-outline"] = card;
  corner(app, card, wide);
  ImGui::SetCursorPos({(l.width - column) / 2, l.height - below + k8});
  ImGui::BeginGroup();
  app.ui.room = column;
  app.ui.words(Face::body, words::kCardHelp);
  app.ui.amount("card-side", words::kCardSide, "", &screen.outline, kLeast * kCardLong / ratio,
                std::max(130.0, most), screen.outline);
  if (app.ui.button("card-fits", words::kCardFits, true)) {
    keep(app, screen.outline * ratio / kCardLong);
    screen.measuring = false;
  }
  ImGui::SameLine();
  if (app.ui.button("card-away", words::kClose, false)) screen.measuring = false;
  app.ui.room = 0;
  ImGui::EndGroup();
  ImGui::End();
}

}  // namespace proofleaf::shell
