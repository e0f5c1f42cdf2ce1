// Opening what requests name. Internal to this folder.
#pragma once

#include "colour/profile.h"
#include "job/json.h"
#include "job/work.h"
#include "paper/paper.h"
#include "proof/chain.h"

namespace proofleaf {

inline constexpr uint64_t kLargestProfileFile = 64u << 20;  // [bytes]

struct OpenedMaster {
  std::unique_ptr<Master> master;
  MasterColour colour;
  std::string name;
};

Result<Profile> read_profile(ByteSource& source);
Result<OpenedMaster> open_with_colour(const Json& request, const WorkFiles& files);
// The request's standard space, or the paper among the files.
Result<Paper> open_paper(const Json& request, const WorkFiles& files);
// The master's RGB profile among the files. Error: none was given.
Result<Profile> open_master_profile(const WorkFiles& files);
Result<PrintIntent> print_of(const Json& request);

}  // namespace proofleaf
