#include "ranking.h"

#include <cstdio>

#include "job/choice_work.h"

namespace proofleaf::tool {
namespace {

std::shared_ptr<ByteSource> buffer_of(Answer& answer, const char* name) {
  for (NamedBuffer& buffer : answer.buffers) {
    if (buffer.name == name) return std::make_shared<MemorySource>(name, std::move(buffer.bytes));
  }
  return nullptr;
}

// What judging needs of the master: its profile, and the facts of its preview.
Result<WorkFiles> look_at(const PaperCall& open) {
  auto opened = perform(open.request, open.files, {});
  if (!opened) return opened.error();
  const Json master = parse_json(opened.value().json);
  WorkFiles files;
  files.profile = buffer_of(opened.value(), "profile");
  files.picture = buffer_of(opened.value(), "preview");
  const Json request{{"op", "picture_facts"},
                     {"width", number_of(master, "preview_width")},
                     {"height", number_of(master, "preview_height")}};
  auto facts = perform(dump_json(request), files, {});
  if (!facts) return facts.error();
  files.picture = nullptr;
  files.facts = buffer_of(facts.value(), "facts");
  return files;
}

Result<Judged> judge_one(const WorkFiles& looked_at, const Result<PaperCall>& paper) {
  if (!paper) return paper.error();
  WorkFiles files = looked_at;
  files.paper = paper.value().files.paper;
  auto answer = perform(paper.value().request, files, {});
  if (!answer) return answer.error();
  return judged_from_json(parse_json(answer.value().json));
}

Json json_of(const Ranking& ranking) {
  Json order = Json::array();
  for (const Standing& standing : ranking.order) {
    const Judged& judged = ranking.judged[standing.index];
    order.push_back({{"paper", judged.paper},
                     {"score", standing.score},
                     {"equal_to_the_one_before", standing.equal},
                     {"sentence", standing.sentence},
                     {"judged", proofleaf::json_of(Judgement{judged, {}})}});
  }
  return {{"kind", "ranking"}, {"order", order}, {"refused", ranking.refused}};
}

void print_row(const Judged& judged, double score) {
  const Variant& best = judged.best();
  std::printf("%5.1f  %5.1f %5.1f  %5.0f %%", score, best.mean, best.p95, 100 * judged.off_gamut);
  for (const ZoneTone& zone : best.tone) std::printf("  %4.0f/%-3.0f", zone.kept, zone.steps);
  std::printf("  %s\n", judged.paper.c_str());
}

}  // namespace

Result<Ranking> rank_papers(const PaperCall& open, const std::vector<Result<PaperCall>>& papers) {
  auto files = look_at(open);
  if (!files) return files.error();
  Ranking ranking;
  for (const auto& paper : papers) {
    auto judged = judge_one(files.value(), paper);
    if (judged) {
      ranking.judged.push_back(judged.take());
    } else {
      ranking.refused.push_back(judged.error().message);
    }
  }
  ranking.order = rank(ranking.judged);
  return ranking;
}

void print_ranking(const Ranking& ranking, bool as_json) {
  if (as_json) {
    std::printf("%s\n", dump_json(json_of(ranking)).c_str());
    return;
  }
  std::printf("score   mean   95%%  beyond  shadows   midtones highlights\n");
  std::printf("         ΔE00  ΔE00  gamut   steps kept of all              paper\n");
  for (const Standing& standing : ranking.order) {
    print_row(ranking.judged[standing.index], standing.score);
  }
  for (const Standing& standing : ranking.order) {
    const Judged& judged = ranking.judged[standing.index];
    std::printf("\n%s\n  %s\n  %s\n  %s\n", judged.paper.c_str(), standing.sentence.c_str(),
                judged.sentence.c_str(), judged.verdict_sentence.c_str());
  }
}

}  // namespace proofleaf::tool
