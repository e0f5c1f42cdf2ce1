// A few rows of a taller picture, moving down with whoever reads it: going forward no row is made
// twice.
#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"

namespace proofleaf::print {

template <class Value>
class RowWindow {
 public:
  RowWindow() = default;
  // values: in a row; depth: rows kept.
  RowWindow(size_t values, uint32_t depth)
      : values_(values), depth_(depth > 0 ? depth : 1), held_(values * depth_) {}

  // Brings in rows first .. end-1 (no more than the depth); make(y, Value* row) fills one that is
  // missing and answers with a Status. Older rows stay as long as there is room.
  template <class Make>
  Status hold(uint32_t first, uint32_t end, const Make& make) {
    if (first < first_ || first > end_) first_ = end_ = first;
    while (end_ < end) {
      if (end_ > first_ && end_ - first_ >= depth_) ++first_;
      if (auto made = make(end_, slot(end_)); !made) return made;
      ++end_;
    }
    return done();
  }
  const Value* row(uint32_t y) const { return &held_[size_t{y % depth_} * values_]; }

 private:
  Value* slot(uint32_t y) { return &held_[size_t{y % depth_} * values_]; }

  size_t values_ = 0;
  uint32_t depth_ = 1, first_ = 0, end_ = 0;
  std::vector<Value> held_;
};

}  // namespace proofleaf::print
