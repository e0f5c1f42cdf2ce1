// Rows of pixels, pulled: the last stage asks, each stage asks the one before it. A stage knows its
// own width, height and channels, and no neighbour.
#pragma once

#include <cstdint>
#include <memory>
#include <span>

#include "base/result.h"
#include "raster/pixels.h"

namespace proofleaf {

struct RowFormat {
  uint32_t width = 0;     // [pixels]
  uint32_t height = 0;    // [pixels]
  uint32_t channels = 0;  // 1 grey, 3 RGB, 4 CMYK (0 = no ink)
  size_t row_samples() const { return size_t{width} * channels; }
};

// Interleaved 16-bit samples, 0..65535 over the whole range of each channel. An 8-bit file's values
// arrive multiplied by 257, so that nothing is lost and 255 is 65535.
class RowSource {
 public:
  virtual ~RowSource() = default;
  virtual RowFormat format() const = 0;
  // Fills `into` with rows first .. first+count-1 (count * row_samples() samples). Any order is
  // allowed; going forward is what every source is fast at. first + count <= height.
  // Error: the file ends too soon or is damaged.
  virtual Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) = 0;
  // The same, at 8 bits where they are an 8-bit file's own, which is quicker.
  virtual Status read_pixels(uint32_t first, uint32_t count, Pixels& into) {
    return read(first, count, into.sixteen(count * format().row_samples()));
  }
};

}  // namespace proofleaf
