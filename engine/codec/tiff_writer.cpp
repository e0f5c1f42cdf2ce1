// TIFF print files: Deflate with horizontal differencing (TIFF 6.0 section 14), in strips of about
// 512 KiB. Memory: one strip and its compressed bytes.
#include <algorithm>
#include <bit>
#include <cstring>

#include "codec/exif.h"
#include "codec/limits.h"
#include "codec/tiff_handle.h"
#include "codec/writers.h"

namespace proofleaf {

namespace {

constexpr size_t kStrip = 512 << 10;
// Above this much picture the file could pass 4 GiB, the end of classic TIFF, even though Deflate
// makes noise a little longer.
constexpr uint64_t kClassicMost = uint64_t{4000} << 20;
// Measured on 14 megapixels of 16-bit RGB with noise: level 3 takes three times as long as level 1
// and saves 2.6 per cent.
constexpr int kDeflateLevel = 1;

class TiffWriter final : public ImageWriter {
 public:
  TiffWriter(const WriteSpec& spec, std::unique_ptr<TiffOutput> output)
      : spec_(spec), output_(std::move(output)) {
    row_bytes_ = size_t{spec.width} * channels_of(spec.model) * (spec.bits / 8);
    strip_rows_ = static_cast<uint32_t>(std::clamp<size_t>(kStrip / row_bytes_, 1, spec.height));
    strip_.reserve(row_bytes_ * strip_rows_);
  }

  Status describe(bool big, ByteSink& sink) {
    TIFF* tiff = output_->tiff();
    bool ok = set_layout(tiff);
    const ExifTree tree =
        read_exif(spec_.exif.empty()
                      ? clean_exif({}, {spec_.width, spec_.height, spec_.ppi, spec_.exif_space})
                      : spec_.exif);
    ok = ok && set_texts(tiff, tree.image);
    if (!ok) return output_->explain();
    // A directory inside a BigTIFF has another form; such a file goes without.
    return big ? done() : append_exif(tree, sink);
  }

  Status write8(std::span<const uint8_t> samples, uint32_t count) override {
    if (Status ok = check_rows(spec_, 8, written_, samples.size(), count); !ok) return ok;
    return take(samples.data(), count);
  }

  Status write16(std::span<const uint16_t> samples, uint32_t count) override {
    if (Status ok = check_rows(spec_, 16, written_, samples.size(), count); !ok) return ok;
    return take(reinterpret_cast<const uint8_t*>(samples.data()), count);
  }

  Status finish() override {
    if (written_ < spec_.height || !output_) return too_few_rows();
    if (Status ok = put_strip(); !ok) return ok;
    Status ok = output_->finish();
    output_.reset();
    return ok;
  }

 private:
  bool set_layout(TIFF* tiff) {
    const auto channels = static_cast<int>(channels_of(spec_.model));
    const int photometric = spec_.model == ColourModel::grey  ? PHOTOMETRIC_MINISBLACK
                            : spec_.model == ColourModel::rgb ? PHOTOMETRIC_RGB
                                                              : PHOTOMETRIC_SEPARATED;
    bool ok = TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, spec_.width) &&
              TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, spec_.height) &&
              TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, static_cast<int>(spec_.bits)) &&
              TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, channels) &&
              TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, photometric) &&
              TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG) &&
              TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_ADOBE_DEFLATE) &&
              TIFFSetField(tiff, TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL) &&
              TIFFSetField(tiff, TIFFTAG_ZIPQUALITY, kDeflateLevel) &&
              TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, strip_rows_) &&
              TIFFSetField(tiff, TIFFTAG_ORIENTATION, ORIENTATION_TOPLEFT) &&
              TIFFSetField(tiff, TIFFTAG_RESOLUTIONUNIT, RESUNIT_INCH) &&
              TIFFSetField(tiff, TIFFTAG_XRESOLUTION, spec_.ppi) &&
              TIFFSetField(tiff, TIFFTAG_YRESOLUTION, spec_.ppi);
    if (spec_.model == ColourModel::cmyk) {
      ok = ok && TIFFSetField(tiff, TIFFTAG_INKSET, INKSET_CMYK);
    }
    if (!spec_.icc.empty()) {
      ok = ok && TIFFSetField(tiff, TIFFTAG_ICCPROFILE, static_cast<uint32_t>(spec_.icc.size()),
                              spec_.icc.data());
    }
    return ok;
  }

  // TIFF 6.0's own tags for what an Exif block says in its first directory.
  static bool set_texts(TIFF* tiff, const ExifDirectory& image) {
    for (const uint16_t tag : {exif::kDescription, exif::kMake, exif::kModel, exif::kDateTime,
                               exif::kArtist, exif::kCopyright}) {
      const std::string text(text_of(find_value(image, tag)));
      if (!text.empty() && !TIFFSetField(tiff, tag, text.c_str())) return false;
    }
    return true;
  }

  // The sub-directories are written as they are, before the first strip; the first directory only
  // points at them.
  Status append_exif(const ExifTree& tree, ByteSink& sink) {
    const auto base = static_cast<uint32_t>((sink.size() + 1) & ~uint64_t{1});
    Bytes block;
    const auto next = [&] { return base + static_cast<uint32_t>(block.size()); };
    ExifDirectory photo = tree.photo;
    if (!tree.interop.empty()) {
      photo.push_back(long_value(exif::kInteropIfd, next()));
      append_directory(block, tree.interop, base);
    }
    bool ok = true;
    if (!photo.empty()) {
      ok = TIFFSetField(output_->tiff(), TIFFTAG_EXIFIFD, uint64_t{next()}) != 0;
      append_directory(block, std::move(photo), base);
    }
    if (!tree.gps.empty()) {
      ok = ok && TIFFSetField(output_->tiff(), TIFFTAG_GPSIFD, uint64_t{next()}) != 0;
      append_directory(block, tree.gps, base);
    }
    if (!ok) return output_->explain();
    return sink.write_at(base, block);
  }

  Status take(const uint8_t* rows, uint32_t count) {
    if (!output_) return Error{"The print file is closed already."};
    for (uint32_t y = 0; y < count; ++y, rows += row_bytes_) {
      strip_.insert(strip_.end(), rows, rows + row_bytes_);
      ++written_;
      if (strip_.size() == row_bytes_ * strip_rows_) {
        if (Status ok = put_strip(); !ok) return ok;
      }
    }
    return done();
  }

  Status put_strip() {
    if (strip_.empty()) return done();
    const auto size = static_cast<tmsize_t>(strip_.size());
    const bool ok =
        TIFFWriteEncodedStrip(output_->tiff(), strip_index_++, strip_.data(), size) == size;
    strip_.clear();
    if (!ok) return output_->explain();
    return done();
  }

  WriteSpec spec_;
  std::unique_ptr<TiffOutput> output_;
  size_t row_bytes_ = 0;
  uint32_t strip_rows_ = 1;
  std::vector<uint8_t> strip_;
  uint32_t strip_index_ = 0;
  uint32_t written_ = 0;
};

}  // namespace

Result<std::unique_ptr<ImageWriter>> open_tiff_writer(const WriteSpec& spec, ByteSink& sink) {
  if (spec.bits != 8 && spec.bits != 16) return Error{"A TIFF print file has 8 or 16 bits."};
  const uint64_t picture =
      uint64_t{spec.width} * spec.height * channels_of(spec.model) * (spec.bits / 8);
  const bool big = picture > kClassicMost;
  auto output = TiffOutput::open(sink, big);
  if (!output) return output.error();
  auto writer = std::make_unique<TiffWriter>(spec, output.take());
  if (Status ok = writer->describe(big, sink); !ok) return ok.error();
  return std::unique_ptr<ImageWriter>(std::move(writer));
}

}  // namespace proofleaf
