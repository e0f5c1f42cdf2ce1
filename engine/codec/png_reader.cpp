#include <zlib.h>

#include <algorithm>
#include <array>
#include <cstring>

#include "codec/containers.h"
#include "codec/png_decoder.h"
#include "codec/samples.h"
#include "raster/orient.h"

namespace proofleaf {

namespace {

SampleLayout layout_of(const PngDecoder& decoder) {
  SampleLayout layout;
  layout.colours = decoder.samples() >= 3 ? 3 : 1;
  layout.alpha = decoder.samples() > layout.colours;
  return layout;
}

// Rows as they lie in the file. Going back starts the picture again from its top (an interlaced one
// is held whole and goes back for nothing).
class PngRows final : public RowSource {
 public:
  explicit PngRows(std::shared_ptr<ByteSource> source) : source_(std::move(source)) {}

  // Must say yes before anything else is asked.
  Status start() {
    decoder_ = std::make_unique<PngDecoder>(source_);
    if (Status got = decoder_->open(); !got) {
      decoder_.reset();
      return got;
    }
    layout_ = layout_of(*decoder_);
    format_ = {decoder_->width(), decoder_->height(), layout_.colours};
    row_.resize(decoder_->row_bytes());
    wide_.resize(size_t{format_.width} * layout_.samples());
    return done();
  }

  RowFormat format() const override { return format_; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    if (!decoder_ || !decoder_->can_go_to(first)) {
      if (Status got = start(); !got) return got;
    }
    while (decoder_->next_row() < first + count) {
      const uint32_t row = decoder_->next_row();
      if (Status got = decoder_->read_row(row_.data()); !got) {
        decoder_.reset();
        return got;
      }
      if (row >= first) convert(into.data() + (row - first) * format_.row_samples());
    }
    return done();
  }

 private:
  void convert(uint16_t* out) {
    if (decoder_->bits() == 16) {
      std::memcpy(wide_.data(), row_.data(), row_.size());
    } else {
      widen(row_.data(), wide_.data(), wide_.size());
    }
    lay_on_white(wide_.data(), out, format_.width, layout_);
  }

  std::shared_ptr<ByteSource> source_;
  std::unique_ptr<PngDecoder> decoder_;
  SampleLayout layout_;
  RowFormat format_;
  std::vector<uint8_t> row_;
  std::vector<uint16_t> wide_;
};

class PngMaster final : public Master {
 public:
  PngMaster(std::shared_ptr<ByteSource> source, MasterInfo info)
      : source_(std::move(source)), info_(std::move(info)) {}

  const MasterInfo& info() const override { return info_; }

  Result<std::unique_ptr<RowSource>> open_rows(uint32_t) override {
    auto rows = std::make_unique<PngRows>(source_);
    if (Status got = rows->start(); !got) return got.error();
    return orient_rows(std::move(rows), info_.orientation);
  }

 private:
  std::shared_ptr<ByteSource> source_;
  MasterInfo info_;
};

// An eXIf chunk may also follow the picture. It is looked for in the file's last bytes, and
// believed only if its checksum is right, so that the picture's data need not be walked through for
// it.
Bytes trailing_exif(BlockReader& reader) {
  const uint64_t length = std::min<uint64_t>(reader.size(), kReadBlock);
  Bytes tail(static_cast<size_t>(length));
  if (!reader.read_all_at(reader.size() - length, tail.data(), tail.size())) return {};
  static constexpr std::array<uint8_t, 4> kName = {'e', 'X', 'I', 'f'};
  auto at = tail.begin();
  while ((at = std::search(at, tail.end(), kName.begin(), kName.end())) != tail.end()) {
    const auto before = static_cast<size_t>(at - tail.begin());
    const auto after = static_cast<size_t>(tail.end() - at);
    if (before >= 4 && after >= 8) {
      const uint8_t* name = tail.data() + before;
      const size_t size = png_get_uint_32(name - 4);
      if (size <= after - 8 &&
          crc32(0, name, static_cast<uInt>(size + 4)) == png_get_uint_32(name + 4 + size)) {
        return Bytes(name + 4, name + 4 + size);
      }
    }
    ++at;
  }
  return {};
}

void note_colour(PngDecoder& decoder, MasterInfo& info) {
  info.icc = decoder.profile();
  if (!info.icc.empty()) return;
  if (decoder.profile_refused()) {
    info.notes.push_back(said("Its embedded colour profile is damaged and was left aside."));
  }
  if (decoder.says_srgb()) {
    info.exif_space = ExifColourSpace::srgb;
    info.notes.push_back(said("It has no profile, but says that its colours are sRGB."));
  } else if (decoder.says_gamma_or_primaries()) {
    info.notes.push_back(
        said("It has no profile; the gamma or primaries that it states instead are not used."));
  }
}

}  // namespace

Result<std::unique_ptr<Master>> open_png(std::shared_ptr<ByteSource> source) {
  PngDecoder decoder(source);
  if (Status got = decoder.open(); !got) return got.error();
  MasterInfo info;
  info.container = Container::png;
  info.width = decoder.width();
  info.height = decoder.height();
  info.bits = decoder.bits();
  const SampleLayout layout = layout_of(decoder);
  info.model = layout.colours == 1 ? ColourModel::grey : ColourModel::rgb;
  info.had_alpha = layout.alpha;
  if (info.had_alpha) info.notes.push_back(said("Its transparency was laid on white."));
  info.ppi = decoder.ppi();
  info.exif = decoder.exif();
  if (info.exif.empty()) {
    BlockReader reader(source);
    info.exif = trailing_exif(reader);
  }
  take_exif(read_exif(info.exif), info);
  note_colour(decoder, info);
  stand_upright(info);
  return std::unique_ptr<Master>(std::make_unique<PngMaster>(std::move(source), std::move(info)));
}

}  // namespace proofleaf
