// One paper as an ICC output profile.
#pragma once

#include <string>
#include <vector>

#include "base/bytes.h"
#include "inks.h"

namespace proofleaf::demo {

// Builds the ICC.1:2001-04 (version 2.4) output profile of a paper: A2B1 (shared by A2B0 and A2B2),
// B2A0, B2A1, B2A2, gamt, wtpt, desc, cprt. The bytes depend on the recipe alone: the header's date
// is fixed. Error: the profile library refused a step.
Result<Bytes> build_profile(const Recipe& recipe);

// What a person would want to know of a finished profile, measured through its own tables; one
// printable block of lines. Error: the profile cannot be read back.
Result<std::string> measure_profile(const Recipe& recipe, const Bytes& profile);

// The four invented papers.
const std::vector<Recipe>& demo_papers();

}  // namespace proofleaf::demo
