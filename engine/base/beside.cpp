#include "base/beside.h"

namespace proofleaf {

Beside::Beside(const std::function<void()>& work) { start(work); }

void Beside::start(const std::function<void()>& work) {
  if constexpr (kThreads) {
    thread_ = std::thread(work);
  } else {
    work();
  }
}

void Beside::wait() {
  if constexpr (kThreads) {
    if (thread_.joinable()) thread_.join();
  }
}

}  // namespace proofleaf
