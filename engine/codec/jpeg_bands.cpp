// JPEG print files in bands. Memory: the encoder's few rows of blocks and one coded band.
#include <array>

#include "codec/jpeg_encoder.h"
#include "codec/writers.h"

namespace proofleaf {
namespace {

constexpr size_t kLargestSegment = 65533;                   // [bytes] after the marker's length
constexpr size_t kLargestJpegProfile = 255 * (65533 - 14);  // ICC.1:2022 B.4: 255 chunks
constexpr size_t kEndOfImage = 2;                           // [bytes] the marker EOI

// Where the entropy-coded data begins: after the scan header, of T.81's marker segments the last.
// 0 when there is none.
size_t data_start(ByteView bytes) {
  constexpr uint8_t kScan = 0xDA;
  for (size_t at = 2; at + 4 <= bytes.size();) {
    const size_t length = size_t{bytes[at + 2]} << 8 | bytes[at + 3];
    if (bytes[at] != 0xFF || at + 2 + length > bytes.size()) return 0;
    if (bytes[at + 1] == kScan) return at + 2 + length;
    at += 2 + length;
  }
  return 0;
}

Error not_written() { return Error{"The JPEG file could not be written."}; }

class JpegBandEncoder final : public BandEncoder {
 public:
  explicit JpegBandEncoder(const WriteSpec& spec) : spec_(spec), encoder_(spec) {}

  Result<Bytes> encode8(std::span<const uint8_t> samples, uint32_t count) override {
    const size_t pixels = size_t{count} * spec_.width;
    if (spec_.model == ColourModel::grey) {
      samples = without_spare_lanes(spec_, samples, count, room_);
    }
    const bool lanes = spec_.model == ColourModel::rgb && samples.size() == pixels * 4;
    if (count == 0 || count > kBandRows ||
        (!lanes && samples.size() != pixels * channels_of(spec_.model))) {
      return Error{"The rows do not have the print file's width."};
    }
    const ByteView picture = encoder_.picture(samples, count);
    const size_t start = data_start(picture);
    if (start == 0) return not_written();
    const ByteView band = picture.first(picture.size() - kEndOfImage).subspan(start);
    return Bytes(band.begin(), band.end());
  }

  Result<Bytes> encode16(std::span<const uint16_t>, uint32_t) override { return no_jpeg_depth(); }

 private:
  WriteSpec spec_;
  JpegEncoder encoder_;
  std::vector<uint8_t> room_;
};

class JpegBandJoiner final : public BandJoiner {
 public:
  JpegBandJoiner(const WriteSpec& spec, ByteSink& sink)
      : bands_(bands_in(spec.height)), sink_(sink) {}

  Status begin(Bytes head) {
    const size_t start = data_start(head);
    if (start == 0) return not_written();
    return put(ByteView(head).first(start));
  }

  Status join(ByteView band) override {
    if (joined_ == bands_) return too_many_rows();
    if (joined_ > 0) {
      // T.81 table B.1: RST0 to RST7, in turn.
      const std::array<uint8_t, 2> restart{0xFF, static_cast<uint8_t>(0xD0 + (joined_ - 1) % 8)};
      if (Status written = put(restart); !written) return written;
    }
    ++joined_;
    return put(band);
  }

  Status finish() override {
    if (joined_ < bands_) return too_few_rows();
    return put(std::array<uint8_t, kEndOfImage>{0xFF, 0xD9});
  }

 private:
  Status put(ByteView bytes) {
    Status written = sink_.write_at(at_, bytes);
    at_ += bytes.size();
    return written;
  }

  uint32_t bands_, joined_ = 0;
  uint64_t at_ = 0;
  ByteSink& sink_;
};

Status check(const WriteSpec& spec) {
  if (spec.bits != 8) return no_jpeg_depth();
  if (spec.quality < 1 || spec.quality > 100) return Error{"JPEG quality goes from 1 to 100."};
  if (spec.icc.size() > kLargestJpegProfile) {
    return Error{"The profile is too large to be embedded in a JPEG."};
  }
  return done();
}

}  // namespace

Result<std::unique_ptr<BandEncoder>> open_jpeg_encoder(const WriteSpec& spec) {
  if (Status ok = check(spec); !ok) return ok.error();
  return std::unique_ptr<BandEncoder>(std::make_unique<JpegBandEncoder>(spec));
}

Result<std::unique_ptr<BandJoiner>> open_jpeg_joiner(const WriteSpec& spec, ByteSink& sink) {
  if (Status ok = check(spec); !ok) return ok.error();
  Bytes exif = {'E', 'x', 'i', 'f', 0, 0};
  const Bytes block = spec.exif.empty()
                          ? clean_exif({}, {spec.width, spec.height, spec.ppi, spec.exif_space})
                          : spec.exif;
  exif.insert(exif.end(), block.begin(), block.end());
  if (exif.size() > kLargestSegment) return Error{"The Exif block is too large for a JPEG."};
  auto joiner = std::make_unique<JpegBandJoiner>(spec, sink);
  if (Status ok = joiner->begin(JpegEncoder(spec).head(exif)); !ok) return ok.error();
  return std::unique_ptr<BandJoiner>(std::move(joiner));
}

}  // namespace proofleaf
