#include "deliver/deliver.h"

#include <algorithm>
#include <cstdio>

#include "deliver/check.h"
#include "deliver/dither.h"
#include "proof/cube.h"

namespace proofleaf {
namespace {

constexpr uint32_t kStripRows = 64;
constexpr double kWritingShare = 0.8;  // of the whole job; the rest is the check

// Master RGB to the paper's device values, 16 bits. A picture smaller than the cube goes through
// LittleCMS exactly; a larger one through the cube.
class Converter {
 public:
  static Result<Converter> make(std::shared_ptr<ProofChain> chain, uint64_t pixels,
                                const Watch& watch) {
    Converter converter(std::move(chain));
    constexpr uint64_t kNodes = uint64_t{kDeliveryGrid} * kDeliveryGrid * kDeliveryGrid;
    if (pixels <= kNodes) return converter;
    auto cube = build_device_cube(*converter.chain_, kDeliveryGrid, watch);
    if (!cube) return cube.error();
    converter.cube_ = cube.take();
    return converter;
  }

  // count pixels of rgb to channels() samples each.
  void run(std::span<const uint16_t> rgb, std::span<uint16_t> device) {
    if (cube_.grid == 0) return exactly(rgb, device);
    const size_t count = rgb.size() / 3, channels = chain_->device_channels();
    lanes_.resize(count * 4);
    apply_cube(cube_, rgb, lanes_);
    for (size_t i = 0; i < count; ++i) {
      for (size_t c = 0; c < channels; ++c) device[i * channels + c] = lanes_[i * 4 + c];
    }
  }

 private:
  explicit Converter(std::shared_ptr<ProofChain> chain) : chain_(std::move(chain)) {}

  void exactly(std::span<const uint16_t> rgb, std::span<uint16_t> device) {
    in_.resize(rgb.size());
    out_.resize(device.size());
    std::transform(rgb.begin(), rgb.end(), in_.begin(),
                   [](uint16_t v) { return float(v) / 65535; });
    chain_->to_device(in_, out_);
    std::transform(out_.begin(), out_.end(), device.begin(),
                   [](float v) { return static_cast<uint16_t>(v * 65535 + 0.5f); });
  }

  std::shared_ptr<ProofChain> chain_;
  Cube cube_;
  std::vector<uint16_t> lanes_;
  std::vector<float> in_, out_;
};

ExifColourSpace exif_space_of(const Profile& profile) {
  auto srgb = standard_profile("srgb");
  const bool is_srgb = srgb && srgb.value().bytes() == profile.bytes();
  return is_srgb ? ExifColourSpace::srgb : ExifColourSpace::uncalibrated;
}

WriteSpec spec_for(const MasterInfo& info, const Paper& paper, const DeliverySettings& settings) {
  WriteSpec spec;
  spec.container = settings.container;
  spec.model = paper.model;
  spec.width = info.width;
  spec.height = info.height;
  spec.bits = settings.bits;
  spec.quality = settings.quality;
  spec.full_colour_detail = settings.full_colour_detail;
  spec.ppi = settings.ppi;
  spec.icc = paper.profile.bytes();
  spec.exif_space = exif_space_of(paper.profile);
  spec.exif = clean_exif(
      info.exif, {info.width, info.height, settings.ppi, spec.exif_space, settings.keep_private});
  return spec;
}

Status write_strip(ImageWriter& writer, const Dither& dither, uint32_t bits, uint32_t channels,
                   uint32_t first, uint32_t count, std::span<const uint16_t> device,
                   std::vector<uint8_t>& eight) {
  if (bits == 16) return writer.write16(device, count);
  eight.resize(device.size());
  const size_t row = device.size() / count;
  for (uint32_t y = 0; y < count; ++y) {
    dither.row(first + y, channels, device.subspan(y * row, row),
               std::span(eight).subspan(y * row, row));
  }
  return writer.write8(eight, count);
}

Status stream(RowSource& rows, Converter& converter, uint32_t channels, ImageWriter& writer,
              const DeliverySettings& settings, PromisedPixels& promised, const Watch& watch) {
  const RowFormat format = rows.format();
  const Dither dither(settings.seed);
  std::vector<uint16_t> rgb(format.row_samples() * kStripRows);
  std::vector<uint16_t> device(size_t{format.width} * channels * kStripRows);
  std::vector<uint8_t> eight;
  for (uint32_t first = 0; first < format.height; first += kStripRows) {
    if (!keep_going(watch, kWritingShare * first / format.height)) return stopped();
    const uint32_t count = std::min(kStripRows, format.height - first);
    const std::span in(rgb.data(), format.row_samples() * count);
    const std::span out(device.data(), size_t{format.width} * channels * count);
    if (auto got = rows.read(first, count, in); !got) return got;
    promised.note(first, count, in);
    converter.run(in, out);
    if (auto put = write_strip(writer, dither, settings.bits, channels, first, count, out, eight);
        !put) {
      return put;
    }
  }
  return writer.finish();
}

std::string in_words(const DeliveryCheck& check) {
  char text[200];
  std::snprintf(
      text, sizeof text,
      "Read back and checked at %zu places: the file is within %.2f ΔE00 of the proof in the "
      "mean, %.2f at 95 of 100 places, %.2f at the worst.",
      check.samples, check.mean, check.p95, check.max);
  return text;
}

}  // namespace

Result<Delivery> deliver(Master& master, const MasterColour& colour, const Paper& paper,
                         const DeliverySettings& settings, ByteSink& sink, const Reopen& reopen,
                         const Watch& watch) {
  if (!(settings.ppi >= 1 && settings.ppi <= 10000)) {
    return Error{"The resolution must lie between 1 and 10000 pixels per inch."};
  }
  const MasterInfo& info = master.info();
  auto chain = ProofChain::make(colour.profile, paper, settings.print, {});
  if (!chain) return chain.error();
  auto file_rows = master.open_rows();
  if (!file_rows) return file_rows.error();
  auto rows = as_rgb(file_rows.take(), info, colour);
  if (!rows) return rows.error();
  auto converter = Converter::make(chain.value(), uint64_t{info.width} * info.height,
                                   [&](double) { return keep_going(watch, 0); });
  if (!converter) return converter.error();
  auto writer = open_writer(spec_for(info, paper, settings), sink);
  if (!writer) return writer.error();

  PromisedPixels promised(info.width, info.height);
  if (auto written = stream(*rows.value(), converter.value(), chain.value()->device_channels(),
                            *writer.value(), settings, promised, watch);
      !written) {
    return written.error();
  }
  auto again = reopen();
  if (!again) return again.error();
  auto check = promised.compare(again.take(), paper, *chain.value(), settings, [&](double share) {
    return keep_going(watch, kWritingShare + (1 - kWritingShare) * share);
  });
  if (!check) return check.error();
  return Delivery{info.width, info.height, sink.size(), check.value(), in_words(check.value())};
}

}  // namespace proofleaf
