// Words about the working size.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr Words kStarved =
    "The memory here does not seem to be enough for %s at the working size of %.3g megapixels; a "
    "smaller one needs less, and print files are made at full size all the same.";
inline constexpr Words kStarvedAtLast =
    "The memory here does not seem to be enough for %s even at the smallest working size of %.3g "
    "megapixels; nothing was changed, and closing other pages or programs may help.";
inline constexpr Words kReopen = "Open it at %.2f megapixels";
inline constexpr Words kReopenKnown = "Open it at %u × %u pixels";
inline constexpr Words kSmallerAtHand = "Leaf 1 has a button for the smaller one.";
inline constexpr Words kWorkingSmall =
    "Shown at a working size of %u × %u pixels, which needs less memory; print files are made at "
    "full size all the same.";
inline constexpr Words kWorkingUsual = "Try the usual working size";

}  // namespace proofleaf::shell::words
