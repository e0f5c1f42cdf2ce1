// Correcting a picture for one paper, as requests.
#pragma once

#include "base/json.h"
#include "job/work.h"

namespace proofleaf {

// The requests of work.h: "fit" and "effect".
Result<Answer> fit_work(const Json& request, const WorkFiles& files, const Watch& watch);
Result<Answer> effect_work(const Json& request, const WorkFiles& files);

}  // namespace proofleaf
