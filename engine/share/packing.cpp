#include "share/packing.h"

#include <zlib.h>

#include "base/utf8.h"

namespace proofleaf {
namespace {

constexpr int kRaw = -15;  // window bits; negative: no zlib header or trailer

uint32_t folded(int32_t value) {
  return static_cast<uint32_t>(value) << 1 ^ (value < 0 ? ~0u : 0u);
}
int32_t unfolded(uint32_t value) {
  return static_cast<int32_t>(value >> 1 ^ ((value & 1) != 0 ? ~0u : 0u));
}

z_stream stream_over(ByteView bytes) {
  z_stream stream{};
  stream.next_in = const_cast<Bytef*>(bytes.data());  // zlib's own, it only reads
  stream.avail_in = static_cast<uInt>(bytes.size());
  return stream;
}

}  // namespace

void Packer::number(uint32_t value) {
  for (; value >= 0x80; value >>= 7) bytes_.push_back(static_cast<uint8_t>(value | 0x80));
  bytes_.push_back(static_cast<uint8_t>(value));
}

void Packer::signed_number(int32_t value) { number(folded(value)); }

void Packer::fixed32(uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8)
    bytes_.push_back(static_cast<uint8_t>(value >> shift));
}

void Packer::text(std::string_view utf8) {
  number(static_cast<uint32_t>(utf8.size()));
  bytes_.insert(bytes_.end(), utf8.begin(), utf8.end());
}

uint32_t Unpacker::fail() {
  good_ = false;
  left_ = {};
  return 0;
}

uint32_t Unpacker::long_number() {
  uint64_t value = 0;
  for (int shift = 0; shift < 35 && !left_.empty(); shift += 7) {
    const uint8_t byte = left_.front();
    left_ = left_.subspan(1);
    value |= uint64_t{byte & 0x7Fu} << shift;
    if (byte < 0x80) return value > UINT32_MAX ? fail() : static_cast<uint32_t>(value);
  }
  return fail();
}

uint32_t Unpacker::number(uint32_t most) {
  const uint32_t value = long_number();
  return value > most ? fail() : value;
}

int32_t Unpacker::signed_number(int32_t most) {
  const int32_t value = unfolded(long_number());
  if (value <= most && value >= -most) return value;
  fail();
  return 0;
}

uint32_t Unpacker::fixed32() {
  const ByteView four = raw(4);
  uint32_t value = 0;
  for (size_t i = 0; i < four.size(); ++i) value |= uint32_t{four[i]} << (8 * i);
  return value;
}

std::string Unpacker::text(size_t most) {
  const ByteView bytes = raw(number(static_cast<uint32_t>(most)));
  std::string text(bytes.begin(), bytes.end());
  if (plain_text(text)) return text;
  fail();
  return {};
}

ByteView Unpacker::raw(size_t count) {
  if (count > left_.size()) {
    fail();
    return {};
  }
  const ByteView bytes = left_.first(count);
  left_ = left_.subspan(count);
  return bytes;
}

bool plain_text(std::string_view text) {
  while (!text.empty()) {
    const size_t length = utf8_length(text);
    const auto letter = static_cast<uint8_t>(text.front());
    if (length == 0 || (letter < 0x20 && letter != '\n') || letter == 0x7F) return false;
    text.remove_prefix(length);
  }
  return true;
}

uint32_t crc32_of(ByteView bytes) {
  return static_cast<uint32_t>(
      crc32(crc32(0, nullptr, 0), bytes.data(), static_cast<uInt>(bytes.size())));
}

Bytes deflated(ByteView bytes) {
  z_stream stream = stream_over(bytes);
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, kRaw, MAX_MEM_LEVEL,
                   Z_DEFAULT_STRATEGY) != Z_OK)
    return {};
  Bytes packed(deflateBound(&stream, static_cast<uLong>(bytes.size())));
  stream.next_out = packed.data();
  stream.avail_out = static_cast<uInt>(packed.size());
  deflate(&stream, Z_FINISH);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  return packed;
}

Bytes inflated(ByteView bytes, size_t most) {
  z_stream stream = stream_over(bytes);
  if (inflateInit2(&stream, kRaw) != Z_OK) return {};
  Bytes unpacked(most);
  stream.next_out = unpacked.data();
  stream.avail_out = static_cast<uInt>(unpacked.size());
  const bool whole = inflate(&stream, Z_FINISH) == Z_STREAM_END && stream.avail_in == 0;
  unpacked.resize(whole ? stream.total_out : 0);
  inflateEnd(&stream);
  return unpacked;
}

}  // namespace proofleaf
