#include "separation.h"

#include <algorithm>
#include <cmath>

namespace proofleaf::demo {
namespace {

constexpr size_t kFine = 512;  // steps along the ramp while it is being built
constexpr size_t kRamp = 128;  // steps kept

double black_ink(double depth, double start) {
  const double u = std::max(0.0, (depth - start) / (1.0 - start));
  return u * u * (1.6 - 0.6 * u);
}

// C and Y for a given M and K so that a* = b* = 0: Newton's method with numeric slopes.
Inks neutralise(const InkModel& model, Inks inks) {
  for (int round = 0; round < 25; ++round) {
    const Lab at = model.relative(inks);
    if (std::fabs(at.a) + std::fabs(at.b) < 1e-7) break;
    constexpr double h = 1e-5;
    Inks c = inks, y = inks;
    c[0] += c[0] > 0.5 ? -h : h;
    y[2] += y[2] > 0.5 ? -h : h;
    const Lab lc = model.relative(c), ly = model.relative(y);
    const double dc = c[0] - inks[0], dy = y[2] - inks[2];
    const double aa = (lc.a - at.a) / dc, ab = (ly.a - at.a) / dy;
    const double ba = (lc.b - at.b) / dc, bb = (ly.b - at.b) / dy;
    const double det = aa * bb - ab * ba;
    if (std::fabs(det) < 1e-12) break;
    inks[0] = std::clamp(inks[0] - (at.a * bb - at.b * ab) / det, 0.0, 1.0);
    inks[2] = std::clamp(inks[2] - (at.b * aa - at.a * ba) / det, 0.0, 1.0);
  }
  return inks;
}

}  // namespace

Separation::Separation(const Recipe& recipe, const InkModel& model) : limit_(recipe.ink_limit) {
  std::vector<Inks> path(kFine + 1);
  std::vector<double> lightness(kFine + 1);
  Inks at{};
  for (size_t i = 0; i <= kFine; ++i) {
    const double depth = static_cast<double>(i) / kFine;
    const double black = black_ink(depth, recipe.black_start);
    const double m = recipe.black_cmy * depth;
    at = i == 0 ? Inks{} : Inks{at[0] > 0 ? at[0] : m, m, at[2] > 0 ? at[2] : m, black};
    if (i > 0) at = neutralise(model, at);
    path[i] = at;
    lightness[i] = model.relative(at).l;
    if (i > 0) lightness[i] = std::min(lightness[i], lightness[i - 1] - 1e-9);
  }
  black_l_ = lightness[kFine];
  neutral_.resize(kRamp + 1);
  for (size_t i = 0, j = 0; i <= kRamp; ++i) {
    const double want = 100.0 + (black_l_ - 100.0) * static_cast<double>(i) / kRamp;
    while (j + 1 < kFine && lightness[j + 1] > want) ++j;
    const double u =
        std::clamp((lightness[j] - want) / (lightness[j] - lightness[j + 1]), 0.0, 1.0);
    for (size_t k = 0; k < 4; ++k) neutral_[i][k] = path[j][k] + u * (path[j + 1][k] - path[j][k]);
  }
}

double Separation::curve(size_t ink, double depth) const {
  const double x = std::clamp(depth, 0.0, 1.0) * kRamp;
  const size_t i = std::min(static_cast<size_t>(x), kRamp - 1);
  const double u = x - static_cast<double>(i);
  return neutral_[i][ink] + u * (neutral_[i + 1][ink] - neutral_[i][ink]);
}

Inks Separation::operator()(const Rgb& rgb) const {
  const Rgb depth{1.0 - rgb[0], 1.0 - rgb[1], 1.0 - rgb[2]};
  // Power mean with exponent -4: a smooth stand-in for the smallest of the three, and exactly their
  // value when they are equal.
  double sum = 0, most = 1e-9;
  for (double d : depth) {
    const double safe = std::max(d, 1e-6);
    sum += 1.0 / (safe * safe * safe * safe);
    most = std::max(most, d);
  }
  const double grey = std::pow(sum / 3.0, -0.25);
  const double neutral = std::pow(std::clamp(grey / most, 0.0, 1.0), 2.5);

  Inks inks;
  double cmy = 0;
  for (size_t k = 0; k < 3; ++k) {
    const double rest = 1.0 - neutral_[kRamp][k];  // a pure colour may use all of its ink
    inks[k] = curve(k, depth[k]) + (1.0 - neutral) * rest * std::pow(std::max(depth[k], 0.0), 3.0);
    inks[k] = std::clamp(inks[k], 0.0, 1.0);
    cmy += inks[k];
  }
  inks[3] = curve(3, grey) * neutral;  // saturated darks keep their colour
  // Soft ink limit: the black stays, the coloured inks give way before the limit is met.
  const double room = limit_ - inks[3];
  if (cmy > 0) {
    const double bent = cmy / std::pow(1.0 + std::pow(cmy / room, 12.0), 1.0 / 12.0);
    for (size_t k = 0; k < 3; ++k) inks[k] *= bent / cmy;
  }
  return inks;
}

}  // namespace proofleaf::demo
