#include "deliver/file_limit.h"

#include <algorithm>
#include <cmath>

#include "deliver/band_maker.h"

namespace proofleaf {
namespace {

constexpr uint32_t kMostSampled = 48, kLeastSampled = 4;  // bands
constexpr size_t kSampledBytes = size_t{24} << 20;        // of their pixels
constexpr uint64_t kBetweenBands = 2;                     // [bytes] a restart marker
constexpr uint64_t kAfterBands = 2;                       // [bytes] the end of the image

struct SampledBand {
  uint32_t rows = 0;
  Bytes device;  // 8 bits
};

uint64_t uncompressed(const WriteSpec& spec) {
  return uint64_t{spec.width} * spec.height * (spec.model == ColourModel::cmyk ? 4 : 3);
}

class Sample {
 public:
  explicit Sample(const WriteSpec& spec) : spec_(spec) {}

  Status take(RowSource& rows, BandMaker& maker) {
    const uint32_t all = bands_in(spec_.height);
    const size_t band_bytes = size_t{spec_.width} * kBandRows * 4;
    const auto affordable =
        static_cast<uint32_t>(std::min<size_t>(kSampledBytes / band_bytes, kMostSampled));
    const uint32_t count = std::min(all, std::max(kLeastSampled, affordable));
    exact_ = count == all;
    share_ = double(count) / all;
    Pixels rgb;
    for (uint32_t i = 0; i < count; ++i) {
      const auto band = static_cast<uint32_t>((uint64_t{2} * i + 1) * all / (uint64_t{2} * count));
      const uint32_t height = band_rows(spec_.height, band);
      if (Status got = rows.read_pixels(band * kBandRows, height, rgb); !got) return got;
      auto device = maker.device8(band, rgb.view());
      if (!device) return device.error();
      bands_.push_back({height, Bytes(device.value().begin(), device.value().end())});
    }
    return done();
  }

  // The whole file's bytes at a quality: exact, or more than it will be.
  Result<uint64_t> bytes_at(int quality) const {
    WriteSpec spec = spec_;
    spec.quality = quality;
    MemorySink head;
    auto joiner = open_band_joiner(spec, head);
    if (!joiner) return joiner.error();
    auto encoder = open_band_encoder(spec);
    if (!encoder) return encoder.error();
    double bytes = 0, rows = 0;
    std::vector<double> per_row;
    for (const SampledBand& band : bands_) {
      auto made = encoder.value()->encode8(band.device, band.rows);
      if (!made) return made.error();
      bytes += double(made.value().size());
      rows += band.rows;
      per_row.push_back(double(made.value().size()) / band.rows);
    }
    if (!exact_) bytes = (bytes / rows + spare(per_row)) * spec_.height;
    return head.size() + static_cast<uint64_t>(std::ceil(bytes)) +
           (bands_in(spec_.height) - 1) * kBetweenBands + kAfterBands;
  }

 private:
  // Three standard errors of the mean of evenly spread values, half a per cent at least.
  double spare(const std::vector<double>& values) const {
    double squares = 0, mean = 0;
    for (size_t i = 0; i < values.size(); ++i) {
      mean += values[i] / double(values.size());
      if (i > 0) squares += (values[i] - values[i - 1]) * (values[i] - values[i - 1]);
    }
    const auto count = double(values.size());
    const double variance = squares / (2 * (count - 1)) * (1 - share_) / count;
    return std::max(3 * std::sqrt(variance), 0.005 * mean);
  }

  WriteSpec spec_;
  bool exact_ = false;
  double share_ = 1;  // of the bands
  std::vector<SampledBand> bands_;
};

}  // namespace

std::string in_megabytes(uint64_t bytes) {
  return spoken_number(double(bytes) / 1e6, bytes < 10'000'000 ? 2 : 0) + " MB";
}

Result<int> quality_within(RowSource& rows, std::shared_ptr<const ProofChain> chain,
                           const WriteSpec& spec, uint32_t seed, uint64_t limit) {
  // No quality of JPEG takes twice the bytes of the bare pixels; the profile and Exif come on top.
  if (limit / 2 >= uncompressed(spec) + spec.icc.size() + spec.exif.size() + (1u << 16)) {
    return spec.quality;
  }
  auto maker = BandMaker::make(std::move(chain), spec, seed);
  if (!maker) return maker.error();
  Sample sample(spec);
  if (Status taken = sample.take(rows, *maker.value()); !taken) return taken.error();
  int low = std::min(kLeastQuality, spec.quality), high = spec.quality;
  auto least = sample.bytes_at(low);
  if (!least) return least.error();
  if (least.value() > limit) {
    return Error{
        "Even at JPEG quality {} the file would be larger than the {} the print house takes; ask "
        "for a smaller print or fewer pixels per inch.",
        low, in_megabytes(limit)};
  }
  while (low < high) {  // low fits
    const int middle = (low + high + 1) / 2;
    auto bytes = sample.bytes_at(middle);
    if (!bytes) return bytes.error();
    if (bytes.value() <= limit) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return low;
}

}  // namespace proofleaf
