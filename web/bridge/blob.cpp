#include "blob.h"

#include <algorithm>
#include <cstring>

#include "imports.h"

namespace proofleaf::web {

namespace {
constexpr uint64_t kBlock = 1 << 20, kLongestStretch = 8 * kBlock;  // [bytes]
}

BlobSource::BlobSource(std::string name, int file, uint64_t size)
    : name_(std::move(name)), file_(file), size_(size) {}

// The bytes that are there already, or all that are asked for.
Result<size_t> BlobSource::fetch_some(uint64_t offset, std::span<uint8_t> into) {
  const int got = blob_read(file_, static_cast<double>(offset), into.data(), into.size());
  if (got <= 0) return gone();
  return static_cast<size_t>(got);
}

Error BlobSource::gone() const {
  return Error{"{} can no longer be read: it was moved or changed. Please choose it again.", name_};
}

Status BlobSource::unchanged() {
  if (size_ > 0 && !blob_is_there(file_)) return gone();
  return done();
}

Status BlobSource::fetch(uint64_t offset, std::span<uint8_t> into) {
  for (size_t fetched = 0; fetched < into.size();) {
    const auto got = fetch_some(offset + fetched, into.subspan(fetched));
    if (!got) return got.error();
    fetched += got.value();
  }
  return done();
}

Result<const BlobSource::Block*> BlobSource::block(uint64_t index) {
  Block* oldest = &blocks_[0];
  for (Block& held : blocks_) {
    if (held.index == index) {
      held.used = ++clock_;
      return &held;
    }
    if (held.used < oldest->used) oldest = &held;
  }
  const uint64_t start = index * kBlock;
  oldest->index = UINT64_MAX;
  oldest->bytes.resize(static_cast<size_t>(std::min(kBlock, size_ - start)));
  if (Status status = fetch(start, oldest->bytes); !status) return status.error();
  oldest->index = index;
  oldest->used = ++clock_;
  fetched_to_ = start + oldest->bytes.size();
  return oldest;
}

// What is held from there on, at least a byte; fetched if it was not.
Result<ByteView> BlobSource::held_from(uint64_t offset) {
  const auto in_stretch = [&] {
    return offset >= stretch_from_ && offset - stretch_from_ < stretch_.size();
  };
  if (!in_stretch() && offset == fetched_to_ && offset > 0) {
    const uint64_t length = std::clamp<uint64_t>(2 * stretch_.size(), kBlock, kLongestStretch);
    stretch_.resize(static_cast<size_t>(std::min(length, size_ - offset)));
    const auto got = fetch_some(offset, stretch_);
    stretch_.resize(got ? got.value() : 0);
    if (!got) return got.error();
    stretch_from_ = offset;
    fetched_to_ = offset + stretch_.size();
  }
  if (in_stretch()) return ByteView(stretch_).subspan(static_cast<size_t>(offset - stretch_from_));
  auto held = block(offset / kBlock);
  if (!held) return held.error();
  return ByteView(held.value()->bytes).subspan(static_cast<size_t>(offset % kBlock));
}

Result<size_t> BlobSource::read_at(uint64_t offset, std::span<uint8_t> into) {
  if (offset >= size_) return size_t{0};
  const size_t wanted = static_cast<size_t>(std::min<uint64_t>(into.size(), size_ - offset));
  if (wanted >= kBlock) {  // too long to gain from a block
    if (Status status = fetch(offset, into.first(wanted)); !status) return status.error();
    return wanted;
  }
  size_t copied = 0;
  while (copied < wanted) {
    auto held = held_from(offset + copied);
    if (!held) return held.error();
    const size_t count = std::min(wanted - copied, held.value().size());
    std::memcpy(into.data() + copied, held.value().data(), count);
    copied += count;
  }
  return wanted;
}

Status DeliverySink::write_at(uint64_t offset, ByteView bytes) {
  if (sink_write(static_cast<double>(offset), bytes.data(), bytes.size()) != 0) {
    return Error{"The browser has no room left for the delivery; nothing was saved."};
  }
  size_ = std::max(size_, offset + bytes.size());
  return done();
}

}  // namespace proofleaf::web
