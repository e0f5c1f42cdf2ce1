#include "condition/cut_off.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "condition/lightness.h"

namespace proofleaf::condition {
namespace {

constexpr double kStrip = 0.008;  // of the short side, at least 2 pixels
constexpr double kDeepest = 0.2;  // of the short side: how far a thing is followed
constexpr double kWindow = 0.25;  // of the side: its own surround
constexpr double kWidest = 0.125, kNarrowest = 0.006;  // of the side
constexpr double kContrast = 20;                       // [L*]
constexpr double kUnusual = 5;                         // times the usual difference
constexpr double kLeastUsual = 2;                      // [L*] grain and gradient
constexpr size_t kMostOnSide = 4;   // more that stand out are a pattern, such as courses of brick
constexpr uint32_t kShortest = 64;  // [small pixels] sides below are not judged

// One side of the picture: t along it, d inwards from it.
struct Side {
  const SmallPicture& picture;
  int which;  // 0 left, 1 right, 2 top, 3 bottom
  bool upright() const { return which < 2; }
  uint32_t wide() const { return picture.right - picture.left; }
  uint32_t high() const { return picture.bottom - picture.top; }
  uint32_t length() const { return upright() ? high() : wide(); }
  uint32_t x(uint32_t t, uint32_t d) const {
    return which == 0 ? picture.left + d : which == 1 ? picture.right - 1 - d : picture.left + t;
  }
  uint32_t y(uint32_t t, uint32_t d) const {
    return which == 2 ? picture.top + d : which == 3 ? picture.bottom - 1 - d : picture.top + t;
  }
  double at(uint32_t t, uint32_t d) const { return double(picture.at(x(t, d), y(t, d))) / kUnit; }
};

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// Mean lightness of the outermost `depth` pixels at each place along the side.
std::vector<double> strip_of(const Side& side, uint32_t depth) {
  std::vector<double> strip(side.length());
  for (uint32_t t = 0; t < strip.size(); ++t) {
    for (uint32_t d = 0; d < depth; ++d) strip[t] += side.at(t, d) / depth;
  }
  return strip;
}

// What the strip differs from its own median around each place. The median is taken afresh at every
// eighth place only.
std::vector<double> differences(const std::vector<double>& strip) {
  const auto half = static_cast<size_t>(kWindow / 2 * double(strip.size()));
  std::vector<double> result(strip.size());
  double usual = 0;
  for (size_t t = 0; t < strip.size(); ++t) {
    if (t % 8 == 0) {
      const size_t from = t > half ? t - half : 0, to = std::min(strip.size(), t + half + 1);
      usual = median({strip.begin() + static_cast<std::ptrdiff_t>(from),
                      strip.begin() + static_cast<std::ptrdiff_t>(to)});
    }
    result[t] = strip[t] - usual;
  }
  return result;
}

// How far the stretch goes on inwards with at least half of its contrast.
uint32_t depth_of(const Side& side, uint32_t from, uint32_t to, double ground, double contrast,
                  uint32_t most) {
  for (uint32_t d = 0; d < most; ++d) {
    double strongest = 0;
    for (uint32_t t = from; t < to; ++t) {
      strongest = std::max(strongest, (side.at(t, d) - ground) * (contrast > 0 ? 1 : -1));
    }
    if (strongest < std::abs(contrast) / 2) return d;
  }
  return most;
}

Place place_of(const Side& side, uint32_t from, uint32_t to, uint32_t depth) {
  const uint32_t factor = side.picture.factor;
  const uint32_t x = std::min(side.x(from, 0), side.x(to - 1, depth - 1));
  const uint32_t y = std::min(side.y(from, 0), side.y(to - 1, depth - 1));
  const uint32_t w = side.upright() ? depth : to - from, h = side.upright() ? to - from : depth;
  return {x * factor, y * factor, w * factor, h * factor};
}

void search(const Side& side, std::vector<CutOff>& found) {
  static constexpr const char* kNames[] = {"left", "right", "top", "bottom"};
  const uint32_t length = side.length();
  const uint32_t shorter = std::min(side.wide(), side.high());
  if (length < kShortest || shorter < kShortest) return;
  const uint32_t depth = std::max(2u, static_cast<uint32_t>(kStrip * shorter));
  const std::vector<double> strip = strip_of(side, depth);
  const std::vector<double> off = differences(strip);
  std::vector<double> sizes(off.size());
  std::transform(off.begin(), off.end(), sizes.begin(), [](double v) { return std::abs(v); });
  const double usual = std::max(kLeastUsual, 1.4826 * median(sizes));
  const double least = std::max(kContrast, kUnusual * usual);
  const auto beyond = [&](uint32_t t, double sign) { return off[t] * sign >= least / 2; };
  size_t standing_out = 0;
  std::vector<CutOff> here;
  for (uint32_t t = 0; t < length; ++t) {
    if (sizes[t] < least / 2) continue;
    const double sign = off[t] > 0 ? 1 : -1;
    uint32_t end = t;
    double most = 0;
    while (end < length && beyond(end, sign)) most = std::max(most, sizes[end++]);
    standing_out += most >= least;
    const double share = double(end - t) / length;
    // What lies in the corner is not cut by this side alone.
    const bool apart = t > 0 && end < length;
    if (most >= least && share <= kWidest && share >= kNarrowest && apart) {
      const double peak = most * sign;
      const double ground = strip[t] - off[t];
      const auto deepest = static_cast<uint32_t>(kDeepest * shorter);
      const uint32_t reach = depth_of(side, t, end, ground, peak, std::max(depth, deepest));
      if (reach >= 2 * depth)
        here.push_back({place_of(side, t, end, reach), kNames[side.which], peak});
    }
    t = end;
  }
  if (standing_out <= kMostOnSide) found.insert(found.end(), here.begin(), here.end());
}

}  // namespace

bool sides_can_be_judged(const SmallPicture& picture) {
  return std::min(picture.right - picture.left, picture.bottom - picture.top) >= kShortest;
}

std::vector<CutOff> find_cut_off(const SmallPicture& picture) {
  std::vector<CutOff> found;
  for (int which = 0; which < 4; ++which) search({picture, which}, found);
  const auto weight = [](const CutOff& one) {
    return std::abs(one.contrast) * std::sqrt(double(one.place.width) * one.place.height);
  };
  std::stable_sort(found.begin(), found.end(),
                   [&](const CutOff& a, const CutOff& b) { return weight(a) > weight(b); });
  if (found.size() > kMostPlaces) found.resize(kMostPlaces);
  return found;
}

}  // namespace proofleaf::condition
