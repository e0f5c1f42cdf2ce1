// Local contrast for what the screen shows, as requests.
#pragma once

#include "base/json.h"
#include "job/opening.h"
#include "job/work.h"

namespace proofleaf {

// The request "local_contrast" of work.h.
Result<Answer> local_contrast_work(const Json& request, const WorkFiles& files, const Watch& watch);

// The guide among the files. Error: none was given, or it is damaged.
Result<std::shared_ptr<const LocalContrast>> read_guide(const WorkFiles& files);

// 16-bit RGB of a part of the master with that much local contrast, as a print gets it
// (fit/local_contrast.h). amount: -100..100, not 0. Error: as local_contrast_rows(); stopped.
Result<std::vector<uint16_t>> with_local_contrast(const Picture& picture, const Profile& master,
                                                  std::shared_ptr<const LocalContrast> guide,
                                                  double amount, PicturePart part,
                                                  const Watch& watch);

}  // namespace proofleaf
