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

Result<Picture> shrink(RowSource& rows, uint32_t factor, const Watch& watch) {
  const RowFormat format = rows.format();
  Picture picture;
  picture.width = (format.width + factor - 1) / factor;
  picture.height = (format.height + factor - 1) / factor;
  picture.rgb.resize(size_t{picture.width} * picture.height * 3);
  std::vector<uint16_t> strip(format.row_samples() * factor);
  std::vector<uint64_t> sums(size_t{picture.width} * 3);
  for (uint32_t y = 0; y < picture.height; ++y) {
    if (!keep_going(watch, double(y) / picture.height)) return stopped();
    const uint32_t first = y * factor, count = std::min(factor, format.height - first);
    if (auto got = rows.read(first, count, std::span(strip.data(), format.row_samples() * count));
        !got) {
      return got.error();
    }
    uint16_t* out = &picture.rgb[size_t{y} * picture.width * 3];
    if (factor == 1) {
      std::copy_n(strip.begin(), format.row_samples(), out);
      continue;
    }
    std::fill(sums.begin(), sums.end(), 0);
    for (uint32_t r = 0; r < count; ++r) {
      const uint16_t* in = &strip[format.row_samples() * r];
      for (uint32_t x = 0; x < format.width; ++x) {
        uint64_t* sum = &sums[size_t{x / factor} * 3];
        for (size_t c = 0; c < 3; ++c) sum[c] += uint64_t{in[x * 3 + c]} * in[x * 3 + c];
      }
    }
    for (uint32_t x = 0; x < picture.width; ++x) {
      const uint32_t across = std::min(factor, format.width - x * factor);
      const double weight = 1.0 / (double(across) * count);
      for (size_t c = 0; c < 3; ++c) {
        out[x * 3 + c] = static_cast<uint16_t>(std::sqrt(double(sums[x * 3 + c]) * weight) + 0.5);
      }
    }
  }
  return picture;
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
