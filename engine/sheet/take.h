// Parts of a job's JSON. Internal to this folder.
#pragma once

#include "base/json.h"
#include "base/result.h"

namespace proofleaf {

// Reads a part with `read`; one that is missing leaves `into` as it is.
template <class Into, class Part>
Status take(const Json* json, Result<Part> (*read)(const Json&), Into& into) {
  if (json == nullptr) return done();
  auto found = read(*json);
  if (!found) return found.error();
  into = found.take();
  return done();
}

// The same where null stands for a part that is not there.
template <class Into, class Part>
Status take_any(const Json* json, Result<Part> (*read)(const Json&), Into& into) {
  return json != nullptr && json->is_null() ? done() : take(json, read, into);
}

}  // namespace proofleaf
