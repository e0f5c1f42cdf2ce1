// Pixels of 8 or of 16 bits: what passes from a master's rows to its print file's makers.
#pragma once

#include <variant>
#include <vector>

#include "base/bytes.h"
#include "raster/rows.h"

namespace proofleaf {

// Interleaved samples; 8-bit code v stands for 257 v of 16 bits.
using PixelView = std::variant<std::span<const uint8_t>, std::span<const uint16_t>>;

inline size_t samples_in(PixelView pixels) {
  return std::visit([](auto samples) { return samples.size(); }, pixels);
}

// For passing between workers, in this machine's byte order.
inline ByteView bytes_of(PixelView pixels) {
  return std::visit(
      [](auto samples) {
        return ByteView(reinterpret_cast<const uint8_t*>(samples.data()), samples.size_bytes());
      },
      pixels);
}

// What bytes_of() gave of so many samples. The bytes are aligned as 16-bit samples are.
inline PixelView pixels_of(ByteView bytes, size_t samples) {
  if (bytes.size() == samples) return bytes;
  return std::span(reinterpret_cast<const uint16_t*>(bytes.data()), bytes.size() / 2);
}

// Room for pixels of either kind.
class Pixels {
 public:
  // Room for `count` samples, in place of what there was.
  std::span<uint8_t> eight(size_t count) { return room<uint8_t>(count); }
  std::span<uint16_t> sixteen(size_t count) { return room<uint16_t>(count); }
  // Good until the next call of the above.
  PixelView view() const {
    return std::visit([](const auto& samples) { return PixelView(std::span(samples)); }, held_);
  }

 private:
  template <class Code>
  std::span<Code> room(size_t count) {
    auto* samples = std::get_if<std::vector<Code>>(&held_);
    if (samples == nullptr) samples = &held_.emplace<std::vector<Code>>();
    samples->resize(count);
    return *samples;
  }

  std::variant<std::vector<uint16_t>, std::vector<uint8_t>> held_;
};

// Reads rows as RowSource::read() does, 8 bits where the source has no more.
inline Status read_pixels(RowSource& rows, uint32_t first, uint32_t count, Pixels& into) {
  const size_t samples = count * rows.format().row_samples();
  return rows.eight_bits() ? rows.read8(first, count, into.eight(samples))
                           : rows.read(first, count, into.sixteen(samples));
}

}  // namespace proofleaf
