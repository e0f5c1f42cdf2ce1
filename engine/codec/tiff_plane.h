// One plane of a TIFF, row by row: strips are decoded a row at a time however long they are, tiles
// a row of tiles at a time.
#pragma once

#include "codec/tiff_layout.h"

namespace proofleaf {

class TiffPlane {
 public:
  // Each plane has a handle of its own, so that going down three planes at once restarts no strip.
  TiffPlane(std::unique_ptr<TiffInput> input, const TiffLayout& layout, uint16_t plane);

  // One row of layout.plane_row_bytes(), 16-bit samples in host order, valid until the next call.
  Result<ByteView> row(uint32_t y);

 private:
  Result<ByteView> strip_row(uint32_t y);
  Result<ByteView> tile_row(uint32_t y);
  Status load_tiles(uint32_t first_row);
  Error explain(uint32_t y) const;

  std::unique_ptr<TiffInput> input_;
  TiffLayout layout_;
  uint16_t plane_;
  uint32_t rows_per_strip_ = 1;
  uint32_t next_ = 0;          // the strip row after the one in rows_, 0 if none is
  std::vector<uint8_t> rows_;  // one row, or the rows of one row of tiles
  std::vector<uint8_t> tile_;
  uint32_t band_ = UINT32_MAX;  // which row of tiles is in rows_
};

}  // namespace proofleaf
