#include "print/ranges.h"

#include <cmath>

#include "base/digits.h"

namespace proofleaf::print {

std::string plain_number(double value, int digits) {
  if (!std::isfinite(value)) return said("no number");
  if (std::abs(value) >= 1e12)
    return value < 0 ? said("less than -10^12") : said("more than 10^12");
  return spoken_digits(plain_digits(value, digits));
}

Status within(const Range& range, double value) {
  if (value >= range.low && value <= range.high) return done();
  const std::string unit = *range.unit == 0 ? "" : std::string(" ") + said(range.unit);
  return Error{"{} must lie between {} and {}{}, not {}.",
               range.field,
               plain_number(range.low, 4),
               plain_number(range.high, 4),
               unit,
               plain_number(value, 4)};
}

}  // namespace proofleaf::print
