#include "codec/block_reader.h"

#include <algorithm>
#include <cstring>

namespace proofleaf {

size_t BlockReader::fetch(uint64_t offset, std::span<uint8_t> into) {
  auto got = source_->read_at(offset, into);
  if (!got) {
    failure_ = got.error().message;
    return 0;
  }
  return std::min(got.value(), into.size());
}

size_t BlockReader::read_at(uint64_t offset, uint8_t* into, size_t count) {
  size_t done = 0;
  while (done < count && offset < size()) {
    const bool inside = offset >= block_offset_ && offset - block_offset_ < block_.size();
    if (inside) {
      const size_t at = static_cast<size_t>(offset - block_offset_);
      const size_t take = std::min(count - done, block_.size() - at);
      std::memcpy(into + done, block_.data() + at, take);
      done += take;
      offset += take;
    } else if (count - done >= kReadBlock) {
      return done + fetch(offset, {into + done, count - done});
    } else {
      block_.resize(kReadBlock);
      block_offset_ = offset;
      block_.resize(fetch(offset, block_));
      if (block_.empty()) break;
    }
  }
  return done;
}

}  // namespace proofleaf
