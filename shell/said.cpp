#include "said.h"

#include <algorithm>
#include <cstdarg>
#include <cstdio>
#include <cstring>

namespace proofleaf::shell::text_detail {
namespace {

// The kinds that a format's conversions take; "?" where one is none of ours.
std::string kinds_in(const char* format) {
  std::string kinds;
  for (const char* at = std::strchr(format, '%'); at; at = std::strchr(at, '%')) {
    ++at;
    if (*at == '%') {
      ++at;
      continue;
    }
    at += std::strspn(at, "-+ #0123456789.");
    const size_t longs = std::strspn(at, "lzjt");
    const bool wide = longs > 1 || *at == 'j' || (longs == 1 && sizeof(size_t) > 4);
    at += longs;
    if (*at == 's')
      kinds += 's';
    else if (*at && std::strchr("diuxXc", *at))
      kinds += wide ? 'D' : 'd';
    else if (*at && std::strchr("fgeFGE", *at))
      kinds += 'f';
    else
      return "?";
  }
  return kinds;
}

}  // namespace

std::string formatted(const char* kinds, const char* format, ...) {
  if (kinds_in(format) != kinds) return format;
  char buffer[1024];
  va_list arguments;
  va_start(arguments, format);
  const int length = std::vsnprintf(buffer, sizeof buffer, format, arguments);
  va_end(arguments);
  return std::string(buffer, size_t(std::clamp(length, 0, int(sizeof buffer) - 1)));
}

}  // namespace proofleaf::shell::text_detail
