// Reads by position through one buffered block, so that a library's many small reads become a few
// large ones. Made for C callbacks: no errors as values, but a short count and a kept message.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/bytes.h"
#include "codec/limits.h"

namespace proofleaf {

class BlockReader {
 public:
  explicit BlockReader(std::shared_ptr<ByteSource> source) : source_(std::move(source)) {}

  // Copies up to count bytes from offset; returns how many. Fewer: the end, or a failure().
  size_t read_at(uint64_t offset, uint8_t* into, size_t count);
  // True if all count bytes were there.
  bool read_all_at(uint64_t offset, uint8_t* into, size_t count) {
    return read_at(offset, into, count) == count;
  }
  uint64_t size() const { return source_->size(); }
  const std::string& name() const { return source_->name(); }
  // The source's own error message, empty while all is well.
  const std::string& failure() const { return failure_; }

 private:
  size_t fetch(uint64_t offset, std::span<uint8_t> into);

  std::shared_ptr<ByteSource> source_;
  std::vector<uint8_t> block_;
  uint64_t block_offset_ = 0;
  std::string failure_;
};

}  // namespace proofleaf
