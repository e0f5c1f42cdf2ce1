// Labels on the test strip: capitals, digits and a few signs of five by seven dots.
#pragma once

#include <array>
#include <cstdint>
#include <string>

namespace proofleaf::print {

inline constexpr uint32_t kDotsWide = 5, kDotsHigh = 7, kDotsApart = 1;

// Whether a letter has a dot at column 0..4, row 0..6. Small letters are drawn as capitals; what is
// not known has none.
bool dot_at(char letter, uint32_t column, uint32_t row);

// Dots a text is wide, with one between letters; 0 for none.
inline uint32_t dots_wide(const std::string& text) {
  const auto count = static_cast<uint32_t>(text.size());
  return count == 0 ? 0 : count * (kDotsWide + kDotsApart) - kDotsApart;
}

}  // namespace proofleaf::print
