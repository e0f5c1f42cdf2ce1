// Pixels of 8 or of 16 bits: what passes from a master's rows to its print file's makers.
#pragma once

#include <cstdint>
#include <span>
#include <variant>
#include <vector>

#include "base/bytes.h"

namespace proofleaf {

// Interleaved samples; 8-bit code v stands for 257 v of 16 bits.
using PixelView = std::variant<std::span<const uint8_t>, std::span<const uint16_t>>;

inline uint16_t as_sixteen(uint8_t code) { return static_cast<uint16_t>(code * 257); }
inline uint16_t as_sixteen(uint16_t code) { return code; }

inline size_t samples_in(PixelView pixels) {
  return std::visit([](auto samples) { return samples.size(); }, pixels);
}

inline PixelView part_of(PixelView pixels, size_t first, size_t count) {
  return std::visit([&](auto samples) { return PixelView(samples.subspan(first, count)); }, pixels);
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

}  // namespace proofleaf
