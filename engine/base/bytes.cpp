#include "base/bytes.h"

#include <algorithm>
#include <cstring>

namespace proofleaf {

Result<size_t> MemorySource::read_at(uint64_t offset, std::span<uint8_t> into) {
  if (offset >= bytes_.size()) return size_t{0};
  const size_t count = std::min<size_t>(into.size(), bytes_.size() - static_cast<size_t>(offset));
  if (count > 0) std::memcpy(into.data(), bytes_.data() + offset, count);
  return count;
}

Status MemorySink::write_at(uint64_t offset, ByteView bytes) {
  if (bytes.empty()) return done();
  const uint64_t end = offset + bytes.size();
  if (end > bytes_.size()) bytes_.resize(static_cast<size_t>(end));
  std::memcpy(bytes_.data() + offset, bytes.data(), bytes.size());
  return done();
}

Result<Bytes> read_all(ByteSource& source, uint64_t limit) {
  if (source.size() > limit) {
    return Error{"{} is larger than a file of this kind should be.", source.name()};
  }
  Bytes bytes(static_cast<size_t>(source.size()));
  auto got = source.read_at(0, bytes);
  if (!got) return got.error();
  if (got.value() != bytes.size()) return Error{"{} could not be read to its end.", source.name()};
  return bytes;
}

}  // namespace proofleaf
