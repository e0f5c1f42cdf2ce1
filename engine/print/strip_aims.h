// What a test strip's steps of grey are to measure on a paper.
#pragma once

#include "print/read_back.h"
#include "print/strip.h"
#include "proof/chain.h"

namespace proofleaf::print {

// A step of grey as a strip carries it: its name and its L* in the file.
struct StripStep {
  std::string name;
  double lightness = 0;  // [L*] 0..100, media-relative, in the master's profile
};
std::vector<StripStep> steps_of(const StripLayout& layout);

// The exact proof of the codes that strip_rows() writes, absolute L*a*b* D50 with the paper's own
// white and black, in the steps' order. Strips carry their steps uncorrected, so no recipe counts.
// Error: the profiles cannot be joined, or the master's has no way to colour.
Result<std::vector<PatchAim>> strip_aims(std::span<const StripStep> steps, const Profile& master,
                                         const Paper& paper, PrintIntent print);

}  // namespace proofleaf::print
