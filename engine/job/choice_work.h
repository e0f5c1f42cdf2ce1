// Choosing a paper, as requests: its card, the facts of a picture, the picture judged on it.
#pragma once

#include "job/json.h"
#include "job/work.h"
#include "rank/judge.h"

namespace proofleaf {

inline constexpr std::array<const char*, kZones> kZoneWords{"shadows", "midtones", "highlights"};

Result<Answer> card_answer(const Paper& paper, const Watch& watch);
// width, height: members of the request. Reads files.picture.
Result<Answer> facts_answer(const Json& request, const Profile& master, const WorkFiles& files,
                            const Watch& watch);
// Reads files.facts.
Result<Answer> judge_answer(const Profile& master, const Paper& paper, const WorkFiles& files,
                            const Watch& watch);

// The answer to "judge" and back again, so that whoever holds answers can rank() them.
Json json_of(const Judgement& judgement);
// Error: not a "judged" answer, or one without variants.
Result<Judged> judged_from_json(const Json& json);

}  // namespace proofleaf
