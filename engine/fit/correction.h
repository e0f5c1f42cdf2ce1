// What is changed in a picture's colours before it is printed. All of it is said in media-relative
// L*a*b* D50 of the master's space, and none of it touches the master.
//
//   RGB --master's profile--> L*a*b* --monochrome, neutral, chroma and hue, tone, toning--> L*a*b*
//   --master's profile--> RGB
//
// Steps are kept small enough for no control by itself to fold tones or hues back over each other.
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "colour/colour_map.h"
#include "colour/lab.h"
#include "colour/profile.h"
#include "fit/hue_bands.h"
#include "fit/tone_curve.h"

namespace proofleaf {

inline constexpr size_t kMostTonePoints = 8;

struct HueBand {
  double chroma = 0;  // [per cent] more or less, -100..100
  double turn = 0;    // of hue [degrees], -10..10, towards yellow from red and so on round
  bool operator==(const HueBand&) const = default;
};

struct NeutralShift {
  double a = 0, b = 0;  // added to a* and b*, -10..10
  bool operator==(const NeutralShift&) const = default;
};

// As it stands here, it changes nothing.
struct Correction {
  // Through these points, and through 0 and 100 unless a point is given there. `in` rises strictly
  // and `out` never falls, both 0..100; at most kMostTonePoints.
  std::vector<TonePoint> curve;
  double shadows = 0;     // L* added at L* 16.7, fading out to 0 and to 50; -7..7
  double highlights = 0;  // L* added at L* 83.3, fading out to 50 and to 100; -7..7
  double contrast = 0;    // -100..100: the slope at L* 50 is 1 + contrast / 200; ends stay
  double saturation = 0;  // [per cent] of chroma more or less, all hues; -100..100
  std::array<HueBand, kHueBands> bands;  // as kHueBandNames
  // Shadows, midtones, highlights: full at L* 20, 50, 80 and blended between; a cast fades with
  // chroma (to 1/e at C* 20) and towards white and black, which stay neutral.
  std::array<NeutralShift, 3> neutral;
  double local_contrast = 0;  // -100..100, see local_contrast.h; no part of the colour map
  bool operator==(const Correction&) const = default;
};

// Error: a value that is no number or outside its range, points in disorder; says which.
Status check(const Correction& correction);

// The correction of single colours, L*a*b* to L*a*b*; not yet held inside of any space.
class LabCorrection {
 public:
  // correction: one that check() passes. Local contrast is left out.
  explicit LabCorrection(const Correction& correction);
  Lab operator()(const Lab& colour) const;
  double tone(double l) const;  // L* to L*, rising

 private:
  Lab balanced(const Lab& colour) const;

  Correction correction_;
  bool with_curve_, with_balance_, with_chroma_, with_turn_;
  MonotoneCubic curve_;
};

struct Monochrome;
// Both as a map of the master's codes. Colours the master's space cannot hold keep lightness and
// hue and lose chroma (master_space.h); colours that are not changed keep their very codes.
// Error: as check(), or a profile that cannot be used.
Result<std::shared_ptr<const ColourMap>> correction_map(const Profile& master,
                                                        const Correction& correction,
                                                        const Monochrome& monochrome);

}  // namespace proofleaf
