#include "codec/tiff_plane.h"

#include <algorithm>
#include <cstring>

namespace proofleaf {

TiffPlane::TiffPlane(std::unique_ptr<TiffInput> input, const TiffLayout& layout, uint16_t plane)
    : input_(std::move(input)), layout_(layout), plane_(plane) {
  // After opening, since libtiff cuts one long uncompressed strip into many.
  rows_per_strip_ = std::max(1u, input_->long_field(TIFFTAG_ROWSPERSTRIP, layout.height));
}

Result<ByteView> TiffPlane::row(uint32_t y) { return layout_.tiled ? tile_row(y) : strip_row(y); }

// libtiff's own way of going forward inside a strip trusts that all of it is in memory, and most
// compressions refuse it; so rows in between are decoded here, from the strip's first row if need
// be.
Result<ByteView> TiffPlane::strip_row(uint32_t y) {
  if (next_ == y + 1) return ByteView(rows_);
  rows_.resize(layout_.plane_row_bytes());
  const uint32_t start = y - y % rows_per_strip_;
  const uint32_t from = next_ > start && next_ <= y ? next_ : start;
  next_ = 0;
  for (uint32_t at = from; at <= y; ++at) {
    if (TIFFReadScanline(input_->tiff(), rows_.data(), at, plane_) != 1) return explain(at);
  }
  next_ = y + 1;
  return ByteView(rows_);
}

Result<ByteView> TiffPlane::tile_row(uint32_t y) {
  const uint32_t band = y / layout_.tile_height;
  if (band != band_) {
    band_ = UINT32_MAX;
    if (Status got = load_tiles(band * layout_.tile_height); !got) return got.error();
    band_ = band;
  }
  const size_t row = layout_.plane_row_bytes();
  return ByteView(rows_).subspan((y - band * layout_.tile_height) * row, row);
}

Status TiffPlane::load_tiles(uint32_t first_row) {
  const size_t row = layout_.plane_row_bytes();
  const size_t pixel = row / layout_.width;
  const size_t tile_stride = layout_.tile_width * pixel;
  const uint32_t count = std::min(layout_.tile_height, layout_.height - first_row);
  rows_.resize(count * row);
  tile_.resize(tile_stride * layout_.tile_height);
  for (uint32_t x = 0; x < layout_.width; x += layout_.tile_width) {
    const uint32_t index = TIFFComputeTile(input_->tiff(), x, first_row, 0, plane_);
    const auto size = static_cast<tmsize_t>(tile_.size());
    if (TIFFReadEncodedTile(input_->tiff(), index, tile_.data(), size) != size) {
      return explain(first_row);
    }
    const size_t width = std::min(layout_.tile_width, layout_.width - x) * pixel;
    for (uint32_t i = 0; i < count; ++i) {
      std::memcpy(rows_.data() + i * row + x * pixel, tile_.data() + i * tile_stride, width);
    }
  }
  return done();
}

Error TiffPlane::explain(uint32_t y) const {
  if (!input_->failure().empty()) return Error{input_->failure()};
  return Error{"{} is damaged or ends too soon: row {} of {} could not be read.", input_->name(),
               y + 1, layout_.height};
}

}  // namespace proofleaf
