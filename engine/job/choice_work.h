// Choosing a paper, as requests: its card, the facts of a picture, the picture judged on it.
#pragma once

#include "base/json.h"
#include "job/work.h"
#include "rank/judge.h"

namespace proofleaf {

inline constexpr std::array<const char*, kZones> kZoneWords{"shadows", "midtones", "highlights"};

// The requests of work.h: "card", "picture_facts", "judge" and "difference".
Result<Answer> card_work(const Json& request, const WorkFiles& files, const Watch& watch);
Result<Answer> facts_work(const Json& request, const WorkFiles& files, const Watch& watch);
Result<Answer> judge_work(const Json& request, const WorkFiles& files, const Watch& watch);
Result<Answer> difference_work(const Json& request, const WorkFiles& files);

// One way of printing; what is missing when read is 0.
Json json_of(const Variant& variant);
Variant variant_from_json(const Json& json);

// The answer to "judge" and back again, so that whoever holds answers can rank() them.
Json json_of(const Judgement& judgement);
// Error: not a "judged" answer, or one without variants.
Result<Judged> judged_from_json(const Json& json);

}  // namespace proofleaf
