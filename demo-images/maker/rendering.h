// Where a colour of the reference medium goes on a paper, before the nearest printable colour is
// taken: the paper's perceptual and saturation tables.
#pragma once

#include <array>

#include "inversion.h"

namespace proofleaf::demo {

enum class Intent { perceptual = 0, relative = 1, saturation = 2 };

class Rendering {
 public:
  Rendering(const DeviceCube& cube, double black_l);
  // Media-relative L*a*b* in and out. Relative: unchanged. Perceptual: L* 0 becomes the paper's
  // black and tones above it are lifted ever less; chroma bends smoothly below the paper's edge.
  // Saturation: the same tones, fuller chroma and a later bend.
  Lab operator()(const Lab& lab, Intent intent) const;

 private:
  double edge(double l, double hue) const;
  static constexpr size_t kTones = 21, kHues = 48;
  double black_l_;
  std::array<std::array<double, kHues>, kTones> edge_{};  // most chroma, smoothed
};

}  // namespace proofleaf::demo
