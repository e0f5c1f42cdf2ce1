#include "blob.h"

#include <algorithm>
#include <cstring>

#include "imports.h"

namespace proofleaf::web {

namespace {
constexpr uint64_t kBlock = 1 << 20;
}

BlobSource::BlobSource(std::string name, int file, uint64_t size)
    : name_(std::move(name)), file_(file), size_(size) {}

Status BlobSource::fetch(uint64_t offset, std::span<uint8_t> into) {
  const int got = blob_read(file_, static_cast<double>(offset), into.data(), into.size());
  if (got < 0 || static_cast<size_t>(got) != into.size()) {
    return Error{name_ +
                 " can no longer be read: it was moved or changed. Please choose it again."};
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
  return oldest;
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
    const uint64_t at = offset + copied;
    auto held = block(at / kBlock);
    if (!held) return held.error();
    const Bytes& bytes = held.value()->bytes;
    const size_t from = static_cast<size_t>(at % kBlock);
    const size_t count = std::min(wanted - copied, bytes.size() - from);
    std::memcpy(into.data() + copied, bytes.data() + from, count);
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
