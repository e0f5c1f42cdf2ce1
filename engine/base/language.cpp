#include "base/language.h"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <unordered_map>

#include "base/json.h"

namespace proofleaf {
namespace {

constexpr size_t kLargestCatalogue = 4 << 20;  // [bytes]
constexpr std::string_view kEnglish = "en-GB";
// Languages whose decimals stand behind a comma.
constexpr std::string_view kWithComma[] = {"de"};

// Keys are looked up by characters of the source, without a copy.
struct Hash {
  using is_transparent = void;
  size_t operator()(std::string_view words) const { return std::hash<std::string_view>{}(words); }
};
using Catalogue = std::unordered_map<std::string, std::string, Hash, std::equal_to<>>;

struct Spoken {
  std::string code{kEnglish};
  Catalogue catalogue;
};

Spoken& spoken() {
  static Spoken one;
  return one;
}

// The length of a printf conversion at the head of `words`, which begins with %.
size_t conversion_length(std::string_view words) {
  size_t i = 1;
  if (i < words.size() && words[i] == '%') return 2;
  i = std::min(words.find_first_not_of("-+ #0123456789.*hlzjtL", i), words.size());
  return i < words.size() ? i + 1 : words.size();
}

// "5 % of" and "5 %." in a text that is never given to printf: a sign, and no conversion.
bool plain_sign(std::string_view words) {
  const char last = words[conversion_length(words) - 1];
  const bool letter = (last >= 'a' && last <= 'z') || (last >= 'A' && last <= 'Z');
  return words.size() < 2 || words[1] == ' ' || !(letter || words[1] == '%');
}

// with_plain: signs that are no conversion count as if they were, as printf has it.
std::vector<std::string> conversions(std::string_view words, bool with_plain) {
  std::vector<std::string> found;
  for (size_t at = words.find('%'); at != words.npos; at = words.find('%', at)) {
    const std::string_view rest = words.substr(at);
    const bool taken = with_plain || !plain_sign(rest);
    const size_t length = taken ? conversion_length(rest) : 1;
    if (taken) found.emplace_back(rest.substr(0, length));
    at += length;
  }
  return found;
}

// What stands in braces; {} by its number. Sorted.
std::vector<std::string> names_in_braces(std::string_view words) {
  std::vector<std::string> found;
  int unnamed = 0;
  for (size_t open = words.find('{'); open != words.npos; open = words.find('{', open + 1)) {
    const size_t close = words.find('}', open);
    std::string name(words.substr(open, close == words.npos ? close : close - open + 1));
    if (name == "{}") name.insert(1, std::to_string(++unnamed));
    found.push_back(std::move(name));
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

bool same_placeholders(std::string_view english, std::string_view translation) {
  if (names_in_braces(english) != names_in_braces(translation)) return false;
  if (english.find('%') == english.npos) return translation.find('%') == translation.npos;
  const bool format = !conversions(english, false).empty();
  return conversions(english, format) == conversions(translation, format);
}

size_t speak(std::string_view code, const std::string& catalogue) {
  Spoken& now = spoken();
  now = {};
  if (catalogue.size() > kLargestCatalogue) return 0;
  const Json texts = parse_json(catalogue);
  if (!texts.is_object()) return 0;
  for (const auto& [english, translation] : texts.items()) {
    if (!translation.is_string()) continue;
    std::string text = translation.get<std::string>();
    if (!text.empty() && same_placeholders(english, text))
      now.catalogue.emplace(english, std::move(text));
  }
  if (!now.catalogue.empty()) now.code = code;
  return now.catalogue.size();
}

const std::string& language() { return spoken().code; }

const char* said(const char* english) {
  const Catalogue& catalogue = spoken().catalogue;
  if (catalogue.empty()) return english;
  const auto found = catalogue.find(std::string_view(english));
  return found == catalogue.end() ? english : found->second.c_str();
}

char decimal_sign() {
  const bool comma =
      std::find(std::begin(kWithComma), std::end(kWithComma), language()) != std::end(kWithComma);
  return comma ? ',' : '.';
}

std::string spoken_digits(std::string digits) {
  std::replace(digits.begin(), digits.end(), '.', decimal_sign());
  return digits;
}

std::string spoken_number(double value, int decimals) {
  char digits[400];  // room for every double
  std::snprintf(digits, sizeof digits, "%.*f", std::clamp(decimals, 0, 12), value);
  return spoken_digits(digits);
}

std::optional<double> typed_number(std::string_view typed) {
  const size_t first = typed.find_first_not_of(' ');
  if (first == typed.npos) return std::nullopt;
  std::string digits(typed.substr(first, typed.find_last_not_of(' ') + 1 - first));
  std::replace(digits.begin(), digits.end(), ',', '.');
  const size_t start = digits.find_first_not_of("+-") == 0 ? 0 : 1;
  const bool plain = digits.find_first_not_of("0123456789.", start) == digits.npos &&
                     digits.find_first_of("0123456789") != digits.npos &&
                     std::count(digits.begin(), digits.end(), '.') <= 1;
  if (!plain) return std::nullopt;
  return std::strtod(digits.c_str(), nullptr);
}

std::string filled(const char* english, const std::vector<std::string>& parts) {
  std::string result;
  size_t turn = 0;
  for (std::string_view rest = said(english); !rest.empty();) {
    const size_t open = rest.find('{'), close = rest.find('}', open);
    result += rest.substr(0, close == rest.npos ? close : open);
    if (close == rest.npos) break;
    size_t number = 0;
    std::from_chars(rest.data() + open + 1, rest.data() + close, number);
    const size_t place = number > 0 ? number - 1 : turn++;
    if (place < parts.size()) result += parts[place];
    rest.remove_prefix(close + 1);
  }
  return result;
}

}  // namespace proofleaf
