#include "fit/monochrome.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "fit/fields.h"
#include "fit/smooth.h"

namespace proofleaf {
namespace {

constexpr double kLeastSum = 0.1;  // of the weights
constexpr double kFullChroma = 25;
constexpr double kEnds = 15;     // L* over which toning fades at both ends
constexpr double kOverlap = 20;  // L* to either side of the balance over which both tones mix

}  // namespace

Status check(const Monochrome& monochrome) {
  std::optional<Error> error;
  each_monochrome_number(monochrome,
                         [&](const std::string& what, double value, double low, double high) {
                           if (!error && !(value >= low && value <= high))
                             error = out_of_range(phrase("monochrome"), what, low, high);
                         });
  if (error) return *error;
  const auto& weights = monochrome.weights;
  if (!(weights[0] + weights[1] + weights[2] >= kLeastSum)) {
    return Error{"The monochrome's weights must add up to 0.1 or more."};
  }
  return done();
}

double mixed_lightness(const Monochrome& monochrome, const MasterSpace& space, const float* rgb,
                       const Lab& colour) {
  double y = 0, sum = 0;
  for (size_t c = 0; c < 3; ++c) {
    y += monochrome.weights[c] * space.linear(rgb[c]);
    sum += monochrome.weights[c];
  }
  double l = lab_from_xyz({0, y / sum, 0}).l;
  const double square = colour.a * colour.a + colour.b * colour.b;
  const double share = 1 - std::exp(-square / (kFullChroma * kFullChroma));
  l += share *
       at_hue(bands_of_hue(colour.a, colour.b), [&](size_t i) { return monochrome.bands[i]; });
  return std::clamp(l, 0.0, 100.0);
}

Lab toned(const Monochrome& monochrome, double l) {
  const double between = 50 - 0.3 * monochrome.balance;
  const double highlights = smooth_step((l - between + kOverlap) / (2 * kOverlap));
  const double share = smooth_step(l / kEnds) * smooth_step((100 - l) / kEnds);
  Lab colour{l, 0, 0};
  const auto add = [&](const Toning& toning, double weight) {
    const double hue = toning.hue * std::numbers::pi / 180;
    colour.a += share * weight * toning.chroma * std::cos(hue);
    colour.b += share * weight * toning.chroma * std::sin(hue);
  };
  add(monochrome.shadows, 1 - highlights);
  add(monochrome.highlights, highlights);
  return colour;
}

}  // namespace proofleaf
