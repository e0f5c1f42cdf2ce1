#include "codec/jpeg_codes.h"

#include <algorithm>
#include <bit>
#include <cstring>

namespace proofleaf {
namespace {

constexpr size_t kWindow = size_t{256} << 10;
constexpr int kBlock = 64;
constexpr int kLongestCode = 16;

// Joins steps as long as their codes lie within the bits looked at.
JpegCodes::Step join(const std::vector<JpegCodes::Step>& one, uint32_t bits) {
  constexpr uint32_t kMask = (1 << JpegCodes::kPeek) - 1;
  JpegCodes::Step all = one[bits];
  while (all.bits != 0 && all.bits < JpegCodes::kPeek && !all.ends) {
    // Zeros come in from below; a code that reaches into them is not known.
    const JpegCodes::Step next = one[bits << all.bits & kMask];
    if (next.bits == 0 || next.code > JpegCodes::kPeek - all.bits) break;
    if (all.bits + next.bits > JpegCodes::kMostBits || all.advance + next.advance > kBlock) break;
    all = {static_cast<uint8_t>(all.bits + next.bits), all.code,
           static_cast<uint8_t>(all.advance + next.advance), next.ends};
  }
  return all;
}

uint64_t eight_bytes(const uint8_t* from) {
  uint64_t word = 0;
  std::memcpy(&word, from, sizeof word);
  return std::endian::native == std::endian::little ? __builtin_bswap64(word) : word;
}

// Whether one of eight bytes is 0xFF: of its complement, one is 0 (the well-known borrow trick).
bool holds_ff(uint64_t word) {
  constexpr uint64_t kOnes = 0x0101010101010101, kTops = 0x8080808080808080;
  return ((~word - kOnes) & word & kTops) != 0;
}

}  // namespace

JpegCodes::Step step_over(uint8_t symbol, int length) {
  const int size = symbol & 15, run = symbol >> 4;
  const bool ends = size == 0 && run != 15;
  return {static_cast<uint8_t>(length + size), static_cast<uint8_t>(length),
          static_cast<uint8_t>(ends ? 1 : run + 1), ends};
}

std::optional<JpegCodes> JpegCodes::of(const uint8_t (&counts)[17], const uint8_t (&symbols)[256]) {
  JpegCodes codes;
  std::copy(std::begin(symbols), std::end(symbols), codes.symbols.begin());
  codes.one.resize(size_t{1} << kPeek);
  codes.several.resize(codes.one.size());
  uint32_t code = 0, index = 0;
  for (int length = 1; length <= kLongestCode; ++length, code <<= 1) {
    const size_t at = static_cast<size_t>(length);
    codes.first[at] = code;
    codes.count[at] = counts[length];
    codes.index[at] = index;
    // A code of ones alone is kept free (T.81 C.2).
    if (code + counts[length] >= uint32_t{1} << length) return std::nullopt;
    if (index + counts[length] > codes.symbols.size()) return std::nullopt;
    for (int i = 0; i < counts[length]; ++i, ++code, ++index) {
      if (length > kPeek) continue;
      const size_t begin = size_t{code} << (kPeek - length), span = size_t{1} << (kPeek - length);
      std::fill_n(codes.symbol.begin() + begin, span, symbols[index]);
      std::fill_n(codes.one.begin() + begin, span, step_over(symbols[index], length));
    }
  }
  for (uint32_t bits = 0; bits < codes.one.size(); ++bits) {
    codes.several[bits] = join(codes.one, bits);
  }
  return codes;
}

JpegBits::JpegBits(BlockReader reader, uint64_t start)
    : reader_(std::move(reader)), window_(kWindow), offset_(start) {}

// Whether so many bytes follow in the window; brings more of the file into it if they do not.
bool JpegBits::at_least(size_t bytes) {
  if (end_ - at_ >= bytes) return true;
  std::copy(window_.begin() + static_cast<ptrdiff_t>(at_),
            window_.begin() + static_cast<ptrdiff_t>(end_), window_.begin());
  end_ -= at_;
  at_ = 0;
  const size_t got = reader_.read_at(offset_, window_.data() + end_, window_.size() - end_);
  offset_ += got;
  end_ += got;
  return end_ >= bytes;
}

// One byte of the scan: 0xFF is told as 0xFF00, and is a marker's first with anything else after
// it.
void JpegBits::take_byte(Held& held) {
  uint64_t byte = 0;
  if (!stopped_ && !at_least(1)) stopped_ = true;
  if (!stopped_) {
    byte = window_[at_];
    if (byte == 0xFF && !(at_least(2) && window_[at_ + 1] == 0)) {
      stopped_ = true;
      byte = 0;
    } else {
      at_ += byte == 0xFF ? 2 : 1;
    }
  }
  if (stopped_) made_up_ += 8;
  held.bits |= byte << (56 - held.left);
  held.left += 8;
}

// With 56 bits or more.
JpegBits::Held JpegBits::filled(Held held) {
  if (end_ - at_ >= 8 && !stopped_) {
    const uint64_t word = eight_bytes(&window_[at_]);
    if (!holds_ff(word)) {
      // Of the last byte a part may come in, too; it is laid over itself the next time.
      held.bits |= word >> held.left;
      at_ += static_cast<size_t>(63 - held.left) >> 3;
      held.left |= 56;
      return held;
    }
  }
  while (held.left <= 56) take_byte(held);
  return held;
}

int JpegBits::code(Held& held, const JpegCodes& codes) {
  const size_t next = held.peek();
  if (const int length = codes.one[next].code; length != 0) {
    held.drop(length);
    return codes.symbol[next];
  }
  for (int length = JpegCodes::kPeek + 1; length <= kLongestCode; ++length) {
    const size_t at = static_cast<size_t>(length);
    const uint32_t place = static_cast<uint32_t>(held.bits >> (64 - length)) - codes.first[at];
    if (place >= codes.count[at]) continue;
    held.drop(length);
    return codes.symbols[codes.index[at] + place];
  }
  return -1;
}

inline bool JpegBits::pass_over(Held& held, const JpegCodes& codes) {
  for (int place = 1; place < kBlock;) {
    refill(held);
    const size_t next = held.peek();
    JpegCodes::Step step = codes.several[next];
    if (place + step.advance > kBlock) step = codes.one[next];
    if (step.bits == 0) {
      const int symbol = code(held, codes);
      if (symbol < 0) return false;
      step = step_over(static_cast<uint8_t>(symbol), 0);
    }
    held.drop(step.bits);
    if (step.ends) return true;
    place += step.advance;
  }
  return true;
}

std::optional<int> JpegBits::difference(const JpegCodes& dc, const JpegCodes& ac) {
  Held held = now_;
  refill(held);
  const int size = code(held, dc);
  if (size < 0 || size > 15) return std::nullopt;
  const int value = static_cast<int>(held.bits >> 1 >> (63 - size));
  held.drop(size);
  if (!pass_over(held, ac)) return std::nullopt;
  now_ = held;
  const int half = 1 << size >> 1;
  return value < half ? value + 1 - (1 << size) : value;  // T.81 F.2.2.1, EXTEND
}

bool JpegBits::pass_restart(int number) {
  now_ = filled(now_);
  if (!stopped_ || ran_out() || now_.left - made_up_ >= 8) return false;
  while (at_least(2) && window_[at_ + 1] == 0xFF) ++at_;  // fill bytes, T.81 B.1.1.2
  if (!at_least(2) || window_[at_] != 0xFF || window_[at_ + 1] != 0xD0 + number) return false;
  at_ += 2;
  now_ = {};
  made_up_ = 0;
  stopped_ = false;
  return true;
}

}  // namespace proofleaf
