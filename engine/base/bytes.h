// Bytes in and bytes out, without saying where they live: a file on disk, a Blob in a browser's
// worker, or memory. Readers ask for ranges, so that a master is never wholly in memory.
#pragma once

#include <cstdint>
#include <cstring>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"

namespace proofleaf {

using Bytes = std::vector<uint8_t>;
using ByteView = std::span<const uint8_t>;

// Values as they stand in memory, in this machine's byte order.
template <class T>
Bytes bytes_of(const std::vector<T>& values) {
  Bytes bytes(values.size() * sizeof(T));
  if (!bytes.empty()) std::memcpy(bytes.data(), values.data(), bytes.size());
  return bytes;
}

// A readable run of bytes of known length. Not thread safe.
class ByteSource {
 public:
  virtual ~ByteSource() = default;
  // The file's own name without folders, for messages.
  virtual const std::string& name() const = 0;
  // Length in bytes.
  virtual uint64_t size() const = 0;
  // Copies up to into.size() bytes from offset [bytes]; returns how many were copied, fewer only at
  // the end of the source (0 at or past the end). Error: the file went away or changed under us.
  virtual Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) = 0;
  // Whether all that was read is of one and the same file: who read it from end to end asks this
  // afterwards, since a system may go on reading a file that is written to or gone meanwhile.
  // Error: it changed since it was opened.
  virtual Status unchanged() { return done(); }
};

// A writable run of bytes; a writer may return to earlier offsets to fill in a header.
class ByteSink {
 public:
  virtual ~ByteSink() = default;
  virtual Status write_at(uint64_t offset, ByteView bytes) = 0;
  // Bytes written so far, counted as one past the highest.
  virtual uint64_t size() const = 0;
};

// Memory as a source; it keeps its own copy of the bytes.
class MemorySource final : public ByteSource {
 public:
  MemorySource(std::string name, Bytes bytes) : name_(std::move(name)), bytes_(std::move(bytes)) {}
  const std::string& name() const override { return name_; }
  uint64_t size() const override { return bytes_.size(); }
  Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) override;

 private:
  std::string name_;
  Bytes bytes_;
};

// Memory as a sink.
class MemorySink final : public ByteSink {
 public:
  Status write_at(uint64_t offset, ByteView bytes) override;
  uint64_t size() const override { return bytes_.size(); }
  const Bytes& bytes() const { return bytes_; }
  Bytes take() { return std::move(bytes_); }

 private:
  Bytes bytes_;
};

// Reads a whole source, refusing one longer than limit [bytes] with a sentence.
Result<Bytes> read_all(ByteSource& source, uint64_t limit);

}  // namespace proofleaf
