// What the engine says, looked through.
#pragma once

#include <string>
#include <vector>

#include "base/json.h"
#include "doctest.h"

namespace proofleaf::test {

// Whether one of the sentences has this in it.
inline bool says(const std::vector<std::string>& sentences, const std::string& part) {
  for (const auto& sentence : sentences) {
    if (sentence.find(part) != std::string::npos) return true;
  }
  return false;
}

// Why read(json) refuses a text that is JSON; empty: it does not.
template <class Read>
std::string json_refusal(const Read& read, const std::string& text) {
  const Json json = parse_json(text);
  REQUIRE_FALSE(json.is_discarded());
  const auto made = read(json);
  return made ? "" : made.error().message;
}

}  // namespace proofleaf::test
