// The condition report as JSON; its shape is told in job/condition_work.h.
#pragma once

#include "base/json.h"
#include "condition/condition.h"

namespace proofleaf {

Json to_json(const ConditionReport& report);

}  // namespace proofleaf
