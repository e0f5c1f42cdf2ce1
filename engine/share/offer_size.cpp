#include "share/offer_size.h"

#include <algorithm>
#include <utility>

namespace proofleaf {
namespace {

constexpr double kLeast = 10, kMost = 20000;  // [mm]

// The longer of two that begin alike comes first.
constexpr std::pair<std::string_view, double> kUnits[] = {
    {"mm", 1},      {"cm", 10},   {"m", 1000},  {"inches", 25.4},
    {"inch", 25.4}, {"in", 25.4}, {"\"", 25.4}, {"\u2033", 25.4}};
constexpr std::string_view kBetween[] = {"x", "X", "\u00d7", "*", "by"};

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

// A text being read from its front.
struct Reader {
  std::string_view left;

  void pass_space() {
    while (left.starts_with(' ')) left.remove_prefix(1);
    while (left.starts_with("\u00a0")) left.remove_prefix(2);
  }
  bool take(std::string_view word) {
    if (!left.starts_with(word)) return false;
    left.remove_prefix(word.size());
    return true;
  }
  // 0 where there is no number.
  double take_number() {
    double value = 0, place = 0;
    for (; !left.empty(); left.remove_prefix(1)) {
      const char letter = left.front();
      if (is_digit(letter)) {
        value = value * 10 + (letter - '0');
        place *= 10;
      } else if ((letter == '.' || letter == ',') && place == 0 && left.size() > 1 &&
                 is_digit(left[1])) {
        place = 1;
      } else {
        break;
      }
    }
    return place > 1 ? value / place : value;
  }
  // [mm] to the unit; 0 where there is none.
  double take_unit() {
    pass_space();
    for (const auto& [name, mm] : kUnits) {
      const std::string_view rest = left.substr(std::min(left.size(), name.size()));
      const bool goes_on = !rest.empty() && ((rest[0] >= 'a' && rest[0] <= 'z' && rest[0] != 'x'));
      if (left.starts_with(name) && !goes_on) {
        left.remove_prefix(name.size());
        return mm;
      }
    }
    return 0;
  }
  bool take_between() {
    pass_space();
    for (const std::string_view word : kBetween)
      if (take(word)) return true;
    return false;
  }
};

std::optional<PrintedSize> at_front(Reader from) {
  const double width = from.take_number();
  const double width_unit = from.take_unit();
  if (!from.take_between()) return std::nullopt;
  from.pass_space();
  const double height = from.take_number();
  const double height_unit = from.take_unit();
  if (height_unit == 0) return std::nullopt;
  const PrintedSize size{width * (width_unit > 0 ? width_unit : height_unit), height * height_unit};
  const bool fits = size.width_mm >= kLeast && size.width_mm <= kMost && size.height_mm >= kLeast &&
                    size.height_mm <= kMost;
  return fits ? std::optional(size) : std::nullopt;
}

}  // namespace

std::optional<PrintedSize> size_in_mm(std::string_view text) {
  bool within = false;  // a number begins before here
  for (size_t at = 0; at < text.size(); ++at) {
    const bool digit = is_digit(text[at]);
    if (digit && !within)
      if (const auto size = at_front({text.substr(at)})) return size;
    within = digit || (within && (text[at] == '.' || text[at] == ','));
  }
  return std::nullopt;
}

}  // namespace proofleaf
