// UTF-8 by RFC 3629.
#pragma once

#include <cstddef>
#include <string_view>

namespace proofleaf {

// Bytes of the well-formed sequence at the start of `text`, 1..4; 0 where there is none: a stray or
// missing byte, a form longer than need be, a surrogate, or a code beyond U+10FFFF.
size_t utf8_length(std::string_view text);

}  // namespace proofleaf
