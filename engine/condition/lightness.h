// Rows of RGB to rows of L*, fast.
//
// Luminance is taken as the sum of three tables, one a channel, read out of the profile through
// LittleCMS: exact for profiles of matrix and curves (all working spaces), an approximation for
// profiles with colour tables, scaled so that white is L* 100. Input is looked up in 13 bits and L*
// is kept in steps of 1/256, so that a neutral is within about 0.01 L* of the exact value.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "colour/profile.h"

namespace proofleaf::condition {

inline constexpr int kUnit = 256;            // one L* in rows of lightness
inline constexpr uint16_t kTopEnd = 65407;   // from here a sample is 255 in an 8-bit file
inline constexpr uint16_t kBottomEnd = 128;  // up to here it is 0

// A place in an array, from whole numbers that are never negative there.
constexpr size_t index(int place) { return static_cast<size_t>(place); }

// One row of the master, as every part of the examination sees it. Rows come in order, from y = 0.
struct Row {
  uint32_t y = 0;
  std::span<const uint16_t> rgb;  // three samples a pixel
  std::span<const int16_t> l;     // L* times kUnit, 0..25600
};

class Lightness {
 public:
  // Error: the profile has no way to L*.
  static Result<Lightness> of(const Profile& profile);
  // rgb: 3 samples a pixel; l: as many values as pixels.
  void convert(std::span<const uint16_t> rgb, std::span<int16_t> l) const;

 private:
  static constexpr uint32_t kInputBits = 13, kSteps = 4096;
  std::array<std::vector<int32_t>, 3> luminance_;  // 1 = 2^24, by sample >> 3
  std::vector<int32_t> lightness_;                 // L* in 2^-16, by luminance >> 12
};

}  // namespace proofleaf::condition
