#include "raster/preview.h"

#include <algorithm>
#include <cmath>

namespace proofleaf {

uint32_t shrink_factor(uint32_t width, uint32_t height, uint64_t most) {
  uint32_t factor = 1;
  auto side = [&](uint32_t pixels) { return (uint64_t{pixels} + factor - 1) / factor; };
  while (side(width) * side(height) > std::max<uint64_t>(most, 1)) ++factor;
  return factor;
}

Shrinking::Shrinking(RowSource& rows, uint32_t factor)
    : rows_(rows), format_(rows.format()), factor_(factor) {
  picture_.width = (format_.width + factor - 1) / factor;
  picture_.height = (format_.height + factor - 1) / factor;
  picture_.rgb.resize(size_t{picture_.width} * picture_.height * 3);
  strip_.resize(format_.row_samples() * factor);
  sums_.resize(size_t{picture_.width} * 3);
}

void Shrinking::add_up(const uint16_t* row) {
  for (uint32_t x = 0; x < format_.width; ++x) {
    uint64_t* sum = &sums_[size_t{x / factor_} * 3];
    for (size_t c = 0; c < 3; ++c) sum[c] += uint64_t{row[x * 3 + c]} * row[x * 3 + c];
  }
}

Status Shrinking::step() {
  const uint32_t first = row_ * factor_, count = std::min(factor_, format_.height - first);
  const size_t samples = format_.row_samples();
  if (auto got = rows_.read(first, count, std::span(strip_.data(), samples * count)); !got)
    return got;
  uint16_t* out = &picture_.rgb[size_t{row_++} * picture_.width * 3];
  if (factor_ == 1) {
    std::copy_n(strip_.begin(), samples, out);
    return done();
  }
  std::fill(sums_.begin(), sums_.end(), 0);
  for (uint32_t r = 0; r < count; ++r) add_up(&strip_[samples * r]);
  for (uint32_t x = 0; x < picture_.width; ++x) {
    const uint32_t across = std::min(factor_, format_.width - x * factor_);
    const double weight = 1.0 / (double(across) * count);
    for (size_t c = 0; c < 3; ++c) {
      out[x * 3 + c] = static_cast<uint16_t>(std::sqrt(double(sums_[x * 3 + c]) * weight) + 0.5);
    }
  }
  return done();
}

Result<Picture> shrink(RowSource& rows, uint32_t factor, const Watch& watch) {
  Shrinking shrinking(rows, factor);
  while (!shrinking.finished()) {
    if (!keep_going(watch, shrinking.share())) return stopped();
    if (Status got = shrinking.step(); !got) return got.error();
  }
  return shrinking.take();
}

Result<Picture> cut(RowSource& rows, uint32_t x, uint32_t y, uint32_t width, uint32_t height,
                    const Watch& watch) {
  const RowFormat format = rows.format();
  if (width == 0 || height == 0 || uint64_t{x} + width > format.width ||
      uint64_t{y} + height > format.height) {
    return Error{"That part does not lie inside the picture."};
  }
  Picture picture{width, height, std::vector<uint16_t>(size_t{width} * height * 3)};
  std::vector<uint16_t> row(format.row_samples());
  for (uint32_t r = 0; r < height; ++r) {
    if (!keep_going(watch, double(r) / height)) return stopped();
    if (auto got = rows.read(y + r, 1, row); !got) return got.error();
    std::copy_n(&row[size_t{x} * 3], size_t{width} * 3, &picture.rgb[size_t{r} * width * 3]);
  }
  return picture;
}

}  // namespace proofleaf
