// TIFF masters. Memory: 256 KiB of file and a few rows for each plane; with tiles one row of tiles,
// up to 256 MiB in all.
#include <algorithm>
#include <cstring>

#include "codec/containers.h"
#include "codec/tiff_plane.h"
#include "raster/orient.h"

namespace proofleaf {

namespace {

// A colour map's 16-bit entries, red, green and blue for each of 256 numbers.
std::vector<uint16_t> read_palette(TiffInput& input) {
  uint16_t *red = nullptr, *green = nullptr, *blue = nullptr;
  if (!TIFFGetField(input.tiff(), TIFFTAG_COLORMAP, &red, &green, &blue)) return {};
  std::vector<uint16_t> palette;
  for (size_t i = 0; i < 256; ++i) palette.insert(palette.end(), {red[i], green[i], blue[i]});
  // Some old programs wrote 0..255 here (common practice, no source).
  if (std::all_of(palette.begin(), palette.end(), [](uint16_t v) { return v < 256; })) {
    for (uint16_t& v : palette) v = static_cast<uint16_t>(v * 257);
  }
  return palette;
}

// Rows as they lie in the file, by position.
class TiffRows final : public RowSource {
 public:
  explicit TiffRows(const TiffLayout& layout)
      : layout_(layout), wide_(size_t{layout.width} * layout.out.samples()) {}

  Status start(const std::shared_ptr<ByteSource>& source) {
    for (uint32_t i = 0; i < layout_.planes(); ++i) {
      auto input = TiffInput::open(source);
      if (!input) return input.error();
      if (layout_.palette && palette_.empty()) {
        palette_ = read_palette(*input.value());
        if (palette_.empty()) return Error{"{} has lost its colour table.", source->name()};
      }
      const uint32_t plane = layout_.separate ? layout_.sample_of(i) : 0;
      planes_.emplace_back(input.take(), layout_, static_cast<uint16_t>(plane));
    }
    return done();
  }

  RowFormat format() const override {
    return {layout_.width, layout_.height, layout_.palette ? 3 : layout_.out.colours};
  }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    const size_t row = format().row_samples();
    for (uint32_t y = 0; y < count; ++y) {
      if (Status got = read_row(first + y, into.data() + y * row); !got) return got;
    }
    if (layout_.min_is_white) invert(into.data(), count * row);
    return done();
  }

 private:
  Status read_row(uint32_t y, uint16_t* out) {
    for (uint32_t i = 0; i < planes_.size(); ++i) {
      auto bytes = planes_[i].row(y);
      if (!bytes) return bytes.error();
      if (layout_.separate) {
        gather(bytes.value(), 0, i);
      } else if (layout_.palette) {
        look_up(bytes.value(), out);
        return done();
      } else {
        for (uint32_t s = 0; s < layout_.out.samples(); ++s) {
          gather(bytes.value(), layout_.sample_of(s), s);
        }
      }
    }
    lay_on_white(wide_.data(), out, layout_.width, layout_.out);
    return done();
  }

  // Copies one sample of every pixel of a row to place `to` of the pixels in wide_.
  void gather(ByteView row, uint32_t sample, uint32_t to) {
    const size_t step = layout_.plane_samples();
    const size_t out_step = layout_.out.samples();
    uint16_t* out = wide_.data() + to;
    if (layout_.bits == 8) {
      const uint8_t* from = row.data() + sample;
      for (size_t x = 0; x < layout_.width; ++x) {
        out[x * out_step] = static_cast<uint16_t>(from[x * step] * 257);
      }
    } else {
      const uint8_t* from = row.data() + size_t{sample} * 2;
      for (size_t x = 0; x < layout_.width; ++x) {
        std::memcpy(out + x * out_step, from + x * step * 2, 2);
      }
    }
  }

  void look_up(ByteView row, uint16_t* out) const {
    for (size_t x = 0; x < layout_.width; ++x) {
      std::copy_n(palette_.data() + size_t{3} * row[x * layout_.plane_samples()], 3, out + x * 3);
    }
  }

  TiffLayout layout_;
  std::vector<TiffPlane> planes_;
  std::vector<uint16_t> wide_;
  std::vector<uint16_t> palette_;
};

class TiffMaster final : public Master {
 public:
  TiffMaster(std::shared_ptr<ByteSource> source, const TiffLayout& layout, MasterInfo info)
      : source_(std::move(source)), layout_(layout), info_(std::move(info)) {}

  const MasterInfo& info() const override { return info_; }

  Result<std::unique_ptr<RowSource>> open_rows(uint32_t) override {
    auto rows = std::make_unique<TiffRows>(layout_);
    if (Status got = rows->start(source_); !got) return got.error();
    return orient_rows(std::move(rows), info_.orientation);
  }

 private:
  std::shared_ptr<ByteSource> source_;
  TiffLayout layout_;
  MasterInfo info_;
};

ColourModel model_of(const TiffLayout& layout) {
  if (layout.out.colours == 4) return ColourModel::cmyk;
  return layout.out.colours == 3 || layout.palette ? ColourModel::rgb : ColourModel::grey;
}

void add_notes(TiffInput& input, const TiffLayout& layout, MasterInfo& info) {
  if (layout.out.alpha) info.notes.push_back(said("Its transparency was laid on white."));
  if (layout.extra_ignored == 1) {
    info.notes.push_back(said("It has an extra channel, which is left out."));
  } else if (layout.extra_ignored > 1) {
    info.notes.push_back(
        said("It has {} extra channels, which are left out.", layout.extra_ignored));
  }
  if (!TIFFLastDirectory(input.tiff())) {
    info.notes.push_back(said("It holds more than one picture; the first is used."));
  }
}

Bytes read_profile(TiffInput& input, MasterInfo& info) {
  uint32_t size = 0;
  uint8_t* data = nullptr;
  if (!TIFFGetField(input.tiff(), TIFFTAG_ICCPROFILE, &size, &data) || !data) return {};
  if (size <= kLargestProfile) return Bytes(data, data + size);
  info.notes.push_back(said("Its embedded colour profile is too large and was left aside."));
  return {};
}

}  // namespace

Result<std::unique_ptr<Master>> open_tiff(std::shared_ptr<ByteSource> source) {
  auto input = TiffInput::open(source);
  if (!input) return input.error();
  auto layout = read_layout(*input.value());
  if (!layout) return layout.error();
  MasterInfo info;
  info.container = Container::tiff;
  info.model = model_of(layout.value());
  info.width = layout.value().width;
  info.height = layout.value().height;
  info.bits = layout.value().bits;
  info.had_alpha = layout.value().out.alpha;
  info.icc = read_profile(*input.value(), info);
  const ExifTree tree = describing_part(read_exif(source));
  take_exif(tree, info);
  info.exif = write_exif(tree);
  add_notes(*input.value(), layout.value(), info);
  stand_upright(info);
  return std::unique_ptr<Master>(
      std::make_unique<TiffMaster>(std::move(source), layout.value(), std::move(info)));
}

}  // namespace proofleaf
