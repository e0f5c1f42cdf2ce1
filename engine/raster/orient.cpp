#include "raster/orient.h"

#include <algorithm>
#include <vector>

namespace proofleaf {

namespace {

// Reverses the order of the pixels in one row.
void mirror(std::span<uint16_t> row, uint32_t channels) {
  if (channels == 0 || row.empty()) return;
  size_t left = 0;
  size_t right = row.size() - channels;
  for (; left < right; left += channels, right -= channels) {
    std::swap_ranges(row.begin() + static_cast<std::ptrdiff_t>(left),
                     row.begin() + static_cast<std::ptrdiff_t>(left + channels),
                     row.begin() + static_cast<std::ptrdiff_t>(right));
  }
}

// Orientation 2.
class MirroredRows final : public RowSource {
 public:
  explicit MirroredRows(std::unique_ptr<RowSource> inner) : inner_(std::move(inner)) {}
  RowFormat format() const override { return inner_->format(); }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    Status got = inner_->read(first, count, into);
    if (!got) return got;
    const RowFormat shape = format();
    for (uint32_t y = 0; y < count; ++y) {
      mirror(into.subspan(y * shape.row_samples(), shape.row_samples()), shape.channels);
    }
    return got;
  }

 private:
  std::unique_ptr<RowSource> inner_;
};

// Holds one band of output rows; bands start at multiples of their height, so that going back and
// forth inside one costs nothing.
class BandedRows : public RowSource {
 public:
  BandedRows(std::unique_ptr<RowSource> inner, RowFormat shape, size_t budget)
      : inner_(std::move(inner)), shape_(shape) {
    const size_t row_bytes = std::max<size_t>(1, shape_.row_samples() * sizeof(uint16_t));
    band_rows_ = static_cast<uint32_t>(
        std::clamp<size_t>(budget / row_bytes, 1, std::max<uint32_t>(1, shape_.height)));
  }

  RowFormat format() const override { return shape_; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    const size_t row = shape_.row_samples();
    while (count > 0) {
      if (Status got = hold(first); !got) return got;
      const uint32_t inside = first - band_first_;
      const uint32_t take = std::min(count, band_count_ - inside);
      std::copy_n(band_.begin() + static_cast<std::ptrdiff_t>(inside * row), take * row,
                  into.begin());
      into = into.subspan(take * row);
      first += take;
      count -= take;
    }
    return done();
  }

 protected:
  // Fills band with output rows first .. first+count-1.
  virtual Status fill(uint32_t first, uint32_t count, std::span<uint16_t> band) = 0;
  RowSource& inner() { return *inner_; }

 private:
  Status hold(uint32_t row) {
    if (band_count_ > 0 && row >= band_first_ && row - band_first_ < band_count_) return done();
    band_count_ = 0;
    const uint32_t first = row / band_rows_ * band_rows_;
    const uint32_t count = std::min(band_rows_, shape_.height - first);
    band_.resize(count * shape_.row_samples());
    if (Status got = fill(first, count, band_); !got) return got;
    band_first_ = first;
    band_count_ = count;
    return done();
  }

  std::unique_ptr<RowSource> inner_;
  RowFormat shape_;
  uint32_t band_rows_ = 1;
  std::vector<uint16_t> band_;
  uint32_t band_first_ = 0;
  uint32_t band_count_ = 0;
};

// Orientations 3 (turned by 180 degrees) and 4 (upside down, mirrored).
class FlippedRows final : public BandedRows {
 public:
  FlippedRows(std::unique_ptr<RowSource> inner, RowFormat shape, bool mirrored, size_t budget)
      : BandedRows(std::move(inner), shape, budget), mirrored_(mirrored) {}

 private:
  Status fill(uint32_t first, uint32_t count, std::span<uint16_t> band) override {
    const RowFormat shape = format();
    Status got = inner().read(shape.height - first - count, count, band);
    if (!got) return got;
    const auto row = static_cast<std::ptrdiff_t>(shape.row_samples());
    for (std::ptrdiff_t top = 0, bottom = static_cast<std::ptrdiff_t>(count) - 1; top < bottom;
         ++top, --bottom) {
      std::swap_ranges(band.begin() + top * row, band.begin() + (top + 1) * row,
                       band.begin() + bottom * row);
    }
    for (uint32_t y = 0; mirrored_ && y < count; ++y) {
      mirror(band.subspan(y * shape.row_samples(), shape.row_samples()), shape.channels);
    }
    return done();
  }

  bool mirrored_;
};

// Orientations 5..8: an output row is a column of the source.
class TurnedRows final : public BandedRows {
 public:
  TurnedRows(std::unique_ptr<RowSource> inner, RowFormat shape, int orientation, size_t budget)
      : BandedRows(std::move(inner), shape, budget),
        from_right_(orientation == 7 || orientation == 8),
        from_bottom_(orientation == 6 || orientation == 7) {}

 private:
  static constexpr uint32_t kRowsAtOnce = 16;

  Status fill(uint32_t first, uint32_t count, std::span<uint16_t> band) override {
    const RowFormat from = inner().format();
    rows_.resize(kRowsAtOnce * from.row_samples());
    for (uint32_t y = 0; y < from.height; y += kRowsAtOnce) {
      const uint32_t rows = std::min(kRowsAtOnce, from.height - y);
      Status got = inner().read(y, rows, std::span(rows_).first(rows * from.row_samples()));
      if (!got) return got;
      for (uint32_t r = 0; r < count; ++r) {
        const uint32_t column = from_right_ ? from.width - 1 - (first + r) : first + r;
        uint16_t* out = band.data() + r * format().row_samples();
        copy_column(column, y, rows, from, out);
      }
    }
    return done();
  }

  // Puts one column of the rows_ in hand, source rows y .. y+rows-1, into an output row.
  void copy_column(uint32_t column, uint32_t y, uint32_t rows, const RowFormat& from,
                   uint16_t* out) const {
    for (uint32_t i = 0; i < rows; ++i) {
      const uint16_t* pixel =
          rows_.data() + i * from.row_samples() + size_t{column} * from.channels;
      const uint32_t x = from_bottom_ ? from.height - 1 - (y + i) : y + i;
      std::copy_n(pixel, from.channels, out + size_t{x} * from.channels);
    }
  }

  bool from_right_;
  bool from_bottom_;
  std::vector<uint16_t> rows_;
};

}  // namespace

std::unique_ptr<RowSource> orient_rows(std::unique_ptr<RowSource> inner, int orientation,
                                       size_t budget) {
  const RowFormat shape = inner->format();
  const RowFormat turned{shape.height, shape.width, shape.channels};
  switch (orientation) {
    case 2:
      return std::make_unique<MirroredRows>(std::move(inner));
    case 3:
    case 4:
      return std::make_unique<FlippedRows>(std::move(inner), shape, orientation == 3, budget);
    case 5:
    case 6:
    case 7:
    case 8:
      return std::make_unique<TurnedRows>(std::move(inner), turned, orientation, budget);
    default:
      return inner;
  }
}

}  // namespace proofleaf
