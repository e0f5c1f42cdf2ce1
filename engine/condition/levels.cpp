#include "condition/levels.h"

#include <algorithm>
#include <cmath>

namespace proofleaf::condition {
namespace {

constexpr uint64_t kMostCounted = 4'000'000;  // [pixels]
constexpr uint64_t kLeastCounted = 60'000;    // [pixels] below it absent levels mean nothing
constexpr uint32_t kLeastUsed = 24;           // levels: fewer are a drawing, not a photograph
constexpr double kEmpty = 0.05;               // of its neighbours' count: a level that is not used
constexpr uint32_t kWell = 60;                // counts of a level that is well used
constexpr size_t kWidestGap = 8;              // [levels]

using Counts = std::vector<uint32_t>;

// The usual distance between used levels: the one at half of all pixels' levels.
double usual_distance(const Counts& counts) {
  std::vector<uint32_t> distances;
  size_t last = counts.size();
  // The two ends of the scale hold clipped tones, wherever they came from.
  for (size_t i = 1; i + 1 < counts.size(); ++i) {
    if (counts[i] == 0) continue;
    if (last < counts.size()) distances.push_back(static_cast<uint32_t>(i - last));
    last = i;
  }
  if (distances.size() < kLeastUsed) return 0;
  const auto middle = distances.begin() + static_cast<std::ptrdiff_t>(distances.size() / 2);
  std::nth_element(distances.begin(), middle, distances.end());
  return *middle;
}

struct Comb {
  uint32_t gaps = 0, range = 0, used = 0;
};

// Levels with next to nothing between two that are well used, at most kWidestGap apart.
Comb comb_of(const Counts& counts) {
  Comb comb;
  size_t last = 0, first = 0;
  for (size_t i = 1; i + 1 < counts.size(); ++i) {
    if (counts[i] < kWell) continue;
    const double empty = kEmpty * std::min(last > 0 ? counts[last] : counts[i], counts[i]);
    if (last > 0 && i - last - 1 <= kWidestGap) {
      for (size_t k = last + 1; k < i; ++k) comb.gaps += counts[k] < empty;
    }
    if (first == 0) first = i;
    last = i;
    ++comb.used;
  }
  comb.range = static_cast<uint32_t>(last - first + (last > 0));
  return comb;
}

}  // namespace

LevelCounter::LevelCounter(uint32_t width, uint32_t height, uint32_t bits) : bits_(bits) {
  while (uint64_t{width} * (height / step_) > kMostCounted && step_ < height) ++step_;
  for (Counts& counts : counts_) counts.resize(size_t{1} << (bits_ > 8 ? 16 : 8));
}

void LevelCounter::add_row(const Row& row) {
  if (row.y % step_ != 0) return;
  counted_ += row.l.size();
  const int shift = bits_ > 8 ? 0 : 8;
  const uint16_t* rgb = row.rgb.data();
  for (size_t x = 0; x < row.l.size(); ++x, rgb += 3) {
    for (size_t c = 0; c < 3; ++c) ++counts_[c][rgb[c] >> shift];
  }
}

Levels LevelCounter::levels() const {
  Levels levels;
  levels.bits = bits_;
  levels.used = UINT32_MAX;
  for (const Counts& counts : counts_) {
    const auto used =
        counts.size() - static_cast<size_t>(std::count(counts.begin(), counts.end(), 0u));
    levels.used = std::min(levels.used, static_cast<uint32_t>(used));
    if (counted_ < kLeastCounted || used < kLeastUsed) continue;
    if (bits_ > 8) {
      const double distance = usual_distance(counts);
      if (distance == 0) continue;
      levels.enough = true;
      levels.bits = std::min(levels.bits, std::log2(65536 / distance));
      continue;
    }
    const Comb comb = comb_of(counts);
    if (comb.used < kLeastUsed) continue;
    levels.enough = true;
    const double share = double(comb.gaps) / comb.range;
    if (share > levels.gap_share) {
      levels.gap_share = share;
      levels.gaps = comb.gaps;
    }
  }
  return levels;
}

}  // namespace proofleaf::condition
