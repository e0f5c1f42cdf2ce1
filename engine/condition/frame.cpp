#include "condition/frame.h"

#include <algorithm>
#include <cstdlib>

namespace proofleaf::condition {
namespace {

constexpr int kTolerance = 2 * 257;

// Whether nine in ten rows begin within two pixels of the least.
template <class Of>
uint32_t straight_side(size_t rows, Of of) {
  uint32_t least = UINT32_MAX;
  for (size_t i = 0; i < rows; ++i) least = std::min(least, of(i));
  size_t near = 0;
  for (size_t i = 0; i < rows; ++i) near += of(i) <= least + 2;
  return near * 10 >= rows * 9 ? least : 0;
}

}  // namespace

bool FrameFinder::same(const uint16_t* pixel) const {
  for (int c = 0; c < 3; ++c) {
    if (std::abs(int{pixel[c]} - colour_[c]) > kTolerance) return false;
  }
  return true;
}

void FrameFinder::add_row(const Row& row) {
  const uint16_t* rgb = row.rgb.data();
  if (row.y == 0) std::copy_n(rgb, 3, colour_);
  uint32_t lead = 0, trail = 0;
  while (lead < width_ && same(rgb + size_t{lead} * 3)) ++lead;
  if (lead == width_) {
    ++(ends_.empty() ? top_ : bottom_);
    return;
  }
  bottom_ = 0;
  while (same(rgb + size_t{width_ - 1 - trail} * 3)) ++trail;
  uint32_t others = 0;
  // How much of the row differs is asked only where a border could end: at its first and last row.
  for (uint32_t x = lead; x < width_ - trail; x += 7) others += same(rgb + size_t{x} * 3) ? 0 : 7;
  ends_.push_back({lead, trail, others});
}

Frame FrameFinder::frame() const {
  Frame frame;
  std::copy_n(colour_, 3, frame.colour);
  if (ends_.empty()) return frame;
  frame.left = straight_side(ends_.size(), [&](size_t i) { return ends_[i].lead; });
  frame.right = straight_side(ends_.size(), [&](size_t i) { return ends_[i].trail; });
  const uint32_t inner = width_ - frame.left - frame.right;
  if (ends_.front().others * 2 >= inner) frame.top = top_;
  if (ends_.back().others * 2 >= inner) frame.bottom = bottom_;
  const bool opposite = (frame.left > 0 && frame.right > 0) || (frame.top > 0 && frame.bottom > 0);
  if (!opposite) return Frame{};
  return frame;
}

}  // namespace proofleaf::condition
