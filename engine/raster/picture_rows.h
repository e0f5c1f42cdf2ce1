// A picture in memory as rows.
#pragma once

#include <algorithm>

#include "raster/rows.h"

namespace proofleaf {

class PictureRows final : public RowSource {
 public:
  // rgb: width x height pixels of three samples, kept by the caller while the rows are in use.
  PictureRows(std::span<const uint16_t> rgb, uint32_t width, uint32_t height)
      : rgb_(rgb), format_{width, height, 3} {}
  RowFormat format() const override { return format_; }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    const auto rows = rgb_.subspan(first * format_.row_samples(), count * format_.row_samples());
    std::copy(rows.begin(), rows.end(), into.begin());
    return done();
  }

 private:
  std::span<const uint16_t> rgb_;
  RowFormat format_;
};

}  // namespace proofleaf
