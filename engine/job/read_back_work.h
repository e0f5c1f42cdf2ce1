// The print that came back, as requests.
#pragma once

#include "base/json.h"
#include "job/work.h"
#include "paper/reading.h"

namespace proofleaf {

// The requests of work.h: "read_back" and "eye_reading".
Result<Answer> read_back_work(const Json& request, const WorkFiles& files);
Result<Answer> eye_reading_work(const Json& request);

// The request's "reading", one that changes nothing where there is none. Error: not a correction.
Result<PaperReading> reading_of(const Json& request);

}  // namespace proofleaf
