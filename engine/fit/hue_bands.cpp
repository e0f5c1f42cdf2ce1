#include "fit/hue_bands.h"

#include <cmath>
#include <numbers>

namespace proofleaf {

BandsOfHue bands_of_hue(double a, double b) {
  double hue = std::atan2(b, a) * 180 / std::numbers::pi;
  if (hue < kHueBandNames[0].middle) hue += 360;
  size_t first = kHueBands - 1;
  while (first > 0 && hue < kHueBandNames[first].middle) --first;
  const size_t second = (first + 1) % kHueBands;
  const double start = kHueBandNames[first].middle;
  const double end = kHueBandNames[second].middle + (second == 0 ? 360 : 0);
  const double along = (hue - start) / (end - start);
  return {first, second, 0.5 + 0.5 * std::cos(std::numbers::pi * along)};
}

}  // namespace proofleaf
