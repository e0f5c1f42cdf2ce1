// Things the picture's edge cuts: a bright twig or a dark shoulder that comes in from outside.
#pragma once

#include "condition/condition.h"
#include "condition/small_picture.h"

namespace proofleaf::condition {

struct CutOff {
  Place place;       // in pixels of the master
  const char* side;  // left, right, top, bottom
  double contrast;   // L* against the border around it
};

// Whether the picture is large enough for that.
bool sides_can_be_judged(const SmallPicture& picture);

// Along each side, the mean lightness of the outermost strip is compared with its own median over a
// quarter of the side. A stretch that differs by 20 L* and by more than five times the side's usual
// difference (median absolute deviation, scaled to a standard deviation), is narrower than an
// eighth of the side and reaches in by at least twice the strip is one; more than four on a side
// are a pattern. The most striking first, at most kMostPlaces.
std::vector<CutOff> find_cut_off(const SmallPicture& picture);

}  // namespace proofleaf::condition
