#include "base/sha256.h"

#include <algorithm>
#include <bit>

namespace proofleaf {
namespace {

// FIPS 180-4, 4.2.2.
constexpr std::array<uint32_t, 64> kRounds{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

constexpr size_t kLengthBytes = 8;

}  // namespace

void Sha256::take_block(const uint8_t* block) {  // 6.2.2
  std::array<uint32_t, 64> w{};
  for (size_t t = 0; t < 16; ++t) {
    for (size_t i = 0; i < 4; ++i) w[t] = w[t] << 8 | block[4 * t + i];
  }
  for (size_t t = 16; t < 64; ++t) {
    const uint32_t s0 = std::rotr(w[t - 15], 7) ^ std::rotr(w[t - 15], 18) ^ w[t - 15] >> 3;
    const uint32_t s1 = std::rotr(w[t - 2], 17) ^ std::rotr(w[t - 2], 19) ^ w[t - 2] >> 10;
    w[t] = s1 + w[t - 7] + s0 + w[t - 16];
  }
  auto [a, b, c, d, e, f, g, h] = state_;
  for (size_t t = 0; t < 64; ++t) {
    const uint32_t s1 = std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25);
    const uint32_t one = h + s1 + ((e & f) ^ (~e & g)) + kRounds[t] + w[t];
    const uint32_t s0 = std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22);
    const uint32_t two = s0 + ((a & b) ^ (a & c) ^ (b & c));
    h = g, g = f, f = e, e = d + one, d = c, c = b, b = a, a = one + two;
  }
  const std::array<uint32_t, 8> worked{a, b, c, d, e, f, g, h};
  for (size_t i = 0; i < worked.size(); ++i) state_[i] += worked[i];
}

void Sha256::add(ByteView bytes) {
  while (!bytes.empty()) {
    const size_t held = length_ % block_.size();
    const size_t count = std::min(bytes.size(), block_.size() - held);
    std::copy_n(bytes.begin(), count, block_.begin() + static_cast<std::ptrdiff_t>(held));
    length_ += count;
    if (held + count == block_.size()) take_block(block_.data());
    bytes = bytes.subspan(count);
  }
}

std::string Sha256::finish() {  // 5.1.1: a one, zeros, the length in bits
  const uint64_t bits = length_ * 8;
  const std::array<uint8_t, 1> one{0x80}, zero{0};
  add(one);
  while (length_ % block_.size() != block_.size() - kLengthBytes) add(zero);
  std::array<uint8_t, kLengthBytes> length{};
  for (size_t i = 0; i < kLengthBytes; ++i) {
    length[i] = static_cast<uint8_t>(bits >> (8 * (kLengthBytes - 1 - i)));
  }
  add(length);
  constexpr char kDigits[] = "0123456789abcdef";
  std::string digest;
  for (const uint32_t word : state_) {
    for (int shift = 28; shift >= 0; shift -= 4) digest += kDigits[word >> shift & 15];
  }
  return digest;
}

Result<std::string> sha256_of(ByteSource& source, const Watch& watch) {
  Sha256 sum;
  Bytes piece(size_t{1} << 20);
  for (uint64_t at = 0; at < source.size();) {
    if (!keep_going(watch, double(at) / double(source.size()))) return stopped();
    auto got = source.read_at(at, piece);
    if (!got) return got.error();
    if (got.value() == 0) return Error{"{} could not be read to its end.", source.name()};
    sum.add(ByteView(piece).first(got.value()));
    at += got.value();
  }
  return sum.finish();
}

}  // namespace proofleaf
