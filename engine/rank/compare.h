// Why one print is better than another, in words. Internal to this folder.
#pragma once

#include "rank/judge.h"

namespace proofleaf {

// Scores no further apart than this are called equal: 1 % of noise in the picture may swap them.
inline constexpr double kEqualPoints = 1;

struct Compared {
  const Variant& variant;
  double off_gamut;  // share of the area
};

// What most makes `one` better (more = true) or worse than `other`, as the end of a sentence about
// `one`: "keeps 11 more shadow steps". Empty where nothing differs by half a point.
std::string telling_difference(const Compared& one, const Compared& other, bool more);

}  // namespace proofleaf
