// Opening a master as a request: done at once, or in steps, between which more of its file may
// come.
#pragma once

#include <optional>

#include "job/opening.h"
#include "job/work.h"
#include "raster/preview.h"

namespace proofleaf {

// The "open" request of work.h.
Result<Answer> open_work(const Json& request, const WorkFiles& files, const Watch& watch);

// The same in steps.
class Opening {
 public:
  // request: the same; its files live as long as this. Error: the master cannot be read, or has
  // colours that cannot be followed.
  static Result<std::unique_ptr<Opening>> begin(const Json& request, const WorkFiles& files);
  bool finished() const { return shrinking_->finished(); }
  double share() const { return shrinking_->share(); }  // done, 0..1
  // Reads what the next row of the preview is made of; not once it is finished. Error: a damaged
  // file.
  Status step() { return shrinking_->step(); }
  // The finished answer, given once. Error: the file changed since it was opened.
  Result<Answer> answer();

 private:
  OpenedMaster opened_;
  PreviewRows rows_;
  std::optional<Shrinking> shrinking_;
};

}  // namespace proofleaf
