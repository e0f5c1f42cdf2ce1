// How many levels of tone the file really uses, and gaps between them.
#pragma once

#include <array>
#include <vector>

#include "condition/lightness.h"

namespace proofleaf::condition {

struct Levels {
  bool enough = false;   // pixels and range, to say anything
  double bits = 16;      // log2 of (65536 / usual distance of used levels), at most the file's
  uint32_t used = 0;     // different levels, of the channel with the fewest
  uint32_t gaps = 0;     // 8-bit files: unused levels between used ones, worst channel
  double gap_share = 0;  // of the levels between the darkest and the brightest used, 0..1
};

// Counts up to about kMostCounted pixels: in larger pictures, rows at even distances.
class LevelCounter {
 public:
  LevelCounter(uint32_t width, uint32_t height, uint32_t bits);
  void add_row(const Row& row);
  Levels levels() const;

 private:
  uint32_t bits_, step_ = 1;
  uint64_t counted_ = 0;
  std::array<std::vector<uint32_t>, 3> counts_;  // by level: 256 or 65536
};

}  // namespace proofleaf::condition
