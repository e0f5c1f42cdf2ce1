// SHA-256 by FIPS 180-4, to tell whether two files are the same.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "base/bytes.h"
#include "base/watch.h"

namespace proofleaf {

// Takes a message piece by piece.
class Sha256 {
 public:
  void add(ByteView bytes);
  // Closes the message; the object is then used up. 64 hexadecimal digits, small letters.
  std::string finish();

 private:
  void take_block(const uint8_t* block);

  std::array<uint32_t, 8> state_{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};  // 5.3.3
  std::array<uint8_t, 64> block_{};
  uint64_t length_ = 0;  // [bytes] so far
};

// Of a whole source, read a megabyte at a time. Error: it ended too soon or went away, or stopped.
Result<std::string> sha256_of(ByteSource& source, const Watch& watch);

}  // namespace proofleaf
