// Device RGB to the four inks, with a neutral ramp that is neutral by construction.
#pragma once

#include <array>
#include <vector>

#include "inks.h"

namespace proofleaf::demo {

using Rgb = std::array<double, 3>;  // device values, each 0..1; all 1 is bare paper

// For equal r = g = b the inks give media-relative a* = b* = 0 and an L* that falls evenly from
// 100 to the paper's black.
class Separation {
 public:
  Separation(const Recipe& recipe, const InkModel& model);
  Inks operator()(const Rgb& rgb) const;
  double black_l() const { return black_l_; }  // media-relative L* of the darkest neutral

 private:
  double curve(size_t ink, double depth) const;
  double limit_;
  double black_l_ = 0;
  std::vector<Inks> neutral_;  // inks of the neutral ramp, evenly spaced in L*
};

}  // namespace proofleaf::demo
