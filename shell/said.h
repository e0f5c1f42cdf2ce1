// A text of the panel: English in the source, said in the language spoken whenever it is used.
#pragma once

#include <string>
#include <type_traits>

#include "base/language.h"

namespace proofleaf::shell {

struct Words {
  const char* english;
  constexpr Words(const char* text) : english(text) {}
  operator std::string() const { return said(english); }
};

inline std::string operator+(const std::string& before, const Words& words) {
  return before + said(words.english);
}
inline std::string operator+(const Words& words, const std::string& after) {
  return said(words.english) + after;
}

namespace text_detail {

inline const char* argument(const Words& words) { return said(words.english); }
template <class Value>
Value argument(Value value) {
  return value;
}

// What a conversion must be to take it: s, f, d, or D for 64 bits.
template <class Value>
constexpr char kind() {
  if constexpr (std::is_floating_point_v<Value>) return 'f';
  if constexpr (std::is_integral_v<Value>) return sizeof(Value) > 4 ? 'D' : 'd';
  return 's';
}

// printf into a string, decimals as the language spoken has them; the format as it stands where its
// conversions are not of those kinds.
std::string formatted(const char* kinds, const char* format, ...);

template <class... Arguments>
std::string checked(const char* format, Arguments... arguments) {
  constexpr char kinds[] = {kind<Arguments>()..., 0};
  return formatted(kinds, format, arguments...);
}

}  // namespace text_detail

// printf for people, into a string of at most 1023 bytes: Words among the parts are said, and
// numbers have the decimal sign of the language spoken.
template <class... Parts>
std::string text(const char* format, const Parts&... parts) {
  return text_detail::checked(format, text_detail::argument(parts)...);
}
// The same with a format that is said first.
template <class... Parts>
std::string text(const Words& format, const Parts&... parts) {
  return text(said(format.english), parts...);
}

}  // namespace proofleaf::shell
