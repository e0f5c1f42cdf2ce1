// The whole picture's lightness made small, for what is judged from a distance.
#pragma once

#include "condition/frame.h"
#include "condition/shrink_rows.h"
#include "raster/preview.h"

namespace proofleaf::condition {

inline constexpr uint64_t kSmallPixels = 1'500'000;

struct SmallPicture {
  uint32_t width = 0, height = 0;
  uint32_t factor = 1;             // pixels of the master to one
  uint32_t left = 0, top = 0;      // the part inside of a border, in small pixels
  uint32_t right = 0, bottom = 0;  // one past the last
  std::vector<int16_t> l;          // lightness (lightness.h)
  int16_t at(uint32_t x, uint32_t y) const { return l[size_t{y} * width + x]; }

  // Leaves a border out, and the pixels that are partly of it.
  void crop_to(const Frame& frame) {
    const auto inside = [&](uint32_t side) { return side == 0 ? 0 : side / factor + 2; };
    left = inside(frame.left);
    top = inside(frame.top);
    right = width > left + inside(frame.right) ? width - inside(frame.right) : left;
    bottom = height > top + inside(frame.bottom) ? height - inside(frame.bottom) : top;
  }
};

class SmallPictureMaker {
 public:
  SmallPictureMaker(uint32_t width, uint32_t height)
      : factor_(shrink_factor(width, height, kSmallPixels)), shrinker_(width, factor_) {
    small_.factor = factor_;
    small_.width = small_.right = shrinker_.width();
    small_.height = small_.bottom = (height + factor_ - 1) / factor_;
    small_.l.reserve(size_t{small_.width} * small_.height);
  }
  void add_row(const Row& row) {
    if (shrinker_.add(row.l)) take();
  }
  SmallPicture finish() {
    if (shrinker_.flush()) take();
    return std::move(small_);
  }

 private:
  void take() { small_.l.insert(small_.l.end(), shrinker_.row().begin(), shrinker_.row().end()); }
  uint32_t factor_;
  RowShrinker shrinker_;
  SmallPicture small_;
};

}  // namespace proofleaf::condition
