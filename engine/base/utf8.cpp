#include "base/utf8.h"

#include <cstdint>

namespace proofleaf {

size_t utf8_length(std::string_view text) {
  const auto byte = [&](size_t i) { return i < text.size() ? static_cast<uint8_t>(text[i]) : 0; };
  const uint32_t first = byte(0);
  const size_t length = first < 0x80   ? 1
                        : first < 0xC2 ? 0
                        : first < 0xE0 ? 2
                        : first < 0xF0 ? 3
                        : first < 0xF5 ? 4
                                       : 0;
  uint32_t code = length < 2 ? first : first & (0x7Fu >> length);
  for (size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
    code = code << 6 | (byte(i) & 0x3F);
  }
  const bool too_long = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
  const bool no_letter = (code >= 0xD800 && code < 0xE000) || code > 0x10FFFF;
  return too_long || no_letter ? 0 : length;
}

}  // namespace proofleaf
