// How far the picture hangs from level, from its own long straight edges.
#pragma once

#include "condition/condition.h"
#include "condition/small_picture.h"

namespace proofleaf::condition {

// What the edges near one axis say.
struct Lean {
  double degrees = 0;         // positive: turned clockwise, the right end hangs low
  double confidence = 0;      // 0..1: share of edge length that agrees, times how much there is
  size_t lines = 0;           // that agree
  std::vector<Place> places;  // of those, longest first
};

struct Tilt {
  bool known = false;
  double degrees = 0, confidence = 0;
  Lean level, upright;  // from level edges, from upright ones
};

// Edge points are the extremes of the gradient in each column (row), found to a part of a pixel by
// a parabola, followed from column to column; a chain of them that keeps within 0.8 pixel of a
// line, is long and lies within 12 degrees of the axis has a say of its length. The answer is the
// weighted median; confidence asks that most of the length agrees within 0.3 degrees. Level edges
// are asked first; upright ones lean in perspective, and count where they agree or where they are
// alone.
Tilt find_tilt(const SmallPicture& picture);

}  // namespace proofleaf::condition
