// The condition report as JSON; its shape is told in job/condition_work.h.
#pragma once

#include "condition/condition.h"
#include "job/json.h"

namespace proofleaf {

Json to_json(const ConditionReport& report);

}  // namespace proofleaf
