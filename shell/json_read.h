// Reading answers without trusting them: a missing or mistyped field gives the fallback.
#pragma once

#include <string>
#include <vector>

#include "nlohmann/json.hpp"

namespace proofleaf::shell {

using Json = nlohmann::json;

inline const Json* field(const Json& object, const char* name) {
  if (!object.is_object()) return nullptr;
  const auto found = object.find(name);
  return found == object.end() ? nullptr : &*found;
}

inline double number_of(const Json& object, const char* name, double fallback = 0) {
  const Json* value = field(object, name);
  return value && value->is_number() ? value->get<double>() : fallback;
}

// A count that fits 32 bits; anything else is 0.
inline uint32_t count_of(const Json& object, const char* name) {
  const double value = number_of(object, name);
  return value >= 0 && value < 4294967296.0 ? uint32_t(value) : 0;
}

inline bool truth_of(const Json& object, const char* name) {
  const Json* value = field(object, name);
  return value && value->is_boolean() && value->get<bool>();
}

inline std::string text_of(const Json& object, const char* name) {
  const Json* value = field(object, name);
  return value && value->is_string() ? value->get<std::string>() : std::string();
}

inline std::vector<std::string> texts_of(const Json& object, const char* name) {
  std::vector<std::string> result;
  const Json* value = field(object, name);
  if (value && value->is_array())
    for (const Json& each : *value)
      if (each.is_string()) result.push_back(each.get<std::string>());
  return result;
}

}  // namespace proofleaf::shell
