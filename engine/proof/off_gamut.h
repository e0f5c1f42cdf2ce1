// How much of a picture lies how far off a paper's gamut.
#pragma once

#include <array>
#include <cstdint>
#include <span>

#include "proof/cube.h"

namespace proofleaf {

struct OffGamut {
  static constexpr size_t kMost = 10;          // [dE00] the largest threshold
  std::array<uint32_t, kMost + 1> at_least{};  // pixels at least so many dE00 off; [0]: all of them
  // The share of pixels that reach the threshold, 0..1; threshold: 0..kMost [dE00], else the
  // nearest.
  double share(int threshold) const;
};

// rgb: 16-bit R, G, B, of which every step-th pixel is looked at. The distances are those of the
// screen cube's fourth lane, in whole tenths.
OffGamut count_off_gamut(const Cube& cube, std::span<const uint16_t> rgb, size_t step = 1);

}  // namespace proofleaf
