#include "share/base64url.h"

namespace proofleaf {
namespace {

bool is_space(char letter) {
  return letter == ' ' || letter == '\n' || letter == '\r' || letter == '\t';
}

}  // namespace

std::string base64url(ByteView bytes) {
  std::string text;
  text.reserve((bytes.size() * 4 + 2) / 3);
  uint32_t bits = 0, count = 0;
  for (const uint8_t byte : bytes) {
    bits = bits << 8 | byte;
    for (count += 8; count >= 6; count -= 6) text += kBase64UrlLetters[bits >> (count - 6) & 63];
  }
  if (count > 0) text += kBase64UrlLetters[bits << (6 - count) & 63];
  return text;
}

std::optional<Bytes> from_base64url(std::string_view text) {
  Bytes bytes;
  bytes.reserve(text.size() * 3 / 4);
  uint32_t bits = 0, count = 0;
  for (const char letter : text) {
    if (is_space(letter)) continue;
    const size_t digit = kBase64UrlLetters.find(letter);
    if (digit == std::string_view::npos) return std::nullopt;
    bits = bits << 6 | static_cast<uint32_t>(digit);
    count += 6;
    if (count < 8) continue;
    count -= 8;
    bytes.push_back(static_cast<uint8_t>(bits >> count));
  }
  const bool whole = count < 6 && (bits & ((1u << count) - 1)) == 0;
  if (!whole) return std::nullopt;
  return bytes;
}

}  // namespace proofleaf
