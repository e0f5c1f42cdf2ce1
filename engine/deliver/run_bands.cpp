#include "deliver/run_bands.h"

#include <condition_variable>
#include <mutex>
#include <optional>

#include "base/beside.h"

namespace proofleaf {
namespace {

struct Slot {
  enum class Holds { nothing, pixels, made } holds = Holds::nothing;
  Pixels rgb;
  Bytes made;
  std::optional<Error> error;
};

[[maybe_unused]] Status in_place(uint32_t bands, const BandWork& work) {
  if (Status begun = work.begin(); !begun) return begun;
  Pixels rgb;
  for (uint32_t band = 0; band < bands; ++band) {
    if (Status read = work.read(band, rgb); !read) return read;
    auto made = work.make(0, band, rgb.view());
    if (!made) return made.error();
    if (Status joined = work.join(band, made.value()); !joined) return joined;
  }
  return done();
}

// A ring of slots; band b goes through slot b modulo their number. An error travels in its band's
// slot, so that it comes out in order.
class Line {
 public:
  Line(uint32_t bands, size_t in_hand, const BandWork& work)
      : bands_(bands), work_(work), slots_(in_hand) {}

  void read_all() {
    for (uint32_t band = 0; band < bands_; ++band) {
      Slot* slot = wait_for(band, Slot::Holds::nothing);
      if (slot == nullptr) return;
      const Status read = work_.read(band, slot->rgb);
      if (!read) slot->error = read.error();
      pass_on(*slot, Slot::Holds::pixels);
      if (!read) return;
    }
  }

  void make_all(size_t maker) {
    for (uint32_t band = take_number(); band < bands_; band = take_number()) {
      Slot* slot = wait_for(band, Slot::Holds::pixels);
      if (slot == nullptr) return;
      if (!slot->error) {
        auto made = work_.make(maker, band, slot->rgb.view());
        if (made) {
          slot->made = made.take();
        } else {
          slot->error = made.error();
        }
      }
      pass_on(*slot, Slot::Holds::made);
    }
  }

  Status join_all() {
    for (uint32_t band = 0; band < bands_; ++band) {
      Slot* slot = wait_for(band, Slot::Holds::made);
      if (slot->error) return *slot->error;
      if (Status joined = work_.join(band, slot->made); !joined) return joined;
      pass_on(*slot, Slot::Holds::nothing);
    }
    return done();
  }

  void close() {
    const std::lock_guard lock(mutex_);
    closed_ = true;
    changed_.notify_all();
  }

 private:
  uint32_t take_number() {
    const std::lock_guard lock(mutex_);
    return next_++;
  }

  // The band's slot once it holds that; nullptr when closed. A slot waits for its own band: it can
  // hold pixels of an earlier round only while that band has not been joined.
  Slot* wait_for(uint32_t band, Slot::Holds what) {
    std::unique_lock lock(mutex_);
    Slot& slot = slots_[band % slots_.size()];
    changed_.wait(lock, [&] {
      const bool round = what == Slot::Holds::nothing || band < joined_ + slots_.size();
      return closed_ || (round && slot.holds == what);
    });
    return closed_ ? nullptr : &slot;
  }

  void pass_on(Slot& slot, Slot::Holds what) {
    const std::lock_guard lock(mutex_);
    slot.holds = what;
    joined_ += what == Slot::Holds::nothing;
    changed_.notify_all();
  }

  uint32_t bands_;
  const BandWork& work_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::vector<Slot> slots_;
  uint32_t next_ = 0;    // the band for the next free maker
  uint32_t joined_ = 0;  // bands
  bool closed_ = false;
};

}  // namespace

Status run_bands(uint32_t bands, size_t makers, size_t in_hand, const BandWork& work) {
  if constexpr (!kThreads) return in_place(bands, work);
  Line line(bands, in_hand, work);
  Beside reader([&] { line.read_all(); });
  Status joined = work.begin();
  std::vector<Beside> threads(joined ? makers : 0);
  for (size_t maker = 0; maker < threads.size(); ++maker) {
    threads[maker].start([&line, maker] { line.make_all(maker); });
  }
  if (joined) joined = line.join_all();
  line.close();
  reader.wait();
  for (auto& thread : threads) thread.wait();
  return joined;
}

}  // namespace proofleaf
