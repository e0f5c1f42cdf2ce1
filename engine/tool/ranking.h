// One picture on several papers, from the command line.
#pragma once

#include "job/work.h"
#include "rank/rank.h"

namespace proofleaf::tool {

struct Ranking {
  std::vector<Judged> judged;        // papers that could be judged
  std::vector<Standing> order;       // of them
  std::vector<std::string> refused;  // a sentence for each paper that could not
};

// A request that names a paper, and its files; both as perform() takes them.
struct PaperCall {
  std::string request;
  WorkFiles files;
};

// open: the request "open" and its files. Error: the master cannot be used.
Result<Ranking> rank_papers(const PaperCall& open, const std::vector<Result<PaperCall>>& papers);

void print_ranking(const Ranking& ranking, bool as_json);

}  // namespace proofleaf::tool
