// JSON read without surprises: what is missing or of another type is the given default, since the
// library's own accessors would end the program where exceptions are off.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace proofleaf {

using Json = nlohmann::json;

// A JSON value, or a discarded one where the text is none.
Json parse_json(const std::string& text);

inline const Json* member(const Json& object, const char* key) {
  if (!object.is_object()) return nullptr;
  const auto found = object.find(key);
  return found == object.end() ? nullptr : &*found;
}
inline std::string text_of(const Json& object, const char* key, const std::string& otherwise = {}) {
  const Json* value = member(object, key);
  return value != nullptr && value->is_string() ? value->get<std::string>() : otherwise;
}
inline double number_of(const Json& object, const char* key, double otherwise = 0) {
  const Json* value = member(object, key);
  return value != nullptr && value->is_number() ? value->get<double>() : otherwise;
}
inline bool flag_of(const Json& object, const char* key, bool otherwise = false) {
  const Json* value = member(object, key);
  return value != nullptr && value->is_boolean() ? value->get<bool>() : otherwise;
}
// A whole number, held within low..high.
inline int64_t whole_of(const Json& object, const char* key, int64_t otherwise, int64_t low,
                        int64_t high) {
  const double value = number_of(object, key, double(otherwise));
  if (!(value >= double(low))) return low;
  return value > double(high) ? high : static_cast<int64_t>(value);
}

// One line of text, or, with an indent, many; file names that are not UTF-8 get a replacement
// character.
std::string dump_json(const Json& value, int indent = -1);

}  // namespace proofleaf
