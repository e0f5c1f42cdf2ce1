// A smaller picture for the screen.
#pragma once

#include <vector>

#include "base/watch.h"
#include "raster/rows.h"

namespace proofleaf {

struct Picture {
  uint32_t width = 0, height = 0;  // [pixels]
  std::vector<uint16_t> rgb;       // three 16-bit samples a pixel
};

// The whole-number factor by which both sides shrink so that no more than `most` pixels remain.
uint32_t shrink_factor(uint32_t width, uint32_t height, uint64_t most);

// Means of factor x factor pixels, taken of the squares of the codes: close to linear light for
// every usual encoding, so that fine bright detail keeps its weight. Sides are rounded up; the last
// row and column are means of what is there. rows: three channels. Error: stopped, or a damaged
// file.
Result<Picture> shrink(RowSource& rows, uint32_t factor, const Watch& watch);

// The same row by row, for who has something else to do in between.
class Shrinking {
 public:
  // rows: as shrink() takes them; must outlive this. factor: 1 or more.
  Shrinking(RowSource& rows, uint32_t factor);
  bool finished() const { return row_ == picture_.height; }
  double share() const { return double(row_) / picture_.height; }  // done, 0..1
  // Makes the next row of the smaller picture; not once it is finished. Error: a damaged file.
  Status step();
  // The finished picture, given away.
  Picture take() { return std::move(picture_); }

 private:
  void add_up(const uint16_t* row);

  RowSource& rows_;
  RowFormat format_;
  uint32_t factor_;
  uint32_t row_ = 0;  // the next one
  Picture picture_;
  std::vector<uint16_t> strip_;  // the pixels of a row
  std::vector<uint64_t> sums_;   // of their squares
};

// A part of a picture, pixel for pixel. Error: it does not lie inside, stopped, or a damaged file.
Result<Picture> cut(RowSource& rows, uint32_t x, uint32_t y, uint32_t width, uint32_t height,
                    const Watch& watch);

}  // namespace proofleaf
