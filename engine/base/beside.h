// Work beside other work, where a build has threads.
#pragma once

#include <functional>
#include <thread>

namespace proofleaf {

#ifdef __EMSCRIPTEN__
inline constexpr bool kThreads = false;
#else
inline constexpr bool kThreads = true;
#endif

// Work done on a thread of its own, or at once where there are none. Waits for it when it goes.
class Beside {
 public:
  Beside() = default;
  explicit Beside(const std::function<void()>& work);
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside() { wait(); }
  void start(const std::function<void()>& work);
  void wait();

 private:
  std::thread thread_;
};

}  // namespace proofleaf
