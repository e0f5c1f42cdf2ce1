// Steps on an 8 x 8 grid, as JPEG compression leaves them, whatever the file is now.
#pragma once

#include <vector>

#include "condition/lightness.h"

namespace proofleaf::condition {

struct Blocking {
  bool enough = false;  // smooth pixels to tell
  double excess = 0;    // share by which steps on the grid exceed the others, the lesser direction
  double step_l = 0;    // that excess in L*, averaged over the grid's lines
};

// Means of the absolute difference of neighbours along each line between pixels, across and down,
// and of the lines at each of the eight positions the median (after H. R. Wu and M. Yuen, "A
// generalized block-edge impairment metric for video coding", IEEE Signal Processing Letters 4
// (1997), with the picture's own other positions as the measure). Compression leaves steps on all
// lines of its grid; the median is not moved by a subject's own edges that lie on some of them.
// Differences of 3 L* and more do not count.
class GridSteps {
 public:
  explicit GridSteps(uint32_t width);
  void add_row(const Row& row);
  Blocking blocking() const;

 private:
  struct Line {
    int64_t sum = 0;
    int32_t count = 0;
  };
  static double excess(const std::vector<Line>& lines, double& step);

  std::vector<int16_t> above_;
  std::vector<Line> columns_, rows_;  // columns_[x] lies between pixels x and x + 1, rows_ likewise
};

}  // namespace proofleaf::condition
