// The range of every number a person may set for a print, said once: the stages check with it and
// so does the JSON.
#pragma once

#include <string>

#include "base/result.h"

namespace proofleaf::print {

inline constexpr double kMmPerInch = 25.4;

struct Range {
  const char* field;  // its name in JSON and in messages
  double low, high;   // both allowed
  const char* unit;   // "" where it has none
};

// A number as people write it: 0.17, 300, 1.5; at most `digits` behind the point, no zeros there;
// with the decimal sign of the language spoken.
std::string plain_number(double value, int digits = 2);

// Error: not a number, or outside of the range: "radius_mm must lie between 0.02 and 1 mm, not -3."
Status within(const Range& range, double value);

}  // namespace proofleaf::print
