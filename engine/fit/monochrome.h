// A picture in tones of one colour.
//
// The mix is of linear light: Y = sum of weight x linear channel, over the sum of the weights. For
// a master in sRGB that is IEC 61966-2-1's own linear light. The correction's tone curve comes
// after the mix, and toning after the tone curve. Neutral is a* = b* = 0 relative to the media, so
// an untoned picture takes on the paper's own white and nothing else.
#pragma once

#include "fit/correction.h"
#include "fit/master_space.h"

namespace proofleaf {

struct Toning {
  double hue = 0;     // CIELAB hue angle [degrees], 0..360
  double chroma = 0;  // C*, 0..30
  bool operator==(const Toning&) const = default;
};

struct Monochrome {
  bool on = false;
  // Of red, green and blue, -2..3 each, with a sum of 0.1 or more. The luminance of sRGB's
  // primaries (IEC 61966-2-1) unless said otherwise.
  std::array<double, 3> weights{0.2126, 0.7152, 0.0722};
  // L* added where the picture had that hue (kHueBandNames), full at high chroma, none on neutrals
  // (1 - 1/e at C* 25); -30..30.
  std::array<double, kHueBands> bands{};
  // Split toning: full through the tones, fading to none over the last 15 L* at white and black.
  Toning shadows, highlights;
  double balance = 0;  // -100..100: the tone between both is L* 50 - balance * 0.3
  bool operator==(const Monochrome&) const = default;
};

Status check(const Monochrome& monochrome);

// L* of the mix, before the tone curve. rgb: encoded 0..1; colour: its L*a*b*.
double mixed_lightness(const Monochrome& monochrome, const MasterSpace& space, const float* rgb,
                       const Lab& colour);
// The toned colour of a lightness.
Lab toned(const Monochrome& monochrome, double l);

}  // namespace proofleaf
