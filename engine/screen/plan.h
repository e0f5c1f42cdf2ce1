// What a person is asked to look at when a screen is checked by eye, as data.
#pragma once

#include <array>
#include <cstddef>

namespace proofleaf::screen {

// Small squares of these codes (0..255, all channels alike) on black, and on white: which is the
// first that shows? Finer where a good screen stops showing them.
inline constexpr std::array<int, 8> kDarkSteps{2, 4, 6, 8, 12, 16, 24, 32};
inline constexpr std::array<int, 8> kLightSteps{254, 253, 252, 250, 247, 243, 237, 229};
// The answer that stands for "none of them".
inline constexpr int kNoDarkStep = 40, kNoLightStep = 215;

// A pattern of rows: in each `rows` of them `lit` show the bright code, the others black. Whole
// rows keep their light whatever a screen does between neighbours of one row; across rows there
// is no such smear (common practice, no source).
struct Pattern {
  int lit = 1, rows = 2;
  constexpr double duty() const { return double(lit) / rows; }
  bool operator==(const Pattern&) const = default;
};

// One comparison of a channel: the pattern against a solid of the same channel.
struct ToneStep {
  Pattern pattern;
  int bright;    // which step's answer is the bright code; -1: the channel's full code
  double light;  // what the pattern gives, of the channel's full light above black, 0..1
};
// The last has the solid found for a quarter as its bright code: a sixteenth of the light, out of
// rows just as fine.
inline constexpr size_t kToneSteps = 4, kQuarter = 1;
inline constexpr std::array<ToneStep, kToneSteps> kTonePlan{
    {{{1, 2}, -1, 0.5}, {{1, 4}, -1, 0.25}, {{3, 4}, -1, 0.75}, {{1, 4}, kQuarter, 0.0625}}};

// A comparison begins so far from what is expected [codes], lighter and darker in turn, so that
// the answer is found and not just agreed to.
inline constexpr std::array<int, kToneSteps> kStartOff{14, -12, 10, -8};

// The grey that is brought to the paper's tint: its L*, and how far a* and b* may be moved.
inline constexpr double kNeutralL = 75, kMostA = 30, kMostB = 50;

// Light of a sheet, and of a screen beside it. Values from memory:
// ISO 3664:2009: 500 lx for practical appraisal of a print, 2000 lx for critical comparison; beside
// a screen at most 64 lx, better 32 lx, where no print lies next to it.
// ISO 12646:2008: the screen's white at least 80 cd/m2, better 160.
inline constexpr double kAppraisalLux = 500, kComparisonLux = 2000, kRoomLux = 64,
                        kRoomLuxBetter = 32, kLeastWhite = 80, kBetterWhite = 160;
// Luminance [cd/m2] of a perfectly white, matte sheet under that illuminance [lx] (Lambert's law).
constexpr double luminance_of_sheet(double lux) { return lux / 3.14159265358979323846; }

}  // namespace proofleaf::screen
