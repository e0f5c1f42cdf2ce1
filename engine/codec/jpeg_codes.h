// A JPEG scan's bits and Huffman codes, to be read or passed over (ITU-T T.81 annexes C and F.2.2).
// Internal to this folder.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "codec/block_reader.h"

namespace proofleaf {

// The codes of one table.
struct JpegCodes {
  static constexpr int kPeek = 11;      // bits looked at in one step
  static constexpr int kMostBits = 32;  // passed over in one step

  // Passing over one or more AC codes together with the bits of their values.
  struct Step {
    uint8_t bits = 0;     // in all; 0: the first code is longer than kPeek
    uint8_t code = 0;     // of these, the first code's own; 0 where bits is
    uint8_t advance = 0;  // places within the block; the end of a block counts as one
    bool ends = false;    // no more is told of this block
  };

  // counts: codes of each length 1..16, counts[0] unused; symbols: in the order of their codes.
  // None: the lengths make no code.
  static std::optional<JpegCodes> of(const uint8_t (&counts)[17], const uint8_t (&symbols)[256]);

  std::array<uint8_t, 256> symbols{};
  std::array<uint8_t, 1 << kPeek> symbol{};            // by the next bits, as the steps
  std::array<uint32_t, 17> first{}, count{}, index{};  // by length: first code, codes, its symbol
  std::vector<Step> one, several;                      // by the next bits
};

// A step for a symbol whose code has `length` bits (T.81 F.1.2.2.1: run and size).
JpegCodes::Step step_over(uint8_t symbol, int length);

// The scan's bits, from the first to the next marker; past it come zeros.
class JpegBits {
 public:
  JpegBits(BlockReader reader, uint64_t start);

  // A block's DC difference (T.81 F.2.2.1), its AC codes passed over. None: what stands there is no
  // code.
  std::optional<int> difference(const JpegCodes& dc, const JpegCodes& ac);
  // True once bits were used that are not there.
  bool ran_out() const { return now_.left < made_up_; }
  // Goes past the restart marker that should come next (T.81 E.2.4), number 0..7. No: it is not
  // there.
  bool pass_restart(int number);

 private:
  // What changes with every code, apart so that it can be kept in registers.
  struct Held {
    uint64_t bits = 0;  // the next one on top
    int left = 0;       // of them
    size_t peek() const { return static_cast<size_t>(bits >> (64 - JpegCodes::kPeek)); }
    void drop(int count) {
      bits <<= count;
      left -= count;
    }
  };

  static int code(Held& held, const JpegCodes& codes);
  bool pass_over(Held& held, const JpegCodes& codes);
  bool at_least(size_t bytes);
  void take_byte(Held& held);
  void refill(Held& held) {
    if (held.left < JpegCodes::kMostBits) held = filled(held);
  }
  Held filled(Held held);

  BlockReader reader_;
  std::vector<uint8_t> window_;
  size_t at_ = 0, end_ = 0;  // within the window
  uint64_t offset_;          // in the file, of what follows the window
  Held now_;
  int made_up_ = 0;       // the last of the bits held, which are not there
  bool stopped_ = false;  // at a marker or the file's end
};

}  // namespace proofleaf
