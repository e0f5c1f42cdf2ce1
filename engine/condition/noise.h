// Noise, measured where the picture is smooth.
#pragma once

#include <array>
#include <vector>

#include "condition/lightness.h"

namespace proofleaf::condition {

// Standard deviation of a pixel [L*] in smooth parts of L* below 30, 30..70, above 70; negative
// where there are too few smooth parts to tell.
struct Noise {
  std::array<double, 3> sigma{-1, -1, -1};
  double largest() const;
};

// Blocks of 16 x 16 pixels. In each, the mean of |N * L| with the mask N of J. Immerkaer, "Fast
// Noise Variance Estimation", Computer Vision and Image Understanding 64 (1996), eq. (3):
//   N = (1 -2 1; -2 4 -2; 1 -2 1),  sigma = sqrt(pi / 2) mean|N * L| / 6.
// A block is smooth when its 4 x 4 part means lie on a plane as well as that sigma allows; it must
// touch neither end of the scale. The answer is the median over smooth blocks of one tone.
class NoiseMeter {
 public:
  explicit NoiseMeter(uint32_t width);
  void add_row(const Row& row);
  Noise noise() const;

 private:
  static constexpr uint32_t kBlock = 16, kPart = 4, kParts = kBlock / kPart;
  struct Block {
    int32_t parts[kParts][kParts];
    int32_t mask_sum;
    int16_t low, high;
  };
  void add_middle(uint32_t y, const int16_t* above, const int16_t* here, const int16_t* below);
  void close_blocks();
  void judge(const Block& block);

  uint32_t width_, across_;
  std::vector<int16_t> rows_[2];  // the last two rows
  std::vector<int32_t> bend_;
  std::vector<Block> blocks_;
  std::array<std::vector<uint32_t>, 3> counts_;  // of smooth blocks, by sigma in hundredths of L*
  std::array<uint32_t, 3> seen_{};               // blocks of a tone, smooth or not
};

}  // namespace proofleaf::condition
