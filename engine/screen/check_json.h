// A check of a screen as it is kept between visits.
#pragma once

#include <string>

#include "base/json.h"
#include "screen/check.h"

namespace proofleaf::screen {

struct KeptCheck {
  Answers answers;
  Platform platform;     // as it was then
  std::string made;      // the day, YYYY-MM-DD; may be empty
  bool correct = false;  // the proof is drawn through the compensation
};

Json json_of(const Answers& answers);
// Error: an answer of another kind, or outside its range; nothing is guessed.
Result<Answers> answers_from_json(const Json& json);

Json json_of(const Platform& platform);
// What is missing or odd is taken for not told.
Platform platform_from_json(const Json& json);

std::string check_to_text(const KeptCheck& check);
// Error: not a check of a screen, of a later version, damaged, or tampered with.
Result<KeptCheck> check_from_text(const std::string& text);

}  // namespace proofleaf::screen
