#include "base/digits.h"

#include <array>
#include <cstdio>

namespace proofleaf {

std::string plain_digits(double value, int decimals) {
  std::array<char, 400> text{};  // room for every double
  std::snprintf(text.data(), text.size(), "%.*f", decimals, value);
  std::string digits = text.data();
  if (digits.find('.') != std::string::npos) {
    digits.resize(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') digits.pop_back();
  }
  return digits == "-0" ? "0" : digits;
}

}  // namespace proofleaf
