#include "said.h"

#include <algorithm>
#include <cstdarg>
#include <cstdio>
#include <cstring>
#include <utility>

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

// Takes the next piece off a sound format: text, "%%", or one conversion.
std::string next_part(const char*& format) {
  const char* end = format;
  if (*format != '%')
    end += std::strcspn(format, "%");
  else if (format[1] == '%')
    end += 2;
  else
    end += 1 + std::strcspn(format + 1, "sdiuxXcfgeFGE") + 1;
  return {std::exchange(format, end), end};
}

template <class Value>
std::string printed(const std::string& conversion, Value value) {
  char buffer[1024];
  const int length = std::snprintf(buffer, sizeof buffer, conversion.c_str(), value);
  return std::string(buffer, size_t(std::clamp(length, 0, int(sizeof buffer) - 1)));
}

}  // namespace

std::string formatted(const char* kinds, const char* format, ...) {
  if (kinds_in(format) != kinds) return format;
  constexpr size_t kMost = 1023;
  std::string all;
  va_list arguments;
  va_start(arguments, format);
  while (*format) {
    const std::string part = next_part(format);
    const char kind = part[0] != '%' ? 0 : part[1] == '%' ? '%' : *kinds++;
    switch (kind) {
      case 's':
        all += printed(part, va_arg(arguments, const char*));
        break;
      case 'd':
        all += printed(part, va_arg(arguments, int));
        break;
      case 'D':
        all += printed(part, va_arg(arguments, long long));
        break;
      case 'f':
        all += spoken_digits(printed(part, va_arg(arguments, double)));
        break;
      default:
        all += kind ? "%" : part;
    }
  }
  va_end(arguments);
  if (all.size() > kMost) all.resize(kMost);
  return all;
}

}  // namespace proofleaf::shell::text_detail
