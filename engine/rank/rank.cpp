#include "rank/rank.h"

#include <algorithm>

#include "rank/compare.h"

namespace proofleaf {
namespace {

bool sound(const Judged& judged) { return judged.best_at < judged.variants.size(); }
double score_of(const Judged& judged) { return sound(judged) ? judged.best().score : -1; }

std::string why(const Judged& one, const Judged& other, bool more) {
  return telling_difference({one.best(), one.off_gamut}, {other.best(), other.off_gamut}, more);
}

std::string sentence_for(const Judged& one, const Judged& other, bool first) {
  const std::string reason = why(one, other, first);
  if (reason.empty()) {
    return said("{} does this picture about as well as {}.", one.paper, other.paper);
  }
  const std::string counter = why(one, other, !first);
  return counter.empty()
             ? said("Compared with {}, {} {}.", other.paper, one.paper, reason)
             : said("Compared with {}, {} {}, but {}.", other.paper, one.paper, reason, counter);
}

}  // namespace

std::vector<Standing> rank(const std::vector<Judged>& judged) {
  std::vector<Standing> order(judged.size());
  for (size_t i = 0; i < order.size(); ++i) order[i] = {i, score_of(judged[i]), false, {}};
  std::stable_sort(order.begin(), order.end(),
                   [](const Standing& p, const Standing& q) { return p.score > q.score; });
  for (size_t place = 0; place < order.size(); ++place) {
    Standing& standing = order[place];
    const Judged& one = judged[standing.index];
    if (!sound(one)) continue;
    if (place > 0) standing.equal = order[place - 1].score - standing.score < kEqualPoints;
    const size_t beside = place == 0 ? 1 : 0;
    if (beside >= order.size() || !sound(judged[order[beside].index])) {
      standing.sentence = one.sentence;
    } else {
      standing.sentence = sentence_for(one, judged[order[beside].index], place == 0);
    }
  }
  return order;
}

}  // namespace proofleaf
