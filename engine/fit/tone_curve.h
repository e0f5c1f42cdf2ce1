// A curve of lightness through points, never falling where they do not fall.
#pragma once

#include <span>
#include <vector>

namespace proofleaf {

// In and out as media-relative L* [0..100].
struct TonePoint {
  double in = 0, out = 0;
  bool operator==(const TonePoint&) const = default;
};

// The piecewise cubic of Fritsch and Carlson, "Monotone piecewise cubic interpolation", SIAM J.
// Numer. Anal. 17 (1980): slopes start as the mean of the chords beside them and are drawn into the
// circle of radius 3 (their region of sufficient monotonicity, from memory), so that the curve has
// a continuous slope and turns nowhere between two points.
class MonotoneCubic {
 public:
  // points: `in` rising strictly, `out` never falling; two or more. Not checked.
  explicit MonotoneCubic(std::span<const TonePoint> points);
  // Beyond the ends: the end's own value.
  double operator()(double in) const;
  // At the points; what the paper's condition is about.
  const std::vector<double>& slopes() const { return slopes_; }

 private:
  std::vector<TonePoint> points_;
  std::vector<double> slopes_;
};

}  // namespace proofleaf
