// A browser's Blob as a source of bytes, and the delivery being written as a sink; for workers.
#pragma once

#include <array>
#include <string>

#include "base/bytes.h"

namespace proofleaf::web {

// Reads by position through a few blocks of 1 MiB, since each request to the browser costs some
// milliseconds whatever its length. Who reads on from one to the next gets longer and longer
// stretches at once: 46 MB take 0.15 s by the mebibyte and half of that by eight.
class BlobSource final : public ByteSource {
 public:
  // file: the worker's number for the Blob. size: its length [bytes].
  BlobSource(std::string name, int file, uint64_t size);
  const std::string& name() const override { return name_; }
  uint64_t size() const override { return size_; }
  Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) override;
  Status unchanged() override;

 private:
  struct Block {
    uint64_t index = UINT64_MAX;  // which mebibyte of the file
    uint64_t used = 0;            // when it was last asked for
    Bytes bytes;
  };
  Error gone() const;
  Result<size_t> fetch_some(uint64_t offset, std::span<uint8_t> into);
  Status fetch(uint64_t offset, std::span<uint8_t> into);
  Result<const Block*> block(uint64_t index);
  Result<ByteView> held_from(uint64_t offset);

  std::string name_;
  int file_;
  uint64_t size_;
  uint64_t clock_ = 0;
  std::array<Block, 8> blocks_;
  Bytes stretch_;              // read on into
  uint64_t stretch_from_ = 0;  // where it lies
  uint64_t fetched_to_ = 0;    // the end of what was fetched last
};

// Hands what is written to the worker's JavaScript, outside the module's own memory.
class DeliverySink final : public ByteSink {
 public:
  Status write_at(uint64_t offset, ByteView bytes) override;
  uint64_t size() const override { return size_; }

 private:
  uint64_t size_ = 0;
};

}  // namespace proofleaf::web
