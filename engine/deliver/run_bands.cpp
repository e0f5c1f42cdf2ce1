#include "deliver/run_bands.h"

#include <condition_variable>
#include <mutex>
#include <optional>

#include "base/beside.h"

namespace proofleaf {
namespace {

[[maybe_unused]] Status in_place(uint32_t bands, const BandWork& work) {
  if (Status begun = work.begin(); !begun) return begun;
  std::vector<uint16_t> rgb;
  for (uint32_t band = 0; band < bands; ++band) {
    if (Status read = work.read(band, rgb); !read) return read;
    auto made = work.make(0, band, rgb);
    if (!made) return made.error();
    if (Status joined = work.join(band, made.value()); !joined) return joined;
  }
  return done();
}

// Makers read in turns, and each makes what it has read while the next one reads: no thread but the
// makers has much to do, so that there are as many as the machine has cores. What is made waits in
// a ring of slots, band b in slot b modulo their number. An error travels in its band's slot, so
// that it comes out in order.
class Line {
 public:
  Line(uint32_t bands, size_t in_hand, const BandWork& work)
      : bands_(bands), work_(work), slots_(in_hand) {}

  void begun() {
    const std::lock_guard lock(mutex_);
    begun_ = true;
    changed_.notify_all();
  }

  void make_all(size_t maker) {
    std::vector<uint16_t> rgb;
    while (const auto band = take_turn()) {
      const Status read = work_.read(*band, rgb);
      end_turn(bool(read));
      if (!wait([this] { return begun_; })) return;
      hand_over(*band, read ? work_.make(maker, *band, rgb) : Result<Bytes>(read.error()));
    }
  }

  Status join_all() {
    for (; joined_ < bands_;) {
      auto& slot = slots_[joined_ % slots_.size()];
      wait([&slot] { return slot.has_value(); });
      if (!*slot) return slot->error();
      if (Status joined = work_.join(joined_, slot->value()); !joined) return joined;
      const std::lock_guard lock(mutex_);
      slot.reset();
      ++joined_;
      changed_.notify_all();
    }
    return done();
  }

  void close() {
    const std::lock_guard lock(mutex_);
    closed_ = true;
    changed_.notify_all();
  }

 private:
  // False when closed.
  template <class Ready>
  bool wait(Ready ready) {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return closed_ || ready(); });
    return !closed_;
  }

  // The band to read, once no other is read and there is a slot for it; none when all are.
  std::optional<uint32_t> take_turn() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] {
      return closed_ || (!reading_ && (next_ == bands_ || next_ < joined_ + slots_.size()));
    });
    if (closed_ || next_ == bands_) return {};
    reading_ = true;
    return next_++;
  }

  void end_turn(bool go_on) {
    const std::lock_guard lock(mutex_);
    reading_ = false;
    if (!go_on) next_ = bands_;
    changed_.notify_all();
  }

  void hand_over(uint32_t band, Result<Bytes> made) {
    const std::lock_guard lock(mutex_);
    slots_[band % slots_.size()] = std::move(made);
    changed_.notify_all();
  }

  uint32_t bands_;
  const BandWork& work_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::vector<std::optional<Result<Bytes>>> slots_;
  uint32_t next_ = 0;    // the band to read next
  uint32_t joined_ = 0;  // bands
  bool begun_ = false, reading_ = false, closed_ = false;
};

}  // namespace

Status run_bands(uint32_t bands, size_t makers, size_t in_hand, const BandWork& work) {
  if constexpr (!kThreads) return in_place(bands, work);
  Line line(bands, in_hand, work);
  std::vector<Beside> threads(makers);
  for (size_t maker = 0; maker < makers; ++maker) {
    threads[maker].start([&line, maker] { line.make_all(maker); });
  }
  Status joined = work.begin();
  if (joined) {
    line.begun();
    joined = line.join_all();
  }
  line.close();
  for (auto& thread : threads) thread.wait();
  return joined;
}

}  // namespace proofleaf
