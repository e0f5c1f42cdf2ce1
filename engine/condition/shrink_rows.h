// Rows of lightness made smaller on the way: means of factor x factor pixels.
#pragma once

#include <algorithm>
#include <cstdint>
#include <span>
#include <vector>

namespace proofleaf::condition {

class RowShrinker {
 public:
  RowShrinker(uint32_t width, uint32_t factor)
      : width_(width), factor_(factor), sums_(width), row_((width + factor - 1) / factor) {}
  uint32_t width() const { return static_cast<uint32_t>(row_.size()); }
  std::span<const int16_t> row() const { return row_; }

  // True where row() is a new one; the last column is the mean of what is there.
  bool add(std::span<const int16_t> l) {
    if (rows_ == 0) std::fill(sums_.begin(), sums_.end(), 0);
    for (uint32_t x = 0; x < width_; ++x) sums_[x] += l[x];
    if (++rows_ < factor_) return false;
    make();
    return true;
  }
  // True where rows were left over and row() holds their means.
  bool flush() {
    if (rows_ == 0) return false;
    make();
    return true;
  }

 private:
  void make() {
    for (uint32_t i = 0, x = 0; i < row_.size(); ++i) {
      const uint32_t end = std::min(width_, x + factor_);
      const auto count = std::max<int64_t>(1, static_cast<int64_t>(end - x) * rows_);
      int64_t sum = count / 2;
      for (; x < end; ++x) sum += sums_[x];
      row_[i] = static_cast<int16_t>(sum / count);
    }
    rows_ = 0;
  }

  uint32_t width_, factor_, rows_ = 0;
  std::vector<int32_t> sums_;
  std::vector<int16_t> row_;
};

// The last `depth` rows of a picture that comes row by row. Row y is there while y is above
// newest - depth.
class RowRing {
 public:
  RowRing(uint32_t width, uint32_t depth)
      : width_(width), depth_(depth), rows_(size_t{width} * depth) {}
  std::span<int16_t> slot(uint32_t y) { return {&rows_[size_t{y % depth_} * width_], width_}; }
  const int16_t* row(uint32_t y) const { return &rows_[size_t{y % depth_} * width_]; }

 private:
  uint32_t width_, depth_;
  std::vector<int16_t> rows_;
};

}  // namespace proofleaf::condition
