// A request's master, opened with the meaning of its colours; inside of job only.
#pragma once

#include <memory>
#include <string>

#include "codec/master.h"
#include "colour/profile.h"
#include "job/json.h"
#include "job/work.h"

namespace proofleaf {

struct OpenedMaster {
  std::unique_ptr<Master> master;
  MasterColour colour;
  std::string name;
};

// Takes "assume" from the request and the assume file, as work.h says. Error: no master was given,
// or one of the files cannot be used.
Result<OpenedMaster> open_with_colour(const Json& request, const WorkFiles& files);

}  // namespace proofleaf
