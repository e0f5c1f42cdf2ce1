// TIFF print files in bands: Deflate with horizontal differencing (TIFF 6.0 section 14), in strips
// of at most 512 KiB (or one row). Memory: one band and its compressed bytes.
#include <zlib.h>

#include <algorithm>
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

// Rows to a strip: a power of two, so that a band is whole strips.
uint32_t strip_rows(const WriteSpec& spec) {
  const size_t row = size_t{spec.width} * channels_of(spec.model) * (spec.bits / 8);
  uint32_t rows = kBandRows;
  while (rows > 1 && rows * row > kStrip) rows /= 2;
  return rows;
}

void append_length(Bytes& bytes, size_t length) {
  for (int shift = 0; shift < 32; shift += 8)
    bytes.push_back(static_cast<uint8_t>(length >> shift));
}

// A band is its strips one after the other, each with its length before it: four bytes, the lowest
// first.
class TiffBandEncoder final : public BandEncoder {
 public:
  explicit TiffBandEncoder(const WriteSpec& spec)
      : spec_(spec), channels_(channels_of(spec.model)), rows_(strip_rows(spec)) {}

  Result<Bytes> encode8(std::span<const uint8_t> samples, uint32_t count) override {
    if (spec_.bits != 8) return other_depth();
    return encode(samples, count, room8_, differences8_);
  }
  Result<Bytes> encode16(std::span<const uint16_t> samples, uint32_t count) override {
    if (spec_.bits != 16) return other_depth();
    return encode(samples, count, room16_, differences16_);
  }

 private:
  template <class Sample>
  Result<Bytes> encode(std::span<const Sample> lanes, uint32_t count, std::vector<Sample>& room,
                       std::vector<Sample>& differences) {
    const auto samples = without_spare_lanes(spec_, lanes, count, room);
    const size_t row = size_t{spec_.width} * channels_;
    if (count == 0 || count > kBandRows || samples.size() != count * row) {
      return Error{"The rows do not have the print file's width."};
    }
    Bytes band;
    for (uint32_t first = 0; first < count; first += rows_) {
      const uint32_t rows = std::min(rows_, count - first);
      differences.resize(rows * row);
      for (uint32_t y = 0; y < rows; ++y) {
        difference(samples.subspan((first + y) * row, row), &differences[y * row]);
      }
      if (Status ok = append_strip(differences, band); !ok) return ok.error();
    }
    return band;
  }

  // Each sample less the one of the same channel before it.
  template <class Sample>
  void difference(std::span<const Sample> from, Sample* to) const {
    std::copy_n(from.begin(), channels_, to);
    for (size_t i = channels_; i < from.size(); ++i) {
      to[i] = static_cast<Sample>(from[i] - from[i - channels_]);
    }
  }

  // The file is little-endian, as every machine this is built for.
  template <class Sample>
  static Status append_strip(const std::vector<Sample>& samples, Bytes& band) {
    const auto length = static_cast<uLong>(samples.size() * sizeof(Sample));
    uLongf size = compressBound(length);
    Bytes packed(size);
    const auto* from = reinterpret_cast<const Bytef*>(samples.data());
    if (compress2(packed.data(), &size, from, length, kDeflateLevel) != Z_OK) {
      return Error{"The TIFF file could not be written."};
    }
    append_length(band, size);
    band.insert(band.end(), packed.begin(), packed.begin() + static_cast<std::ptrdiff_t>(size));
    return done();
  }

  WriteSpec spec_;
  uint32_t channels_, rows_;
  std::vector<uint8_t> room8_, differences8_;
  std::vector<uint16_t> room16_, differences16_;
};

class TiffBandJoiner final : public BandJoiner {
 public:
  TiffBandJoiner(const WriteSpec& spec, std::unique_ptr<TiffOutput> output)
      : spec_(spec), output_(std::move(output)) {}

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

  Status join(ByteView band) override {
    if (!output_ || joined_ == bands_in(spec_.height)) return too_many_rows();
    ++joined_;
    while (!band.empty()) {
      size_t length = 0;
      for (size_t i = 0; i < 4 && i < band.size(); ++i) length |= size_t{band[i]} << (8 * i);
      if (band.size() < 4 || band.size() - 4 < length) return output_->explain();
      Bytes strip(band.begin() + 4, band.begin() + 4 + static_cast<std::ptrdiff_t>(length));
      const auto size = static_cast<tmsize_t>(length);
      if (TIFFWriteRawStrip(output_->tiff(), strip_++, strip.data(), size) != size) {
        return output_->explain();
      }
      band = band.subspan(4 + length);
    }
    return done();
  }

  Status finish() override {
    if (!output_ || joined_ < bands_in(spec_.height)) return too_few_rows();
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
              TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, std::min(strip_rows(spec_), spec_.height)) &&
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

  WriteSpec spec_;
  std::unique_ptr<TiffOutput> output_;
  uint32_t strip_ = 0;   // the next one's number
  uint32_t joined_ = 0;  // [bands]
};

Status check(const WriteSpec& spec) {
  if (spec.bits != 8 && spec.bits != 16) return Error{"A TIFF print file has 8 or 16 bits."};
  return done();
}

}  // namespace

Result<std::unique_ptr<BandEncoder>> open_tiff_encoder(const WriteSpec& spec) {
  if (Status ok = check(spec); !ok) return ok.error();
  return std::unique_ptr<BandEncoder>(std::make_unique<TiffBandEncoder>(spec));
}

Result<std::unique_ptr<BandJoiner>> open_tiff_joiner(const WriteSpec& spec, ByteSink& sink) {
  if (Status ok = check(spec); !ok) return ok.error();
  const uint64_t picture =
      uint64_t{spec.width} * spec.height * channels_of(spec.model) * (spec.bits / 8);
  const bool big = picture > kClassicMost;
  auto output = TiffOutput::open(sink, big);
  if (!output) return output.error();
  auto joiner = std::make_unique<TiffBandJoiner>(spec, output.take());
  if (Status ok = joiner->describe(big, sink); !ok) return ok.error();
  return std::unique_ptr<BandJoiner>(std::move(joiner));
}

}  // namespace proofleaf
