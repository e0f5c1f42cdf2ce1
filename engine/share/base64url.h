// Bytes as letters an address may carry: base64url without padding, RFC 4648 section 5.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/bytes.h"

namespace proofleaf {

inline constexpr std::string_view kBase64UrlLetters =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

// Four letters to three bytes.
std::string base64url(ByteView bytes);
// White space is passed over, as mail programs break lines. Nothing: another letter, or a length or
// last bits that no bytes give.
std::optional<Bytes> from_base64url(std::string_view text);

}  // namespace proofleaf
