#pragma once

#include <chrono>
#include <ctime>
#include <string>

namespace proofleaf::shell {

// Seconds since some fixed moment.
inline double now() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// Today where the person is, as `format` of std::strftime.
inline std::string today_as(const char* format) {
  const std::time_t present = std::time(nullptr);
  char buffer[64] = "";
  if (const std::tm* local = std::localtime(&present))
    std::strftime(buffer, sizeof buffer, format, local);
  return buffer;
}
inline std::string today_as_date() { return today_as("%Y-%m-%d"); }

}  // namespace proofleaf::shell
