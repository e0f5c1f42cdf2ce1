// What a size written for a client measures: "40 x 60 cm", "16 × 20 in", "80x60cm, framed".
#pragma once

#include <optional>
#include <string_view>

namespace proofleaf {

struct PrintedSize {
  double width_mm = 0, height_mm = 0;  // in the order written
};

// Units: mm, cm, m, in, inch, inches, ". A point or a comma makes decimals. Nothing where no two
// lengths with a unit stand there, or one is not between 1 cm and 20 m.
std::optional<PrintedSize> size_in_mm(std::string_view text);

}  // namespace proofleaf
