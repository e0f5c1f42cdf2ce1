// A client's offer as requests.
#pragma once

#include "base/json.h"
#include "job/work.h"

namespace proofleaf {

// The requests of work.h: "offer" and "open_offer".
Result<Answer> offer_work(const Json& request, const WorkFiles& files, const Watch& watch);
Result<Answer> open_offer_work(const Json& request);

}  // namespace proofleaf
