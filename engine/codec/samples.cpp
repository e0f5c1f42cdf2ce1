#include "codec/samples.h"

#include <algorithm>

namespace proofleaf {

namespace {

constexpr uint32_t kFull = 65535;

uint16_t on_white(uint32_t colour, uint32_t alpha, const SampleLayout& layout) {
  const uint32_t covered =
      layout.associated ? std::min(colour, alpha)
                        : static_cast<uint32_t>((uint64_t{colour} * alpha + kFull / 2) / kFull);
  const uint32_t white = layout.zero_is_white ? 0 : kFull - alpha;
  return static_cast<uint16_t>(covered + white);
}

}  // namespace

void widen(const uint8_t* from, uint16_t* to, size_t count) {
  for (size_t i = 0; i < count; ++i) to[i] = static_cast<uint16_t>(from[i] * 257);
}

void lay_on_white(const uint16_t* from, uint16_t* to, size_t width, const SampleLayout& layout) {
  if (!layout.alpha) {
    if (from != to) std::copy_n(from, width * layout.colours, to);
    return;
  }
  for (size_t x = 0; x < width; ++x, from += layout.samples(), to += layout.colours) {
    const uint32_t alpha = from[layout.colours];
    for (uint32_t c = 0; c < layout.colours; ++c) to[c] = on_white(from[c], alpha, layout);
  }
}

void invert(uint16_t* samples, size_t count) {
  for (size_t i = 0; i < count; ++i) samples[i] = static_cast<uint16_t>(kFull - samples[i]);
}

void invert(uint8_t* samples, size_t count) {
  for (size_t i = 0; i < count; ++i) samples[i] = static_cast<uint8_t>(255 - samples[i]);
}

}  // namespace proofleaf
