// An edge-keeping mean: He, Sun and Tang, "Guided image filtering", IEEE Trans. Pattern Anal. Mach.
// Intell. 35 (2013), with the picture as its own guide.
//
//   in each window      scale = variance / (variance + eps), offset = (1 - scale) * mean
//   at each pixel       base = mean of scale over the windows around it * value + mean of offset
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace proofleaf {

// The means at each pixel of a plane, row by row.
struct GuidedPlane {
  uint32_t width = 0, height = 0;  // [pixels]
  std::vector<float> scale;        // 0..1
  std::vector<float> offset;       // in units of the values
};

// values: width x height. Windows are squares of 2 * radius + 1, cut off at the plane's sides.
// eps: [units of the values, squared], above 0: variances far above it are edges and stay.
GuidedPlane guided_plane(std::span<const float> values, uint32_t width, uint32_t height,
                         uint32_t radius, double eps);

}  // namespace proofleaf
