// What libFuzzer calls. An input that takes too long ends the run where it is, as a crash would.
#include <sys/time.h>

#include <csignal>

#include "target.h"

namespace {

void too_long(int) { std::abort(); }

void allow(int seconds) {
  const itimerval once{{0, 0}, {seconds, 0}};
  setitimer(ITIMER_VIRTUAL, &once, nullptr);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  static const auto earlier = std::signal(SIGVTALRM, too_long);
  (void)earlier;
  allow(proofleaf::fuzz::kMostSeconds);
  proofleaf::fuzz::take(data, size);
  allow(0);
  return 0;
}
