// Where one way of printing differs from the master: the map judge() answers for the best way, for
// any way.
#pragma once

#include "rank/judge.h"

namespace proofleaf {

struct DifferenceMap {
  uint32_t width = 0, height = 0;  // [pixels], at most kDifferenceSide
  std::vector<uint8_t> tenths;     // of dE00 between media-relative L*a*b*; 255 for 25.5 and more
};

// master: the profile the facts were found with. Error: the profiles cannot be joined, a table
// gives no numbers, facts of no picture.
Result<DifferenceMap> find_difference(const Profile& master, const PictureFacts& facts,
                                      const Paper& paper, PrintIntent print);

}  // namespace proofleaf
