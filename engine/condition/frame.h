// A plain border of one colour that belongs to the picture's presentation, not to its content.
#pragma once

#include <cstdint>
#include <vector>

#include "condition/lightness.h"

namespace proofleaf::condition {

// Widths of the border [pixels], all zero where there is none.
struct Frame {
  uint32_t left = 0, top = 0, right = 0, bottom = 0;
  uint16_t colour[3] = {0, 0, 0};
  bool any() const { return left + top + right + bottom > 0; }
};

// A border is of the corner's colour (within 2/255), straight on its inner side, and there on two
// opposite sides at least: a blown sky along the top is none, nor is a moon in a black night.
class FrameFinder {
 public:
  explicit FrameFinder(uint32_t width) : width_(width) {}
  void add_row(const Row& row);
  Frame frame() const;

 private:
  // Leading and trailing pixels of the border's colour, and how many are of another colour.
  struct Ends {
    uint32_t lead, trail, others;
  };
  bool same(const uint16_t* pixel) const;

  uint32_t width_;
  uint16_t colour_[3] = {0, 0, 0};
  uint32_t top_ = 0, bottom_ = 0;  // whole rows of the colour before and after all others
  std::vector<Ends> ends_;         // of rows that are not wholly of the colour
};

}  // namespace proofleaf::condition
