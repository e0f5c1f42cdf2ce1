// How much of a picture's proof a screen cannot show.
#pragma once

#include <cstdint>
#include <span>

#include "proof/cube.h"

namespace proofleaf::screen {

// What the check found: tones beyond these fall together with black, or with white. Codes 0..255.
struct ShownTones {
  int first_dark = 1, last_light = 254;
};

// Shares of the pixels looked at, 0..1. `any` counts a pixel once.
struct Unshown {
  double beyond = 0;  // the colour space drawn in ends 1 dE00 or more before the proof's colour
  double dark = 0;    // above black, and darker than the first step that shows
  double light = 0;   // below white, and lighter than the last
  double any = 0;
};

// cube: a screen cube for `canvas`; rgb: 16-bit R, G, B, of which every step-th pixel is looked at.
// Error: the canvas' space could not be built.
Result<Unshown> unshown(const Cube& cube, Screen canvas, const ShownTones& tones,
                        std::span<const uint16_t> rgb, size_t step);

}  // namespace proofleaf::screen
