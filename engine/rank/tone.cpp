#include "rank/tone.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>

namespace proofleaf {
namespace {

// Its values are whatever was there before, until they are written.
struct Plane {
  Plane() = default;
  Plane(uint32_t its_width, uint32_t its_height)
      : width(its_width), height(its_height), values(new float[size()]) {}
  uint32_t width = 0, height = 0;
  std::unique_ptr<float[]> values;
  size_t size() const { return size_t{width} * height; }
  const float* row(uint32_t y) const { return &values[size_t{y} * width]; }
  float* row(uint32_t y) { return &values[size_t{y} * width]; }
};

constexpr size_t kMostLevels = 6;
constexpr uint32_t kSmallestSide = 4;  // [pixels], of the last level that is split

uint32_t mirrored(int64_t at, uint32_t size) {
  if (at < 0) at = -at;
  if (at >= size) at = 2 * (int64_t{size} - 1) - at;
  return static_cast<uint32_t>(std::clamp<int64_t>(at, 0, int64_t{size} - 1));
}

// Burt and Adelson's five taps, 1 4 6 4 1 over 16, around every second sample.
Plane reduce_across(const Plane& from) {
  Plane to((from.width + 1) / 2, from.height);
  for (uint32_t y = 0; y < from.height; ++y) {
    const float* in = from.row(y);
    float* out = to.row(y);
    auto tap = [&](uint32_t x) {
      auto at = [&](int64_t k) { return in[mirrored(2 * int64_t{x} + k, from.width)]; };
      return (6 * at(0) + 4 * (at(-1) + at(1)) + at(-2) + at(2)) / 16;
    };
    const uint32_t inner = from.width >= 5 ? (from.width - 3) / 2 : 0;  // last without the edge
    out[0] = tap(0);
    for (uint32_t x = 1; x <= inner; ++x) {
      const float* c = in + size_t{2} * x;
      out[x] = (6 * c[0] + 4 * (c[-1] + c[1]) + c[-2] + c[2]) / 16;
    }
    for (uint32_t x = std::max(1u, inner + 1); x < to.width; ++x) out[x] = tap(x);
  }
  return to;
}

Plane reduce_down(const Plane& from) {
  Plane to(from.width, (from.height + 1) / 2);
  for (uint32_t y = 0; y < to.height; ++y) {
    const float* rows[5];
    for (int k = 0; k < 5; ++k) {
      rows[k] = from.row(mirrored(2 * int64_t{y} + k - 2, from.height));
    }
    float* out = to.row(y);
    for (uint32_t x = 0; x < to.width; ++x) {
      out[x] = (6 * rows[2][x] + 4 * (rows[1][x] + rows[3][x]) + rows[0][x] + rows[4][x]) / 16;
    }
  }
  return to;
}

// A row of half as many samples, brought back to full width: 1 6 1 over 8 on samples, 1 1 over 2
// between them.
void expand_across(const float* in, uint32_t in_width, float* out, uint32_t width) {
  for (uint32_t x = 0; x < in_width; ++x) {
    const float left = in[x > 0 ? x - 1 : mirrored(-1, in_width)];
    const float right = in[x + 1 < in_width ? x + 1 : mirrored(x + 1, in_width)];
    out[2 * x] = (left + 6 * in[x] + right) / 8;
    if (2 * x + 1 < width) out[2 * x + 1] = (in[x] + right) / 2;
  }
}

Plane expand(const Plane& small, uint32_t width, uint32_t height) {
  Plane wide(width, small.height), to(width, height);
  for (uint32_t y = 0; y < small.height; ++y) {
    expand_across(small.row(y), small.width, wide.row(y), width);
  }
  for (uint32_t y = 0; y < height; ++y) {
    const uint32_t at = y / 2;
    const float* here = wide.row(at);
    const float* below = wide.row(mirrored(int64_t{at} + 1, small.height));
    float* out = to.row(y);
    if (y % 2 == 1) {
      for (uint32_t x = 0; x < width; ++x) out[x] = (here[x] + below[x]) / 2;
    } else {
      const float* above = wide.row(mirrored(int64_t{at} - 1, small.height));
      for (uint32_t x = 0; x < width; ++x) out[x] = (above[x] + 6 * here[x] + below[x]) / 8;
    }
  }
  return to;
}

// 1 / S_L at whole and half L*, looked up by the local mean.
class Weights {
 public:
  Weights() {
    for (size_t i = 0; i < table_.size(); ++i) {
      table_[i] = static_cast<float>(1 / lightness_weight(double(i) / 2));
    }
  }
  float at(float l) const {
    return table_[static_cast<size_t>(std::clamp(l, 0.0f, 100.0f) * 2 + 0.5f)];
  }

 private:
  std::array<float, 202> table_{};
};

Zone zone_of(float l) {
  if (l < float(kShadowsEnd)) return Zone::shadows;
  return l < float(kMidtonesEnd) ? Zone::midtones : Zone::highlights;
}

// Splits a picture's lightness into bands: use(seen, mean) is called for each
// level.
template <class Use>
void split(std::span<const float> lightness, uint32_t width, uint32_t height, const Use& use) {
  static const Weights weights;
  Plane plane(width, height);
  std::copy(lightness.begin(), lightness.end(), plane.values.get());
  for (size_t level = 0; level < kMostLevels; ++level) {
    if (std::min(plane.width, plane.height) < kSmallestSide) return;
    Plane smaller = reduce_down(reduce_across(plane));
    Plane mean = expand(smaller, plane.width, plane.height);
    float* value = plane.values.get();
    for (size_t i = 0; i < plane.size(); ++i) {
      const float x = (value[i] - mean.values[i]) * weights.at(mean.values[i]);
      value[i] = x * x * x / (1 + x * x);
    }
    use(plane, mean);
    plane = std::move(smaller);
  }
}

std::vector<float> values_of(const Plane& plane) {
  return {plane.values.get(), plane.values.get() + plane.size()};
}

}  // namespace

double lightness_weight(double l) {
  const double square = (l - 50) * (l - 50);
  return 1 + 0.015 * square / std::sqrt(20 + square);
}

ToneBands::ToneBands(std::span<const float> lightness, uint32_t width, uint32_t height) {
  split(lightness, width, height, [&](const Plane& seen, const Plane& mean) {
    levels_.push_back({seen.width, seen.height, values_of(seen), values_of(mean)});
  });
}

namespace {

// Sums over one zone: the master's visible contrast, what is kept of it and what is gone.
struct Sums {
  double seen = 0, kept = 0, gone = 0;
  void add(const Sums& more, double weight) {
    seen += more.seen * weight;
    kept += more.kept * weight;
    gone += more.gone * weight;
  }
};

// Four neighbours at once; a zone's border runs through most fours, so none is decided by a branch.
using Four = float __attribute__((vector_size(16)));
using Mask = int32_t __attribute__((vector_size(16)));

Four where(Mask mask, Four values) {
  return reinterpret_cast<Four>(mask & reinterpret_cast<Mask>(values));
}
Four larger(Four a, Four b) { return where(a > b, a) + where(a <= b, b); }
Four smaller(Four a, Four b) { return where(a < b, a) + where(a >= b, b); }

struct FourSums {
  Four seen{}, kept{}, gone{};
};

// Adds values [first, first + 4), of which `count` are there.
void compare_four(const ToneBands::Level& master, const float* paper, size_t first, size_t count,
                  std::array<FourSums, kZones>& sums) {
  Four seen{}, printed{}, mean{};
  std::memcpy(&seen, &master.seen[first], count * sizeof(float));
  std::memcpy(&printed, paper + first, count * sizeof(float));
  std::memcpy(&mean, &master.mean[first], count * sizeof(float));
  const Mask negative = seen < 0;
  const Four wanted = where(negative, -seen) + where(~negative, seen);
  const Four got = where(negative, -printed) + where(~negative, printed);
  const Four kept = larger(Four{}, smaller(got, wanted));
  const Four gone = larger(Four{}, wanted - 2 * kept);
  const Mask dark = mean < float(kShadowsEnd), light = mean >= float(kMidtonesEnd);
  const std::array<Mask, kZones> zones{dark, ~(dark | light), light};
  for (size_t zone = 0; zone < kZones; ++zone) {
    sums[zone].seen += where(zones[zone], wanted);
    sums[zone].kept += where(zones[zone], kept);
    sums[zone].gone += where(zones[zone], gone);
  }
}

double total(Four values) { return double(values[0]) + values[1] + values[2] + values[3]; }

// One level's sums by zone.
std::array<Sums, kZones> compare(const ToneBands::Level& master, const float* paper) {
  constexpr size_t kRun = 1024;  // few enough to stay exact in float
  std::array<Sums, kZones> sums;
  const size_t count = master.seen.size();
  for (size_t run = 0; run < count; run += kRun) {
    std::array<FourSums, kZones> fours;
    const size_t end = std::min(count, run + kRun);
    size_t i = run;
    for (; i + 4 <= end; i += 4) compare_four(master, paper, i, 4, fours);
    if (i < end) compare_four(master, paper, i, end - i, fours);
    for (size_t zone = 0; zone < kZones; ++zone) {
      const FourSums& four = fours[zone];
      sums[zone].add({total(four.seen), total(four.kept), total(four.gone)}, 1);
    }
  }
  return sums;
}

}  // namespace

ToneShares tone_kept(const ToneBands& master, std::span<const float> paper) {
  std::array<Sums, kZones> zones;
  if (master.levels().empty()) return {};
  size_t at = 0;
  const ToneBands::Level& whole = master.levels().front();
  split(paper, whole.width, whole.height, [&](const Plane& seen, const Plane&) {
    const std::array<Sums, kZones> sums = compare(master.levels()[at++], seen.values.get());
    for (size_t zone = 0; zone < kZones; ++zone) {  // every level covers the same area
      zones[zone].add(sums[zone], 1 / double(seen.size()));
    }
  });
  constexpr double kNothing = 1e-4;  // [JND a pixel]
  ToneShares shares;
  Sums all;
  for (size_t zone = 0; zone < kZones; ++zone) {
    const Sums& sums = zones[zone];
    all.add(sums, 1);
    if (sums.seen <= kNothing) continue;
    shares.kept[zone] = sums.kept / sums.seen;
    shares.gone[zone] = sums.gone / sums.seen;
  }
  if (all.seen > kNothing) {
    shares.all_kept = all.kept / all.seen;
    shares.all_gone = all.gone / all.seen;
  }
  return shares;
}

std::array<ToneRange, kZones> tone_ranges(std::span<const float> lightness) {
  constexpr size_t kBins = 1000;  // a tenth of L* each
  std::vector<size_t> bins(kBins);
  for (const float l : lightness) {
    ++bins[static_cast<size_t>(std::clamp(l, 0.0f, 99.95f) * 10)];
  }
  std::array<ToneRange, kZones> ranges;
  std::array<size_t, kZones> count{};
  auto zone_at = [](size_t bin) { return static_cast<size_t>(zone_of((float(bin) + 0.5f) / 10)); };
  for (size_t bin = 0; bin < kBins; ++bin) count[zone_at(bin)] += bins[bin];
  std::array<size_t, kZones> below{};
  for (size_t bin = 0; bin < kBins; ++bin) {
    const size_t zone = zone_at(bin);
    const double all = double(count[zone]), before = double(below[zone]) / all;
    below[zone] += bins[bin];
    const double after = double(below[zone]) / all;
    // Between the two percentiles; one bin alone is no range.
    if (count[zone] > 0 && after > 0.01 && before < 0.99) {
      ranges[zone].steps += 0.1 / lightness_weight((double(bin) + 0.5) / 10);
    }
  }
  for (size_t zone = 0; zone < kZones; ++zone) {
    ranges[zone].share = lightness.empty() ? 0 : double(count[zone]) / double(lightness.size());
    if (ranges[zone].steps < 0.2) ranges[zone].steps = 0;
  }
  return ranges;
}

}  // namespace proofleaf
