#include "deliver/dither.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace proofleaf {
namespace {

constexpr size_t kCells = size_t{kMaskSide} * kMaskSide;

// How crowded each cell is: a Gaussian around every set cell, on a torus. Sigma as in the paper;
// beyond kReach cells it is under 1e-6 of its height and left out. Each row keeps its most crowded
// set cell and its emptiest unset one, so that finding the extreme of all looks at the rows only.
class Crowding {
 public:
  Crowding() {
    constexpr double kSigma = 1.5;
    for (size_t y = 0; y < bump_.size(); ++y) {
      for (size_t x = 0; x < bump_.size(); ++x) {
        const double dx = double(x) - kReach, dy = double(y) - kReach;
        bump_[y][x] = std::exp(-(dx * dx + dy * dy) / (2 * kSigma * kSigma));
      }
    }
    for (uint32_t row = 0; row < kMaskSide; ++row) look_through(row);
  }

  bool set(size_t cell) const { return set_[cell]; }

  void flip(size_t cell) {
    const double sign = set_[cell] ? -1 : 1;
    set_[cell] = !set_[cell];
    const auto cx = static_cast<uint32_t>(cell % kMaskSide);
    const auto cy = static_cast<uint32_t>(cell / kMaskSide);
    for (uint32_t y = 0; y < bump_.size(); ++y) {
      const uint32_t row = (cy + kMaskSide - kReach + y) % kMaskSide;
      for (uint32_t x = 0; x < bump_.size(); ++x) {
        energy_[row * kMaskSide + (cx + kMaskSide - kReach + x) % kMaskSide] += sign * bump_[y][x];
      }
      look_through(row);
    }
  }

  // The first most crowded set cell, the first emptiest unset one.
  size_t tightest_cluster() const {
    const auto found = std::max_element(tightest_.begin(), tightest_.end(), less);
    return found->cell;
  }
  size_t largest_void() const {
    const auto found = std::min_element(emptiest_.begin(), emptiest_.end(), less);
    return found->cell;
  }

 private:
  static constexpr int kReach = 8;
  struct Extreme {
    double energy = 0;
    size_t cell = 0;
  };
  static bool less(const Extreme& a, const Extreme& b) { return a.energy < b.energy; }

  void look_through(uint32_t row) {
    Extreme tightest{-1e9, 0}, emptiest{1e9, 0};
    for (size_t cell = row * kMaskSide; cell < (row + 1) * kMaskSide; ++cell) {
      if (set_[cell] && energy_[cell] > tightest.energy) tightest = {energy_[cell], cell};
      if (!set_[cell] && energy_[cell] < emptiest.energy) emptiest = {energy_[cell], cell};
    }
    tightest_[row] = tightest;
    emptiest_[row] = emptiest;
  }

  std::array<double, kCells> energy_{};
  std::array<bool, kCells> set_{};
  std::array<Extreme, kMaskSide> tightest_{}, emptiest_{};
  std::array<std::array<double, 2 * kReach + 1>, 2 * kReach + 1> bump_{};
};

// A small fixed generator (xorshift32, G. Marsaglia 2003), so that a seed means the same on every
// machine.
uint32_t next_random(uint32_t& state) {
  state ^= state << 13;
  state ^= state >> 17;
  state ^= state << 5;
  return state;
}

// The paper's starting pattern: a tenth of the cells at random, then clusters moved into voids
// until nothing moves.
size_t start_pattern(Crowding& crowding, uint32_t seed) {
  uint32_t state = seed * 2654435761u + 1;
  if (state == 0) state = 1;
  size_t count = 0;
  while (count < kCells / 10) {
    const size_t cell = next_random(state) % kCells;
    if (crowding.set(cell)) continue;
    crowding.flip(cell);
    ++count;
  }
  for (size_t moves = 0; moves < kCells; ++moves) {
    const size_t cluster = crowding.tightest_cluster();
    crowding.flip(cluster);
    const size_t hole = crowding.largest_void();
    crowding.flip(hole);
    if (hole == cluster) break;
  }
  return count;
}

}  // namespace

std::vector<uint16_t> make_blue_noise(uint32_t seed) {
  Crowding crowding;
  const size_t first = start_pattern(crowding, seed);
  std::vector<uint16_t> rank(kCells, 0);
  Crowding emptying = crowding;
  for (size_t left = first; left > 0; --left) {
    const size_t cell = emptying.tightest_cluster();
    emptying.flip(cell);
    rank[cell] = static_cast<uint16_t>(left - 1);
  }
  // Past half full the paper looks for clusters of empty cells; with a Gaussian the emptiest cell
  // is the same one, as all cells together add up to a constant.
  for (size_t filled = first; filled < kCells; ++filled) {
    const size_t cell = crowding.largest_void();
    crowding.flip(cell);
    rank[cell] = static_cast<uint16_t>(filled);
  }
  return rank;
}

Dither::Dither(uint32_t seed) : mask_(make_blue_noise(seed)) {
  for (uint16_t& cell : mask_) cell = static_cast<uint16_t>(cell * 257u / kCells);
}

namespace {

// code / 257 has a whole part and 257ths; the threshold decides which way the 257ths go. All in 16
// bits, so that compilers make vectors of it: (v - v/256) / 256 is v / 257 exactly for 16-bit v.
void dither_samples(const uint16_t* in, const uint16_t* thresholds, size_t count, uint8_t* out) {
  for (size_t i = 0; i < count; ++i) {
    const auto v = in[i];
    const auto whole = static_cast<uint16_t>(static_cast<uint16_t>(v - (v >> 8)) >> 8);
    const auto rest = static_cast<uint16_t>(v - static_cast<uint16_t>(whole * 257));
    out[i] = static_cast<uint8_t>(whole + (rest > thresholds[i] ? 1 : 0));
  }
}

}  // namespace

Dither::Pattern Dither::pattern(uint32_t y, uint32_t channels, uint32_t step) const {
  // Shifts far apart on the torus keep the channels' noise unlike each other.
  constexpr std::array<uint32_t, 4> kShiftX{0, 23, 41, 11}, kShiftY{0, 37, 13, 53};
  Pattern pattern{};
  for (uint32_t c = 0; c < channels; ++c) {
    const uint16_t* row = &mask_[(y + kShiftY[c]) % kMaskSide * kMaskSide];
    for (uint32_t x = 0; x < kMaskSide; ++x) {
      pattern[x * step + c] = row[(x + kShiftX[c]) % kMaskSide];
    }
  }
  return pattern;
}

void Dither::row(uint32_t y, uint32_t channels, std::span<const uint16_t> in,
                 std::span<uint8_t> out) const {
  const Pattern thresholds = pattern(y, channels, channels);
  const size_t period = size_t{kMaskSide} * channels;
  for (size_t at = 0; at < in.size(); at += period) {
    dither_samples(&in[at], thresholds.data(), std::min(period, in.size() - at), &out[at]);
  }
}

// rest > threshold where rest + (256 - threshold) reaches the next multiple of 257.
Dither::Pattern Dither::lifts(uint32_t y, uint32_t channels) const {
  Pattern lifts = pattern(y, channels, 4);
  for (uint16_t& lift : lifts) lift = static_cast<uint16_t>(256 - lift);
  return lifts;
}

}  // namespace proofleaf
