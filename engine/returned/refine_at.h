// Internal to this folder.
#pragma once

#include "returned/homography.h"
#include "returned/plane.h"

namespace proofleaf::returned {

// A picture to be found, at one size, and how its local contrast changes from pixel to pixel.
struct Template {
  uint32_t longer = 0;           // side [pixels] that was asked for
  Plane contrast, across, down;  // the slopes: for a pixel
};
Template template_of(const Plane& promise_l, uint32_t longer);
inline constexpr uint32_t kMatched = 512;  // matches are told at this size

// Moves `place` towards agreement with the template, up to so many steps.
void refine_at(Homography& place, const Pyramid& photo, const Template& t, int turns);
double match_with(const Homography& place, const Pyramid& photo, const Template& t);

}  // namespace proofleaf::returned
