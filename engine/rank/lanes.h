// L*a*b* and differences as the four 16-bit lanes of a Cube, and pictures run through it.
//
//   lane 0   L*    code = 600 * L* + 1000      -1.6..107.5, 1/600 of a unit
//   lane 1   a*    code = 128 * (a* + 256)     -256..256, 1/128
//   lane 2   b*    the same
//   lane 3   dE00  code = 512 * dE             0..128, 1/512; the paper's colour to the master's
#pragma once

#include <algorithm>

#include "rank/facts.h"

namespace proofleaf {

inline double code_of_lightness(double l) { return 600 * l + 1000; }
inline double lightness_of(uint16_t code) { return (code - 1000) / 600.0; }
inline float quick_lightness(uint16_t code) { return (float(code) - 1000) * (1 / 600.0f); }
// The same of many.
std::vector<float> lightness_values(std::span<const uint16_t> codes);
inline double code_of_chroma(double c) { return 128 * (c + 256); }
inline double chroma_of(uint16_t code) { return code / 128.0 - 256; }
inline double code_of_difference(double delta_e) { return 512 * delta_e; }
inline double difference_of(uint16_t code) { return code / 512.0; }
inline Lab lab_of(const uint16_t* lanes) {
  return {lightness_of(lanes[0]), chroma_of(lanes[1]), chroma_of(lanes[2])};
}

// A cube of the facts' grid with those lanes; colours: one to each node in use.
Cube lab_cube(const PictureFacts& facts, std::span<const Lab> colours);

// The encoded master RGB, three floats 0..1, of each node in use.
std::vector<float> node_rgb(const PictureFacts& facts);

// Runs a picture through a cube in pieces that stay in the cache: use(first, lanes) is given the
// lanes, four a pixel, of the pixels from `first` on.
template <class Use>
void run_lanes(const Cube& cube, std::span<const uint16_t> rgb, const Use& use) {
  constexpr size_t kPiece = 4096;  // [pixels]
  std::vector<uint16_t> lanes(kPiece * 4);
  const size_t pixels = rgb.size() / 3;
  for (size_t first = 0; first < pixels; first += kPiece) {
    const size_t count = std::min(kPiece, pixels - first);
    const std::span<uint16_t> piece(lanes.data(), count * 4);
    apply_cube(cube, rgb.subspan(first * 3, count * 3), piece);
    use(first, std::span<const uint16_t>(piece));
  }
}

}  // namespace proofleaf
