// From a file's samples to the rows the engine works with: widening to 16 bits, laying transparency
// on white. Blending is done on the file's encoded values, as the picture's own program showed it.
#pragma once

#include <cstddef>
#include <cstdint>

namespace proofleaf {

struct SampleLayout {
  uint32_t colours = 3;        // 1, 3 or 4 samples a pixel that are colour
  bool alpha = false;          // one more sample follows the colours
  bool associated = false;     // colours are already multiplied by alpha (TIFF 6.0 ExtraSamples 1)
  bool zero_is_white = false;  // CMYK, and grey of TIFF 6.0 PhotometricInterpretation 0
  uint32_t samples() const { return colours + (alpha ? 1u : 0u); }
};

// Copies count 8-bit samples as 16-bit ones, times 257.
void widen(const uint8_t* from, uint16_t* to, size_t count);

// Lays width pixels of layout.samples() each on white: c a + white (1 - a), rounded to nearest;
// associated: c + white (1 - a). `to` gets layout.colours samples a pixel; from == to is allowed.
void lay_on_white(const uint16_t* from, uint16_t* to, size_t width, const SampleLayout& layout);

// 65535 - v, 255 - v.
void invert(uint16_t* samples, size_t count);
void invert(uint8_t* samples, size_t count);

}  // namespace proofleaf
