#include "deliver/strips.h"

#include <algorithm>

namespace proofleaf {

Strip* StripRing::to_fill() {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [&] { return closed_ || filled_ - taken_ < strips_.size(); });
  return closed_ ? nullptr : &strips_[filled_ % strips_.size()];
}

void StripRing::filled() {
  const std::lock_guard lock(mutex_);
  ++filled_;
  changed_.notify_all();
}

Strip* StripRing::to_take() {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [&] { return closed_ || ended_ || taken_ < filled_; });
  return closed_ || taken_ == filled_ ? nullptr : &strips_[taken_ % strips_.size()];
}

void StripRing::taken() {
  const std::lock_guard lock(mutex_);
  ++taken_;
  changed_.notify_all();
}

void StripRing::end() {
  const std::lock_guard lock(mutex_);
  ended_ = true;
  changed_.notify_all();
}

void StripRing::close() {
  const std::lock_guard lock(mutex_);
  closed_ = true;
  changed_.notify_all();
}

ReadAhead::ReadAhead(uint32_t height, StripWork fill) : height_(height), fill_(std::move(fill)) {
  if constexpr (kThreads) thread_.start([this] { run(); });
}

ReadAhead::~ReadAhead() { ring_.close(); }

void ReadAhead::place(Strip& strip) {
  strip.first = at_;
  strip.count = std::min(kStripRows, height_ - at_);
  at_ += strip.count;
}

void ReadAhead::run() {
  while (at_ < height_) {
    Strip* strip = ring_.to_fill();
    if (strip == nullptr) return;
    place(*strip);
    if (const Status got = fill_(*strip); !got) {
      error_ = got.error();
      break;
    }
    ring_.filled();
  }
  ring_.end();
}

Result<Strip*> ReadAhead::next() {
  if constexpr (!kThreads) {
    place(only_);
    if (const Status got = fill_(only_); !got) return got.error();
    return &only_;
  }
  if (holding_) ring_.taken();
  Strip* strip = ring_.to_take();
  holding_ = strip != nullptr;
  if (strip == nullptr) return error_.value_or(Error{"There are no more rows."});
  return strip;
}

WriteBehind::WriteBehind(StripWork put) : put_(std::move(put)) {
  if constexpr (kThreads) thread_.start([this] { run(); });
}

WriteBehind::~WriteBehind() { ring_.close(); }

void WriteBehind::run() {
  while (Strip* strip = ring_.to_take()) {
    if (const Status put = put_(*strip); !put) {
      error_ = put.error();
      return ring_.close();
    }
    ring_.taken();
  }
}

Strip* WriteBehind::room() {
  if constexpr (kThreads) return ring_.to_fill();
  return error_ ? nullptr : &only_;
}

void WriteBehind::send() {
  if constexpr (kThreads) return ring_.filled();
  if (const Status put = put_(only_); !put) error_ = put.error();
}

Status WriteBehind::finish() {
  ring_.end();
  thread_.wait();
  if (error_) return *error_;
  return done();
}

}  // namespace proofleaf
