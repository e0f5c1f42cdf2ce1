#include "condition/edge_profile.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "condition/lightness.h"

namespace proofleaf::condition {
namespace {

constexpr int kSide = 8, kReach = 12;  // [pixels] the even side lies that far from the edge
constexpr int kBinsPerPixel = 2;
constexpr int kBins = 2 * kReach * kBinsPerPixel;
constexpr double kStraight = 0.35;               // [pixels] rms about the line
constexpr double kSteepest = 0.5;                // [pixels] across for one along
constexpr double kEven = 0.1;                    // of the step, across one side
constexpr double kBrightest = 97, kDarkest = 3;  // [L*] beyond, the scale itself cuts a halo off

struct Line {
  double at = 0, slope = 0;  // place = at + slope * v
};

// Where the row of the patch passes `middle` next to `near`; nothing within three pixels: empty.
std::optional<double> crossing(const std::array<int16_t, 2 * kAcross + 1>& row, double middle,
                               bool rising, double near) {
  std::optional<double> best;
  const int from = std::max(0, static_cast<int>(near) + kAcross - 3);
  const int to = std::min(2 * kAcross - 1, static_cast<int>(near) + kAcross + 3);
  for (int i = from; i <= to; ++i) {
    const double a = row[index(i)], b = row[index(i) + 1];
    if (!(rising ? a <= middle && b > middle : a >= middle && b < middle)) continue;
    const double place = i - kAcross + (middle - a) / (b - a);
    if (!best || std::abs(place - near) < std::abs(*best - near)) best = place;
  }
  return best;
}

// The edge in all rows, from the middle one outwards, and the line through them.
std::optional<Line> find_line(const EdgePatch& patch, double middle, bool rising) {
  std::array<double, 2 * kAlong + 1> place{};
  for (int direction : {1, -1}) {
    double near = direction == 1 ? 0 : place[kAlong];
    for (int v = direction == 1 ? 0 : -1; std::abs(v) <= kAlong; v += direction) {
      const auto row = index(v + kAlong);
      const auto found = crossing(patch.value[row], middle, rising, near);
      if (!found) return {};
      near = place[row] = *found;
    }
  }
  Line line;
  double sum_vv = 0;
  for (int v = -kAlong; v <= kAlong; ++v) {
    line.at += place[index(v + kAlong)] / (2 * kAlong + 1);
    line.slope += v * place[index(v + kAlong)];
    sum_vv += v * v;
  }
  line.slope /= sum_vv;
  double off = 0;
  for (int v = -kAlong; v <= kAlong; ++v) {
    const double d = place[index(v + kAlong)] - line.at - line.slope * v;
    off += d * d / (2 * kAlong + 1);
  }
  if (std::sqrt(off) > kStraight || std::abs(line.slope) > kSteepest) return {};
  return line;
}

using Profile = std::array<double, kBins>;

// The finely sampled profile, dark side first; empty bins are bridged.
std::optional<Profile> collect(const EdgePatch& patch, const Line& line, bool rising) {
  Profile sum{};
  std::array<int, kBins> count{};
  const double cosine = 1 / std::hypot(1.0, line.slope);
  for (int v = -kAlong; v <= kAlong; ++v) {
    for (int u = -kAcross; u <= kAcross; ++u) {
      double t = (u - line.at - line.slope * v) * cosine;
      if (!rising) t = -t;
      const int bin = static_cast<int>(std::floor((t + kReach) * kBinsPerPixel));
      if (bin < 0 || bin >= kBins) continue;
      sum[index(bin)] += patch.value[index(v + kAlong)][index(u + kAcross)];
      ++count[index(bin)];
    }
  }
  size_t last = kBins;
  for (size_t i = 0; i < kBins; ++i) {
    if (count[i] == 0) continue;
    sum[i] /= count[i];
    const double before = last < kBins ? sum[last] : sum[i];
    const size_t from = last < kBins ? last + 1 : 0;
    if (i - from > 3) return {};
    for (size_t k = from; k < i; ++k) {
      sum[k] = before + (sum[i] - before) * double(k + 1 - from) / double(i + 1 - from);
    }
    last = i;
  }
  if (last == kBins || kBins - last > 4) return {};
  for (size_t k = last + 1; k < kBins; ++k) sum[k] = sum[last];
  return sum;
}

struct Side {
  double mean = 0, low = 1e9, high = -1e9, deviation = 0;
};

Side side_of(const Profile& profile, size_t from, size_t count) {
  Side side;
  double squares = 0;
  for (size_t i = from; i < from + count; ++i) {
    side.mean += profile[i] / double(count);
    squares += profile[i] * profile[i] / double(count);
    side.low = std::min(side.low, profile[i]);
    side.high = std::max(side.high, profile[i]);
  }
  side.deviation = std::sqrt(std::max(0.0, squares - side.mean * side.mean));
  return side;
}

// How far from the edge [pixels] the profile first passes `level`, going outwards: step 1 to the
// bright side, -1 to the dark one.
double reach(const Profile& profile, double level, int step) {
  for (int i = step > 0 ? kBins / 2 - 1 : kBins / 2; i + step >= 0 && i + step < kBins; i += step) {
    const double here = profile[index(i)];
    const double next = profile[index(i + step)];
    if (step > 0 ? next < level : next > level) continue;
    const double part = next == here ? 1 : std::clamp((level - here) / (next - here), 0.0, 1.0);
    const double place = (i + 0.5 + step * part) / kBinsPerPixel - kReach;
    return place * step;
  }
  return kReach;
}

}  // namespace

std::optional<EdgeProfile> measure_edge(const EdgePatch& patch) {
  const auto& row = patch.value[kAlong];
  double first = 0, second = 0;
  for (size_t i = 0; i < 5; ++i) {
    first += row[i + kAcross - kReach] / 5.0;
    second += row[i + kAcross + kSide] / 5.0;
  }
  const bool rising = second > first;
  if (std::abs(second - first) < kLeastEdge * kUnit) return {};
  const auto line = find_line(patch, (first + second) / 2, rising);
  if (!line) return {};
  auto profile = collect(patch, *line, rising);
  if (!profile) return {};
  constexpr size_t kSideBins = (kReach - kSide) * kBinsPerPixel;
  const Side dark = side_of(*profile, 0, kSideBins);
  const Side bright = side_of(*profile, kBins - kSideBins, kSideBins);
  const double step = bright.mean - dark.mean;
  if (step < kLeastEdge * kUnit) return {};
  if (std::max(dark.high - dark.low, bright.high - bright.low) > kEven * step) return {};
  for (double& value : *profile) value = (value - dark.mean) / step;
  const double rise = reach(*profile, 0.9, 1) + reach(*profile, 0.1, -1);
  if (rise > kSide) return {};
  const Side upper = side_of(*profile, kBins / 2, kSide * kBinsPerPixel);
  const Side lower = side_of(*profile, kBins / 2 - kSide * kBinsPerPixel, kSide * kBinsPerPixel);
  EdgeProfile edge;
  edge.step_l = step / kUnit;
  edge.rise = rise;
  // What the sides' own unevenness would reach by chance is taken off.
  edge.bright = std::max(0.0, upper.high - 1 - 2 * bright.deviation / step);
  edge.dark = std::max(0.0, -lower.low - 2 * dark.deviation / step);
  if (bright.mean > kBrightest * kUnit) edge.bright = -1;
  if (dark.mean < kDarkest * kUnit) edge.dark = -1;
  return edge;
}

}  // namespace proofleaf::condition
