#include "fit/tone_curve.h"

#include <algorithm>
#include <cmath>

namespace proofleaf {

MonotoneCubic::MonotoneCubic(std::span<const TonePoint> points)
    : points_(points.begin(), points.end()), slopes_(points.size()) {
  const size_t last = points_.size() - 1;
  std::vector<double> chords(last);
  for (size_t i = 0; i < last; ++i) {
    chords[i] = (points_[i + 1].out - points_[i].out) / (points_[i + 1].in - points_[i].in);
  }
  slopes_.front() = chords.front();
  slopes_.back() = chords.back();
  for (size_t i = 1; i < last; ++i) slopes_[i] = (chords[i - 1] + chords[i]) / 2;
  for (size_t i = 0; i < last; ++i) {
    if (chords[i] <= 0) {
      slopes_[i] = slopes_[i + 1] = 0;
      continue;
    }
    const double length = std::hypot(slopes_[i], slopes_[i + 1]) / chords[i];
    if (length <= 3) continue;
    slopes_[i] *= 3 / length;
    slopes_[i + 1] *= 3 / length;
  }
}

double MonotoneCubic::operator()(double in) const {
  if (!(in > points_.front().in)) return points_.front().out;
  if (in >= points_.back().in) return points_.back().out;
  const auto above =
      std::upper_bound(points_.begin(), points_.end(), in,
                       [](double value, const TonePoint& point) { return value < point.in; });
  const auto i = static_cast<size_t>(above - points_.begin()) - 1;
  const TonePoint &p = points_[i], &q = points_[i + 1];
  const double width = q.in - p.in, t = (in - p.in) / width, u = 1 - t;
  // Hermite's basis.
  return p.out * u * u * (1 + 2 * t) + q.out * t * t * (1 + 2 * u) +
         width * t * u * (slopes_[i] * u - slopes_[i + 1] * t);
}

}  // namespace proofleaf
