// The language of all that people read. The English text in the source is the key; a catalogue has
// the same text in another language (web/language/catalogue.json; the page brings the part chosen).
// Names and the words of files stay as they are. Numbers that people read have the decimal sign of
// the language; those of files, names of files and requests have a point.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace proofleaf {

// Speaks another language from now on. code: as in BCP 47, "de"; catalogue: a JSON object of
// English text -> text. Texts whose placeholders are not the English ones are left out, so that
// nothing a catalogue holds can do harm. English and an unreadable catalogue: code "en", nothing
// translated. Returns how many texts were taken. Not while other threads say something.
size_t speak(std::string_view code, const std::string& catalogue);

// The code of the language spoken: "en-GB", "de".
const std::string& language();

// The text in the language spoken; the English itself where the catalogue has none. Valid until the
// next speak().
const char* said(const char* english);

// Marks an English text of the source that is said() later, so that the catalogue's test finds it.
constexpr const char* phrase(const char* english) { return english; }

// A number's digits as printf writes them ("-3.50"), with the decimal sign of the language spoken.
std::string spoken_digits(std::string digits);
// The same of a value with that many decimals, 0..12.
std::string spoken_number(double value, int decimals);

// The decimal sign of the language spoken.
char decimal_sign();

// A number as a person types it: digits, "-" or "+" before them, and a point or a comma before the
// decimals, whatever the language; blanks around it do not count. Nothing where it is none.
std::optional<double> typed_number(std::string_view typed);

// Whether a translation takes the same placeholders: {name:1} in any order, {} as often ({1},
// {2},.. name them where the order is another), %d and its like in the same order.
bool same_placeholders(std::string_view english, std::string_view translation);

// The text with its {} filled in turn, after translation.
std::string filled(const char* english, const std::vector<std::string>& parts);

namespace language_detail {
inline std::string part(const std::string& words) { return words; }
inline std::string part(std::string_view words) { return std::string(words); }
inline std::string part(const char* words) { return words; }
template <class Number>
requires std::is_arithmetic_v<Number> std::string part(Number whole) {
  static_assert(std::is_integral_v<Number> && !std::is_same_v<Number, char>);
  return std::to_string(whole);
}
}  // namespace language_detail

// The same with texts and whole numbers: said("{} is empty.", name).
template <class... Parts>
requires(sizeof...(Parts) > 0) std::string said(const char* english, const Parts&... parts) {
  return filled(english, {language_detail::part(parts)...});
}

}  // namespace proofleaf
