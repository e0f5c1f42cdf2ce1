#pragma once

#include <chrono>

namespace proofleaf::shell {

// Seconds since some fixed moment.
inline double now() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

}  // namespace proofleaf::shell
