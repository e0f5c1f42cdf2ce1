// A piece of the print as the screen shows it, pixel for pixel.
#pragma once

#include "base/json.h"
#include "job/work.h"

namespace proofleaf {

// The request "sample" of work.h.
Result<Answer> sample_work(const Json& request, const WorkFiles& files, const Watch& watch);

}  // namespace proofleaf
