// The request "unpack", see work.h.
#pragma once

#include "job/work.h"

namespace proofleaf {

Result<Answer> unpack_work(const WorkFiles& files, const Watch& watch);

}  // namespace proofleaf
