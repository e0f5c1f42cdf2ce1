// Opening what requests name. Internal to this folder.
#pragma once

#include "colour/profile.h"
#include "job/json.h"
#include "job/work.h"
#include "paper/paper.h"
#include "proof/chain.h"

namespace proofleaf {

inline constexpr uint64_t kLargestProfileFile = 64u << 20;  // [bytes]
inline constexpr uint64_t kLargestPicture =
    uint64_t{16'000'000} * 6;  // [bytes] the largest preview

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
// The preview's 16-bit R, G, B among the files. Error: none was given.
Result<std::vector<uint16_t>> read_picture(const WorkFiles& files);
Result<PrintIntent> print_of(const Json& request);

}  // namespace proofleaf
