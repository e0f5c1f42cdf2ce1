// Reading answers without trusting them, on top of the engine's own way (engine/base/json.h).
#pragma once

#include <string>
#include <vector>

#include "base/json.h"

namespace proofleaf::shell {

// A count that fits 32 bits; anything else is 0.
inline uint32_t count_of(const Json& object, const char* name) {
  const double value = number_of(object, name);
  return value >= 0 && value < 4294967296.0 ? uint32_t(value) : 0;
}

inline std::vector<std::string> texts_of(const Json& object, const char* name) {
  std::vector<std::string> result;
  const Json* value = member(object, name);
  if (value && value->is_array())
    for (const Json& each : *value)
      if (each.is_string()) result.push_back(each.get<std::string>());
  return result;
}

}  // namespace proofleaf::shell
