#include "print/wall.h"

#include <algorithm>

namespace proofleaf::print {
namespace {

constexpr double kAir = 300;             // [mm] around the print
constexpr double kFloor = 150;           // [mm] of the floor that is seen
constexpr double kPersonRoom = 600;      // [mm] left of the wall's free part
constexpr double kPersonFromSide = 300;  // [mm]

}  // namespace

WallLayout wall_layout(const PrintPlan& plan, double view_width, double view_height,
                       double person_mm) {
  const bool bare = plan.edge_kind != EdgeKind::none;
  const double width = bare ? plan.width_mm : plan.sheet_width_mm;
  const double height = bare ? plan.height_mm : plan.sheet_height_mm;
  const double person = std::clamp(person_mm, 500.0, 2500.0);
  const double middle = std::max(kHangingMiddle, height / 2 + kLeastAboveFloor);
  const double high = std::max({kLeastWall, middle + height / 2 + kAir, person + kAir}) + kFloor;
  const double wide = kPersonRoom + width + 2 * kAir;

  WallLayout layout;
  layout.scale = std::min(view_width / wide, view_height / high);
  const double s = layout.scale;
  layout.floor = view_height - kFloor * s;
  const double free_from = kPersonRoom * s;
  layout.sheet.width = width * s;
  layout.sheet.height = height * s;
  layout.sheet.x = free_from + (view_width - free_from - layout.sheet.width) / 2;
  layout.sheet.y = layout.floor - middle * s - layout.sheet.height / 2;
  layout.picture.width = plan.width_mm * s;
  layout.picture.height = plan.height_mm * s;
  layout.picture.x = layout.sheet.x + (layout.sheet.width - layout.picture.width) / 2;
  layout.picture.y = layout.sheet.y + (layout.sheet.height - layout.picture.height) / 2;
  // The person stands beside the print where the wall is wide.
  layout.person.x = std::max(kPersonFromSide * s, layout.sheet.x - (kAir + kPersonFromSide) * s);
  layout.person.height = person * s;
  layout.person.y = layout.floor - layout.person.height;
  return layout;
}

}  // namespace proofleaf::print
