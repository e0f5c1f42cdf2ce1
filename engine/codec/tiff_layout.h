// What a TIFF's first directory says of its samples, checked: which of them are colour, which is
// alpha, and how they lie in the file.
#pragma once

#include "codec/samples.h"
#include "codec/tiff_handle.h"

namespace proofleaf {

struct TiffLayout {
  uint32_t width = 0, height = 0;  // [pixels] as they lie in the file
  uint32_t bits = 8;               // 8 or 16
  uint32_t samples = 1;            // a pixel, with extra channels
  uint32_t alpha_sample = 0;       // which sample is alpha, if out.alpha
  uint32_t extra_ignored = 0;      // extra channels that are left out
  SampleLayout out;                // what is taken: colours first, then alpha
  bool min_is_white = false;       // grey of PhotometricInterpretation 0
  bool palette = false;            // one sample that chooses from a colour map
  bool separate = false;           // PlanarConfiguration 2: one plane after the other
  bool tiled = false;
  uint32_t tile_width = 0, tile_height = 0;

  uint32_t planes() const { return separate ? out.samples() : 1; }
  uint32_t plane_samples() const { return separate ? 1 : samples; }
  // The sample, and so the plane of the file, behind the i-th of out.samples().
  uint32_t sample_of(uint32_t i) const { return i < out.colours ? i : alpha_sample; }
  size_t plane_row_bytes() const { return size_t{width} * plane_samples() * (bits / 8); }
};

// Error: a kind of TIFF that cannot be opened here, with the reason; sizes past the bounds.
Result<TiffLayout> read_layout(TiffInput& input);

}  // namespace proofleaf
