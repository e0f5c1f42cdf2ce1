// The print that came back: its measured or seen patches against what was predicted, and what to do
// differently the next time.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "paper/reading.h"
#include "print/cgats.h"
#include "print/ranges.h"
#include "rank/judge.h"

namespace proofleaf::print {

// What a patch was predicted to measure, absolute L*a*b* D50 on this paper.
struct PatchAim {
  std::string name;
  Lab lab;
};

struct PatchDifference {
  std::string name;
  Lab aim, measured;
  double delta_e = 0;  // dE00
};

struct ReadBack {
  std::vector<PatchDifference> patches;  // in the aims' order
  double mean = 0, p95 = 0, max = 0;     // dE00; p95: 95 % of the patches are at most this
  Verdict verdict = Verdict::out;        // verdict_of(mean, p95)
  std::string sentence;
};

// Readings belong to the aims by name where every aim's name is among them, else by order. Error:
// no aims, neither fits, or the readings hold no colours. file: the readings' name, for messages.
Result<ReadBack> read_back(std::span<const PatchAim> aims, const Readings& readings,
                           const std::string& file);

// How this paper, printer and house depart from the prediction along the neutrals. A small model
// to lay over the next prediction: predicted L* plus lightness_offset(L*).
using proofleaf::ToneOffset;
struct PaperCorrection {
  std::vector<ToneOffset> offsets;         // rising in l, at least two; smoothed over neighbours
  Lab white_aim, white, black_aim, black;  // lightest and darkest neutral
  std::vector<std::string> sentences;      // what it says, in plain words
  double lightness_offset(double l) const { return offset_at(offsets, l).dl; }
};
// neutrals: the patches of the wedges as they were predicted and measured, any order; those closer
// than half an L* are taken together. Error: fewer than two different lightnesses.
Result<PaperCorrection> paper_correction(std::span<const PatchDifference> neutrals);

// What was seen on the strip without an instrument, under the light the print will hang in: the
// first step that stands out from the black around it, and from the white.
struct EyeReading {
  std::optional<double> first_from_black;  // [L*] 0..12, as named under the step; empty: none
  std::optional<double> first_from_white;  // [L*] 90..100
};
inline constexpr Range kFirstFromBlack{"first_from_black", 0, 12, "L*"};
inline constexpr Range kFirstFromWhite{"first_from_white", 90, 100, "L*"};
struct EyeFinding {
  double black_until = 0;   // [L*] tones of the file below this print as one black
  double white_from = 100;  // [L*] above this as paper white
  std::vector<std::string> sentences;
};
// Tones between the last step not seen and the first one seen are counted as lost. Error: a number
// that is none or out of its range.
Result<EyeFinding> by_eye(const EyeReading& reading);

}  // namespace proofleaf::print
