// Internal to this folder.
#pragma once

#include "returned/homography.h"
#include "returned/plane.h"

namespace proofleaf::returned {

// Moves `place` towards agreement at a template of that longer side [pixels], up to so many steps.
void refine_at(Homography& place, const Pyramid& photo, const Plane& promise_l, uint32_t longer,
               int turns);

}  // namespace proofleaf::returned
