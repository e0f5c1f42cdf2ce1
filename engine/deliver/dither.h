// From 16 bits to 8 without steps in smooth tones: ordered dithering with a blue-noise threshold
// mask, made by void-and-cluster (R. Ulichney, "The void-and-cluster method for dither array
// generation", Proc. SPIE 1913, 1993).
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace proofleaf {

inline constexpr uint32_t kMaskSide = 64;  // [pixels]; the mask repeats without a seam

// Thresholds 0..4095, each once, kMaskSide x kMaskSide. The same for the same seed, everywhere.
std::vector<uint16_t> make_blue_noise(uint32_t seed);

// Dithers rows of one picture. A value that 8 bits hold exactly stays as it is, so paper white and
// full ink carry no noise.
class Dither {
 public:
  explicit Dither(uint32_t seed);
  // One row of interleaved 16-bit samples to 8 bits; y places the mask, each channel has its own
  // shift of it. in.size() == out.size() == width * channels.
  void row(uint32_t y, uint32_t channels, std::span<const uint16_t> in,
           std::span<uint8_t> out) const;

  // The same thresholds for a cube's kernel (apply_cube_dithered): what is to be added to the four
  // lanes of kMaskSide pixels of row y, of which the first `channels` (1, 3 or 4) count.
  using Pattern = std::array<uint16_t, size_t{kMaskSide} * 4>;
  Pattern lifts(uint32_t y, uint32_t channels) const;

 private:
  // Thresholds of row y for kMaskSide pixels of `step` samples, the first `channels` of them used.
  Pattern pattern(uint32_t y, uint32_t channels, uint32_t step) const;

  std::vector<uint16_t> mask_;  // 0..256: in 257ths
};

}  // namespace proofleaf
