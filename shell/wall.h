// The print on a plain wall, and this screen's true size.
#pragma once

#include <optional>

#include "look.h"
#include "print/wall.h"

namespace proofleaf::shell {

struct App;

// ISO/IEC 7810:2019, ID-1, the size of a bank card [mm] (from memory).
inline constexpr double kCardLong = 85.60, kCardShort = 53.98;

struct WallState {
  bool on = false;
  double person_cm = 170;
};

struct ScreenState {
  double pixels_per_mm = 0;  // the screen's own; 0: not known
  bool measuring = false;    // the card's outline is out
  double outline = 0;        // its longer side [CSS px]
};

// wall.cpp
bool wall_shown(const App& app);
Rect on_wall(const App& app);         // the part of the stage the picture takes
Rect master_on_wall(const App& app);  // where all of the master would lie
void draw_wall(App& app);             // OpenGL, under the picture
void draw_over_wall(App& app);        // the person's mark

// true_size.cpp
void recall_screen(App& app);
void draw_screen_card(App& app);  // the outline to hold a card against

}  // namespace proofleaf::shell
