// LittleCMS, held by owners that let go by themselves, with its words kept for our messages.
#pragma once

#include <lcms2.h>

#include <memory>
#include <string>
#include <utility>

#include "colour/profile.h"

namespace proofleaf {

struct TransformCloser {
  void operator()(void* transform) const { cmsDeleteTransform(transform); }
};
using Transform = std::unique_ptr<void, TransformCloser>;

struct CurveCloser {
  void operator()(cmsToneCurve* curve) const { cmsFreeToneCurve(curve); }
};
using Curve = std::unique_ptr<cmsToneCurve, CurveCloser>;

// What LittleCMS last complained of on this thread, emptied by the call.
std::string take_lcms_words();

// The most LittleCMS may hold in one piece [bytes]: far above any real profile's tables, while a
// hostile one of a few hundred bytes may ask for what a whole page cannot have.
inline constexpr cmsUInt32Number kLargestTable = 64u << 20;

// Makes LittleCMS' error words arrive in take_lcms_words() and holds it to kLargestTable. Cheap to
// call again.
void listen_to_lcms();

// An RGB profile of given primaries (CIE xy) and one tone curve for all channels, with fixed bytes
// for fixed numbers. Adapted to the PCS's D50 by Bradford, ICC.1:2022 annex E.
Result<Profile> rgb_profile(const cmsCIExyY& white, const cmsCIExyYTRIPLE& primaries,
                            cmsToneCurve* curve, const std::string& title);

// The same for neutrals only: equal channels follow `curve` from device value to luminance.
Result<Profile> neutral_rgb_profile(cmsToneCurve* curve, const std::string& title);

// Floating-point transforms that evaluate the profiles' own tables, with no precomputation.
inline constexpr cmsUInt32Number kExact = cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE;

// A profile's own channels (floats of float_format()) to L*a*b* D50 floats, exactly. Empty where
// the profile has no usable way there.
Transform to_lab(const Profile& profile, cmsUInt32Number intent);

// LittleCMS' float format of a profile's own channels, and how far 1.0 of ours is in it: its CMYK
// floats run 0..100.
cmsUInt32Number float_format(uint32_t icc_space);
float float_scale(uint32_t icc_space);

}  // namespace proofleaf
