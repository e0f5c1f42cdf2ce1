#include "codec/jpeg_markers.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <map>

namespace proofleaf {

namespace {

constexpr int kMostSegments = 4096;

class MarkerWalk {
 public:
  explicit MarkerWalk(BlockReader& reader) : reader_(reader) {}

  JpegMarkers walk() {
    walk_segments(reader_, [this](uint8_t marker, uint64_t at, size_t length) {
      if (marker >= 0xE0 && marker <= 0xE2) segment(marker, at, length);
    });
    join_profile();
    return std::move(found_);
  }

 private:
  void segment(uint8_t marker, uint64_t at, size_t length) {
    Bytes body(length);
    if (!reader_.read_all_at(at, body.data(), length)) return;
    if (marker == 0xE0) {
      density(body);
    } else if (marker == 0xE1 && found_.exif.empty() && begins(body, "Exif\0", 6)) {
      found_.exif.assign(body.begin() + 6, body.end());
    } else if (marker == 0xE2 && begins(body, "ICC_PROFILE", 12)) {
      profile_chunk(body);
    }
  }

  // Size counts the closing zero(s).
  static bool begins(const Bytes& body, const char* word, size_t size) {
    std::array<char, 16> padded{};
    std::strncpy(padded.data(), word, padded.size() - 1);
    return body.size() >= size && std::memcmp(body.data(), padded.data(), size) == 0;
  }

  // JFIF 1.02: "JFIF\0", version (2 bytes), units, X density (2), Y density (2).
  void density(const Bytes& body) {
    if (found_.ppi || body.size() < 12 || !begins(body, "JFIF", 5)) return;
    const int units = body[7];
    const int dots = body[8] << 8 | body[9];
    if (dots == 0) return;
    if (units == 1) found_.ppi = dots;
    if (units == 2) found_.ppi = dots * 2.54;
  }

  // "ICC_PROFILE\0", this chunk's number from 1, how many there are, data.
  void profile_chunk(const Bytes& body) {
    if (body.size() <= 14) return;
    const int number = body[12];
    const int of = body[13];
    if (chunks_.empty()) chunks_expected_ = of;
    const bool sound = number >= 1 && number <= of && of == chunks_expected_;
    if (!sound || profile_bytes_ + body.size() - 14 > kLargestProfile ||
        !chunks_.emplace(number, Bytes(body.begin() + 14, body.end())).second) {
      found_.icc_incomplete = true;
      return;
    }
    profile_bytes_ += body.size() - 14;
  }

  void join_profile() {
    if (chunks_.size() != static_cast<size_t>(chunks_expected_)) found_.icc_incomplete = true;
    if (found_.icc_incomplete) return;
    found_.icc.reserve(profile_bytes_);
    for (const auto& [number, data] : chunks_) {
      found_.icc.insert(found_.icc.end(), data.begin(), data.end());
    }
  }

  BlockReader& reader_;
  JpegMarkers found_;
  std::map<int, Bytes> chunks_;
  int chunks_expected_ = 0;
  size_t profile_bytes_ = 0;
};

}  // namespace

void walk_segments(BlockReader& reader, const SegmentSeen& seen) {
  uint64_t at = 2;  // after SOI
  for (int i = 0; i < kMostSegments; ++i) {
    std::array<uint8_t, 4> head{};
    if (!reader.read_all_at(at, head.data(), head.size()) || head[0] != 0xFF) return;
    const uint8_t marker = head[1];
    if (marker == 0xFF) {  // a fill byte
      ++at;
      continue;
    }
    const size_t length = static_cast<size_t>(head[2] << 8 | head[3]);
    if (marker == 0xDA || marker == 0xD9 || length < 2) return;  // SOS, EOI
    seen(marker, at + 4, length - 2);
    at += 2 + length;
  }
}

JpegMarkers read_markers(BlockReader& reader) { return MarkerWalk(reader).walk(); }

}  // namespace proofleaf
