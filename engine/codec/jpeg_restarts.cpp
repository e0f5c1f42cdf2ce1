#include "codec/jpeg_restarts.h"

#include <algorithm>
#include <cstring>

#include "codec/jpeg_markers.h"

namespace proofleaf {
namespace {

constexpr size_t kWindow = size_t{1} << 20;  // [bytes]
constexpr int kNumbers = 8;                  // restart markers are counted 0..7 and round again
constexpr uint8_t kMarker = 0xFF, kFirstRestart = 0xD0, kEnd = 0xD9;
constexpr uint8_t kBaseline = 0xC0, kExtended = 0xC1;  // frames with Huffman codes, sequential

// A file whose picture begins behind one of its restart markers. The markers that follow are
// counted from 0 again, and the frame is as much lower.
class PartOfJpeg final : public ByteSource {
 public:
  PartOfJpeg(std::shared_ptr<ByteSource> whole, uint64_t start, std::vector<uint64_t> places)
      : whole_(std::move(whole)), start_(start), places_(std::move(places)) {}

  void set_height(uint64_t at, uint32_t height) {
    height_at_ = at;
    height_ = height;
  }
  const std::string& name() const override { return whole_->name(); }
  uint64_t size() const override { return whole_->size() - passed(); }
  Status unchanged() override { return whole_->unchanged(); }

  Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) override {
    const uint64_t left = offset < start_ ? start_ - offset : 0;
    const size_t count = static_cast<size_t>(std::min<uint64_t>(into.size(), left));
    auto head = read_header(offset, into.first(count));
    if (!head || head.value() < count || count == into.size()) return head;
    auto data = read_data(offset + count + passed(), into.subspan(count));
    if (!data) return data;
    return count + data.value();
  }

 private:
  Result<size_t> read_header(uint64_t offset, std::span<uint8_t> into) {
    if (into.empty()) return size_t{0};
    auto got = whole_->read_at(offset, into);
    put(offset, into, height_at_, static_cast<uint8_t>(height_ >> 8));
    put(offset, into, height_at_ + 1, static_cast<uint8_t>(height_));
    return got;
  }

  // from: in the whole file.
  Result<size_t> read_data(uint64_t from, std::span<uint8_t> into) {
    auto got = whole_->read_at(from, into);
    if (!got) return got;
    for (auto at = std::lower_bound(places_.begin() + 1, places_.end(), from - 1);
         at != places_.end() && *at + 1 < from + got.value(); ++at) {
      const auto number = (at - places_.begin() - 1) % kNumbers;
      put(from, into, *at + 1, static_cast<uint8_t>(kFirstRestart + number));
    }
    return got;
  }

  // Bytes of the whole file between the header and the part.
  uint64_t passed() const { return places_.front() + 2 - start_; }

  static void put(uint64_t from, std::span<uint8_t> bytes, uint64_t at, uint8_t value) {
    if (at >= from && at - from < bytes.size()) bytes[static_cast<size_t>(at - from)] = value;
  }

  std::shared_ptr<ByteSource> whole_;
  uint64_t start_;
  std::vector<uint64_t> places_;  // of the marker it begins behind, and of those that follow
  uint64_t height_at_ = 0;
  uint32_t height_ = 0;
};

// Where the one frame's height stands: after the precision (T.81 B.2.2).
uint64_t height_place(BlockReader& reader) {
  uint64_t place = 0;
  walk_segments(reader, [&](uint8_t marker, uint64_t at, size_t) {
    if (marker == kBaseline || marker == kExtended) place = at + 1;
  });
  return place;
}

}  // namespace

std::optional<JpegRestarts> JpegRestarts::of(BlockReader reader,
                                             const jpeg_decompress_struct& cinfo, uint64_t start) {
  if (!in_one_huffman_scan(cinfo) || cinfo.restart_interval == 0) return std::nullopt;
  // Of a single component each block counts by itself, however it is sampled (T.81 A.2.2).
  const bool single = cinfo.num_components == 1;
  const auto across = static_cast<uint32_t>(single ? 1 : cinfo.max_h_samp_factor) * DCTSIZE;
  const auto down = static_cast<uint32_t>(single ? 1 : cinfo.max_v_samp_factor) * DCTSIZE;
  const uint32_t in_row = (cinfo.image_width + across - 1) / across;
  if (cinfo.restart_interval % in_row != 0) return std::nullopt;
  JpegRestarts found;
  found.start_ = start;
  found.height_ = cinfo.image_height;
  found.block_rows_ = down;
  found.rows_apart_ = cinfo.restart_interval / in_row * down;
  found.height_at_ = height_place(reader);
  const uint32_t stretches = (found.height_ + found.rows_apart_ - 1) / found.rows_apart_;
  if (found.height_at_ == 0 || stretches < 2) return std::nullopt;
  if (!found.find(std::move(reader), stretches - 1)) return std::nullopt;
  return found;
}

// A byte of 0xFF within coded data is told as 0xFF00; anything else after it makes a marker.
bool JpegRestarts::find(BlockReader reader, size_t expected) {
  std::vector<uint8_t> window(kWindow);
  uint64_t offset = start_;
  size_t held = 0;  // bytes kept from the window before: a 0xFF whose partner was not there yet
  for (;;) {
    const size_t got = reader.read_at(offset + held, window.data() + held, kWindow - held);
    if (got == 0) return false;  // ends too soon
    const size_t count = held + got;
    size_t at = 0;
    held = 0;
    while (at < count) {
      const void* next = std::memchr(window.data() + at, kMarker, count - at);
      if (next == nullptr) break;
      at = static_cast<size_t>(static_cast<const uint8_t*>(next) - window.data());
      if (at + 1 == count) {
        held = 1;
        break;
      }
      const uint8_t kind = window[at + 1];
      if (kind == kEnd) return places_.size() == expected;
      if (kind == kFirstRestart + places_.size() % kNumbers) {
        if (places_.size() == expected) return false;
        places_.push_back(offset + at);
      } else if (kind != 0 && kind != kMarker) {
        return false;
      }
      at += kind == kMarker ? 1 : 2;  // one more 0xFF is a fill byte
    }
    offset += count - held;
    if (held != 0) window[0] = kMarker;
  }
}

std::optional<JpegRestarts::Part> JpegRestarts::part_above(
    uint32_t row, const std::shared_ptr<ByteSource>& source) const {
  if (row < block_rows_ || row >= height_) return std::nullopt;
  const uint32_t stretch = (row - block_rows_) / rows_apart_;
  if (stretch == 0) return std::nullopt;
  const uint32_t first = stretch * rows_apart_;
  auto file = std::make_shared<PartOfJpeg>(
      source, start_,
      std::vector<uint64_t>(places_.begin() + static_cast<ptrdiff_t>(stretch) - 1, places_.end()));
  file->set_height(height_at_, height_ - first);
  return Part{std::move(file), first};
}

}  // namespace proofleaf
