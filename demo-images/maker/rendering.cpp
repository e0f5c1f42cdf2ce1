#include "rendering.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace proofleaf::demo {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

// Identity up to `knee`, then bending smoothly towards 1 (slopes meet at the knee).
double bend(double x, double knee) {
  if (x <= knee) return x;
  const double room = 1.0 - knee, u = (x - knee) / room;
  return knee + room * u / std::pow(1.0 + u * u, 0.5);
}

}  // namespace

Rendering::Rendering(const DeviceCube& cube, double black_l) : black_l_(black_l) {
  for (size_t t = 0; t < kTones; ++t)
    for (size_t h = 0; h < kHues; ++h)
      edge_[t][h] = cube.most_chroma(100.0 * static_cast<double>(t) / (kTones - 1),
                                     kTurn * static_cast<double>(h) / kHues);
  // Widen a little (a neighbour's larger value counts), then blur: the edge must not jump, and the
  // final search takes care of what is still too colourful.
  const auto pass = [this](auto combine) {
    const auto old = edge_;
    for (size_t t = 0; t < kTones; ++t)
      for (size_t h = 0; h < kHues; ++h) {
        const size_t up = std::min(t + 1, kTones - 1), down = t > 0 ? t - 1 : 0;
        edge_[t][h] = combine(old[t][h], old[up][h], old[down][h], old[t][(h + 1) % kHues],
                              old[t][(h + kHues - 1) % kHues]);
      }
  };
  pass([](double m, double u, double d, double, double) { return std::max({m, u, d}); });
  for (int i = 0; i < 3; ++i)
    pass([](double m, double u, double d, double l, double r) {
      return 0.4 * m + 0.15 * (u + d + l + r);
    });
}

double Rendering::edge(double l, double hue) const {
  const double x = std::clamp(l / 100.0, 0.0, 1.0) * (kTones - 1);
  const double y = (hue < 0 ? hue + kTurn : hue) / kTurn * kHues;
  const size_t t = std::min(static_cast<size_t>(x), kTones - 2);
  const double u = x - static_cast<double>(t), floor_y = std::floor(y), v = y - floor_y;
  const size_t h = static_cast<size_t>(floor_y) % kHues, g = (h + 1) % kHues;
  return (1 - u) * ((1 - v) * edge_[t][h] + v * edge_[t][g]) +
         u * ((1 - v) * edge_[t + 1][h] + v * edge_[t + 1][g]);
}

Lab Rendering::operator()(const Lab& lab, Intent intent) const {
  if (intent == Intent::relative) return lab;
  const bool fuller = intent == Intent::saturation;
  const double depth = 1.0 - std::clamp(lab.l, 0.0, 100.0) / 100.0;
  // Slope at black is 1 - power * black / 100, kept well above zero for the lightest blacks.
  const double power = black_l_ > 25 ? 1.8 : 2.4;
  const double l = lab.l + black_l_ * std::pow(depth, power);
  const double c = std::hypot(lab.a, lab.b);
  if (c < 1e-9) return {l, 0, 0};
  const double limit = std::max(edge(l, std::atan2(lab.b, lab.a)), 4.0);
  const double wanted = fuller ? c * (1.0 + 0.12 * c / (c + 20.0)) : c;
  const double k = limit * bend(wanted / limit, fuller ? 0.85 : 0.6) / c;
  return {l, k * lab.a, k * lab.b};
}

}  // namespace proofleaf::demo
