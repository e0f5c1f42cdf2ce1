// Digits of numbers, the same in all languages.
#pragma once

#include <string>

namespace proofleaf {

// At most `decimals` digits behind the point, no zeros there, and no minus before nothing: "0.17",
// "300". For files, names and markup; for people see language.h. value: finite.
std::string plain_digits(double value, int decimals = 2);

}  // namespace proofleaf
