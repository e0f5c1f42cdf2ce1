// Strips of rows handed from thread to thread in order, with a bound on how many there are: reading
// runs ahead, writing lags behind. Builds without threads (WebAssembly) do both in place.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <vector>

#include "base/beside.h"
#include "base/result.h"

namespace proofleaf {

// Rows first .. first+count-1, as samples of whichever width is in use.
struct Strip {
  uint32_t first = 0, count = 0;
  std::vector<uint16_t> wide;
  std::vector<uint8_t> eight;
};

inline constexpr uint32_t kStripRows = 16;
inline constexpr size_t kStripsInHand = 8;  // of each ring

// A fixed number of strips going round between one thread that fills and one that takes. Waiting
// sleeps. Everything may be called from either side.
class StripRing {
 public:
  StripRing() : strips_(kStripsInHand) {}
  // The next strip to fill, when there is one free; nullptr once closed.
  Strip* to_fill();
  void filled();
  // The next strip in order; nullptr once closed, or ended with all strips taken.
  Strip* to_take();
  void taken();
  // Nothing more will be filled.
  void end();
  // Nobody waits any longer.
  void close();

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  std::vector<Strip> strips_;
  uint64_t filled_ = 0, taken_ = 0;
  bool ended_ = false, closed_ = false;
};

using StripWork = std::function<Status(Strip&)>;

// Reads a picture from the top down, some strips ahead of who asks.
class ReadAhead {
 public:
  // fill: reads the rows strip.first .. strip.first+count-1 into the strip; called in order, never
  // twice at once, until the first error.
  ReadAhead(uint32_t height, StripWork fill);
  ~ReadAhead();
  // The next strip, good until the following call. Error: what fill answered, after all strips
  // before it. Not to be called past the last row.
  Result<Strip*> next();

 private:
  void run();
  void place(Strip& strip);

  uint32_t height_, at_ = 0;
  StripWork fill_;
  Strip only_;  // without threads
  StripRing ring_;
  bool holding_ = false;
  std::optional<Error> error_;  // set before the ring ends
  Beside thread_;               // last, so that it ends first
};

// Takes filled strips and puts them away in order.
class WriteBehind {
 public:
  // put: called in order, never twice at once, until the first error.
  explicit WriteBehind(StripWork put);
  ~WriteBehind();
  // A strip to fill, then send(); nullptr when put has failed: finish() says how.
  Strip* room();
  void send();
  // Waits until all is put away. Error: what put answered first.
  Status finish();

 private:
  void run();

  StripWork put_;
  Strip only_;  // without threads
  StripRing ring_;
  std::optional<Error> error_;  // read after the thread has ended, or without threads
  Beside thread_;               // last, so that it ends first
};

}  // namespace proofleaf
