// Where in a photo the print lies: guessed from strong edges, then refined until what is pictured
// agrees with the promise.
#pragma once

#include "base/result.h"
#include "base/watch.h"
#include "returned/homography.h"
#include "returned/plane.h"

namespace proofleaf::returned {

// Correlation of local contrast from which on the promise counts as found in the photo, common
// practice, no source: unrelated pictures stay under 0.2, the same picture comes above 0.5.
inline constexpr double kFound = 0.35;

struct Alignment {
  Homography print_to_photo;
  double match = 0;  // correlation of local contrast, -1..1
  bool found() const { return match >= kFound; }
};

// photo: its L*, the largest first; promise_l: L* of the front. Tries quadrilaterals between strong
// straight edges and centred ones, as the sheet or as the picture inside its border, turned by 0,
// 90, 180 and 270 degrees, and refines the best. picture: left, top, right, bottom within the front
// [0..1]. Error: stopped.
Result<Alignment> find_print(const Pyramid& photo, const Plane& promise_l,
                             const std::array<double, 4>& picture, const Watch& watch);

// From corners that are about right (within some 5 per cent of the print's sides). Where the match
// does not get better, or the corners wander off by more than a tenth of the print, the start is
// kept.
Alignment refine(const Homography& start, const Pyramid& photo, const Plane& promise_l);
double match_at(const Homography& place, const Pyramid& photo, const Plane& promise_l);

// What is left beyond the homography: a lens that bends lines, paper that is not flat. Shifts of
// the places in the front [shares of it], on a coarse grid, bilinear in between.
struct Bend {
  Plane u, v;      // to be added to a place in the front before print_to_photo; empty: none
  double rms = 0;  // [shares of the longer side]
};
Bend find_bend(const Homography& place, const Pyramid& photo, const Plane& promise_l);

// The plane as the print lies in it, width x height; outside of the photo the value is `outside`.
// margin: so much more is shown on each side [shares of the front].
Plane flattened(const Plane& plane, const Homography& print_to_photo, const Bend& bend,
                uint32_t width, uint32_t height, float outside, double margin = 0);

}  // namespace proofleaf::returned
