#include "deliver/dither.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace proofleaf {
namespace {

constexpr size_t kCells = size_t{kMaskSide} * kMaskSide;

// How crowded each cell is: a Gaussian around every set cell, on a torus. Sigma as in the paper.
class Crowding {
 public:
  Crowding() : energy_(kCells, 0.0), set_(kCells, false) {
    constexpr double kSigma = 1.5;
    for (uint32_t y = 0; y < kMaskSide; ++y) {
      for (uint32_t x = 0; x < kMaskSide; ++x) {
        const double dx = std::min(x, kMaskSide - x), dy = std::min(y, kMaskSide - y);
        bump_[y * kMaskSide + x] = std::exp(-(dx * dx + dy * dy) / (2 * kSigma * kSigma));
      }
    }
  }

  bool set(size_t cell) const { return set_[cell]; }

  void flip(size_t cell) {
    const double sign = set_[cell] ? -1 : 1;
    set_[cell] = !set_[cell];
    const size_t cx = cell % kMaskSide, cy = cell / kMaskSide;
    for (size_t y = 0; y < kMaskSide; ++y) {
      const size_t row = (y + kMaskSide - cy) % kMaskSide * kMaskSide;
      for (size_t x = 0; x < kMaskSide; ++x) {
        energy_[y * kMaskSide + x] += sign * bump_[row + (x + kMaskSide - cx) % kMaskSide];
      }
    }
  }

  // The most crowded set cell, or the emptiest unset one.
  size_t tightest_cluster() const { return extreme(true); }
  size_t largest_void() const { return extreme(false); }

 private:
  size_t extreme(bool among_set) const {
    size_t best = kCells;
    for (size_t cell = 0; cell < kCells; ++cell) {
      if (set_[cell] != among_set) continue;
      const bool better = best == kCells || (among_set ? energy_[cell] > energy_[best]
                                                       : energy_[cell] < energy_[best]);
      if (better) best = cell;
    }
    return best;
  }

  std::vector<double> energy_;
  std::vector<bool> set_;
  std::array<double, kCells> bump_{};
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

Dither::Dither(uint32_t seed) : mask_(make_blue_noise(seed)) {}

void Dither::row(uint32_t y, uint32_t channels, std::span<const uint16_t> in,
                 std::span<uint8_t> out) const {
  // Shifts far apart on the torus keep the channels' noise unlike each other.
  constexpr std::array<uint32_t, 4> kShiftX{0, 23, 41, 11}, kShiftY{0, 37, 13, 53};
  for (uint32_t c = 0; c < channels; ++c) {
    const uint16_t* row = &mask_[(y + kShiftY[c]) % kMaskSide * kMaskSide];
    for (size_t i = c, x = kShiftX[c]; i < in.size(); i += channels, ++x) {
      // code / 257 has a whole part and 257ths; the mask decides which way the 257ths go.
      const uint32_t whole = in[i] / 257u, rest = in[i] % 257u;
      const uint32_t threshold = row[x % kMaskSide] * 257u / kCells;
      out[i] = static_cast<uint8_t>(whole + (rest > threshold ? 1 : 0));
    }
  }
}

}  // namespace proofleaf
