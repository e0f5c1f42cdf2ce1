// A print on a plain wall, to scale, with a mark as high as a person.
#pragma once

#include "print/size.h"

namespace proofleaf::print {

// Common practice, no source: pictures hang with their middle at an eye's height.
inline constexpr double kHangingMiddle = 1500;   // [mm] above the floor
inline constexpr double kLeastAboveFloor = 250;  // [mm] where that would be too low
inline constexpr double kLeastWall = 2500;       // [mm] high

// In the view's own units, from its top left corner.
struct WallBox {
  double x = 0, y = 0, width = 0, height = 0;
};
struct WallLayout {
  double scale = 0;  // of the view's units to a millimetre
  double floor = 0;  // where the wall meets the floor
  WallBox sheet;     // what hangs: paper with border and mat, or the trimmed picture
  WallBox picture;   // on it
  WallBox person;    // as wide as a line, as high as a person, standing on the floor
};

// The largest scale at which wall, print and person fit, the print in the middle of what the person
// leaves. A bleed is trimmed away and a wrapped edge is round the corner, so neither is seen.
// view_*: above 0; person_mm: 500..2500, held.
WallLayout wall_layout(const PrintPlan& plan, double view_width, double view_height,
                       double person_mm);

}  // namespace proofleaf::print
