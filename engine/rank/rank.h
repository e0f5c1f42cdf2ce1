// Papers put in order for one picture.
#pragma once

#include "rank/judge.h"

namespace proofleaf {

struct Standing {
  size_t index = 0;      // of the paper in what was ranked
  double score = 0;      // of its best variant, 0..100
  bool equal = false;    // within a point of the paper before it: noise alone could swap the two
  std::string sentence;  // why it stands here, against the first (the first: against the second)
};

// By the score of each paper's best variant, the highest first; equal scores stay in the order
// given. Judgements without a variant go last. Pure and quick: no worker is needed.
std::vector<Standing> rank(const std::vector<Judged>& judged);

}  // namespace proofleaf
