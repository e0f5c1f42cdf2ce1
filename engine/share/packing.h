// Numbers and texts to bytes and back, for what people pass on: every length is checked, nothing
// read is trusted. Numbers are little endian or of variable length, seven bits a byte.
#pragma once

#include <string>
#include <string_view>

#include "base/bytes.h"

namespace proofleaf {

class Packer {
 public:
  void number(uint32_t value);        // 1..5 bytes
  void signed_number(int32_t value);  // small either way of zero is short
  void fixed32(uint32_t value);
  void text(std::string_view utf8);  // its length first
  void byte(uint8_t value) { bytes_.push_back(value); }
  void raw(ByteView bytes) { bytes_.insert(bytes_.end(), bytes.begin(), bytes.end()); }
  const Bytes& bytes() const { return bytes_; }

 private:
  Bytes bytes_;
};

// Reads what a Packer wrote. Past an end, a limit or a fault everything is 0 or empty, and good()
// is false from then on.
class Unpacker {
 public:
  explicit Unpacker(ByteView bytes) : left_(bytes) {}
  uint32_t number(uint32_t most);       // fault: above `most`
  int32_t signed_number(int32_t most);  // fault: beyond `most` either way
  uint32_t fixed32();
  std::string text(size_t most);  // [bytes]; fault: no plain_text()
  ByteView raw(size_t count);
  ByteView rest() { return raw(left_.size()); }
  bool good() const { return good_; }
  void spoil() { fail(); }  // what was read makes no sense
  bool at_end() const { return left_.empty(); }

 private:
  uint32_t fail();
  uint32_t long_number();

  ByteView left_;
  bool good_ = true;
};

// Well-formed UTF-8 (RFC 3629) without control characters but the new line.
bool plain_text(std::string_view text);

// CRC-32 of ISO/IEC 3309, as zlib has it.
uint32_t crc32_of(ByteView bytes);

// Raw deflate (RFC 1951) at its strongest. Unpacking: empty where the bytes are damaged or unpack
// to more than `most` bytes.
Bytes deflated(ByteView bytes);
Bytes inflated(ByteView bytes, size_t most);

}  // namespace proofleaf
