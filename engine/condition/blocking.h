// Steps on an 8 x 8 grid, as JPEG compression leaves them, whatever the file is now.
#pragma once

#include <array>
#include <vector>

#include "condition/lightness.h"

namespace proofleaf::condition {

struct Blocking {
  bool enough = false;  // smooth pixels to tell
  double excess = 0;    // share by which steps on the grid exceed the others, the lesser direction
  double step_l = 0;    // that excess in L*, averaged over the grid's lines
};

// Means of the absolute difference of neighbours, apart for each of the eight positions in x and in
// y (after H. R. Wu and M. Yuen, "A generalized block-edge impairment metric for video coding",
// IEEE Signal Processing Letters 4 (1997), with the picture's own other positions as the measure).
// Differences of 3 L* and more are the picture's own edges and do not count.
class GridSteps {
 public:
  explicit GridSteps(uint32_t width);
  void add_row(const Row& row);
  Blocking blocking() const;

 private:
  struct Sums {
    std::array<int64_t, 8> sum{}, count{};
  };
  static double excess(const Sums& sums, double& step);

  uint32_t width_;
  std::vector<int16_t> above_;
  Sums along_x_, along_y_;
};

}  // namespace proofleaf::condition
