#include "codec/writer.h"

#include <algorithm>

#include "codec/limits.h"
#include "codec/writers.h"

namespace proofleaf {
namespace {

Status check_spec(const WriteSpec& spec) {
  if (Status ok = check_dimensions(said("The print file"), spec.width, spec.height); !ok) return ok;
  if (!(spec.ppi >= 1 && spec.ppi <= 65535)) {
    return Error{"A print file needs between 1 and 65,535 pixels per inch."};
  }
  if (spec.icc.size() > kLargestProfile) return Error{"The profile is too large to be embedded."};
  return done();
}

Error other_container() { return Error{"A print file is a JPEG or a TIFF."}; }

}  // namespace

Result<std::unique_ptr<BandEncoder>> open_band_encoder(const WriteSpec& spec) {
  if (Status ok = check_spec(spec); !ok) return ok.error();
  if (spec.container == Container::jpeg) return open_jpeg_encoder(spec);
  if (spec.container == Container::tiff) return open_tiff_encoder(spec);
  return other_container();
}

Result<std::unique_ptr<BandJoiner>> open_band_joiner(const WriteSpec& spec, ByteSink& sink) {
  if (Status ok = check_spec(spec); !ok) return ok.error();
  if (spec.container == Container::jpeg) return open_jpeg_joiner(spec, sink);
  if (spec.container == Container::tiff) return open_tiff_joiner(spec, sink);
  return other_container();
}

ImageWriter::ImageWriter(const WriteSpec& spec, std::unique_ptr<BandEncoder> encoder,
                         std::unique_ptr<BandJoiner> joiner)
    : spec_(spec), encoder_(std::move(encoder)), joiner_(std::move(joiner)) {}
ImageWriter::~ImageWriter() = default;

Status ImageWriter::check_rows(uint32_t bits, size_t samples, uint32_t count) const {
  if (bits != spec_.bits) return other_depth();
  if (samples != size_t{count} * spec_.width * channels_of(spec_.model)) {
    return Error{"The rows do not have the print file's width."};
  }
  if (count > spec_.height - written_) return too_many_rows();
  return done();
}

Status ImageWriter::put_band(uint32_t count) {
  auto band = spec_.bits == 8 ? encoder_->encode8(eight_, count) : encoder_->encode16(wide_, count);
  eight_.clear();
  wide_.clear();
  if (!band) return band.error();
  return joiner_->join(band.value());
}

template <class Sample>
Status ImageWriter::take(std::span<const Sample> samples, uint32_t count,
                         std::vector<Sample>& band) {
  const size_t row = samples.size() / std::max(count, 1u);
  while (count > 0) {
    const uint32_t there = written_ % kBandRows, band_end = written_ - there + kBandRows;
    const uint32_t now = std::min(count, std::min(band_end, spec_.height) - written_);
    const auto rows = samples.first(row * now);
    band.insert(band.end(), rows.begin(), rows.end());
    samples = samples.subspan(row * now);
    count -= now;
    written_ += now;
    if (written_ != band_end && written_ != spec_.height) continue;
    if (Status put = put_band(there + now); !put) return put;
  }
  return done();
}

Status ImageWriter::write8(std::span<const uint8_t> samples, uint32_t count) {
  if (Status ok = check_rows(8, samples.size(), count); !ok) return ok;
  return take(samples, count, eight_);
}

Status ImageWriter::write16(std::span<const uint16_t> samples, uint32_t count) {
  if (Status ok = check_rows(16, samples.size(), count); !ok) return ok;
  return take(samples, count, wide_);
}

Status ImageWriter::finish() { return joiner_->finish(); }

Result<std::unique_ptr<ImageWriter>> open_writer(const WriteSpec& spec, ByteSink& sink) {
  auto encoder = open_band_encoder(spec);
  if (!encoder) return encoder.error();
  auto joiner = open_band_joiner(spec, sink);
  if (!joiner) return joiner.error();
  return std::make_unique<ImageWriter>(spec, encoder.take(), joiner.take());
}

}  // namespace proofleaf
