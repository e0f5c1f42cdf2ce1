#include "deliver/deliver.h"

#include <algorithm>
#include <cstdio>
#include <cstring>

#include "deliver/check.h"
#include "deliver/dither.h"
#include "deliver/strips.h"
#include "proof/cube.h"

namespace proofleaf {
namespace {

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

  // One row of the master's rgb to device values of 16 bits, or dithered ones of 8.
  void wide_row(std::span<const uint16_t> rgb, std::span<uint16_t> device) {
    if (cube_.grid == 0) return exactly(rgb, device);
    const size_t channels = chain_->device_channels();
    through_cube(rgb);
    for (size_t i = 0; i < rgb.size() / 3; ++i) {
      std::memcpy(&device[i * channels], &row_[i * 4], channels * sizeof(uint16_t));
    }
  }
  void eight_row(uint32_t y, const Dither& dither, std::span<const uint16_t> rgb,
                 std::span<uint8_t> device) {
    const uint32_t channels = chain_->device_channels();
    if (cube_.grid != 0) {
      through_cube(rgb);
      return dither.lanes(y, channels, row_, device);
    }
    row_.resize(device.size());
    exactly(rgb, row_);
    dither.row(y, channels, row_, device);
  }

 private:
  explicit Converter(std::shared_ptr<ProofChain> chain) : chain_(std::move(chain)) {}

  // Four lanes a pixel, in row_.
  void through_cube(std::span<const uint16_t> rgb) {
    row_.resize(rgb.size() / 3 * 4);
    apply_cube(cube_, rgb, row_);
  }

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
  std::vector<uint16_t> row_;
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

// The rows of one strip from the master's numbers to the file's.
void convert(const Strip& rgb, Converter& converter, const Dither& dither, uint32_t bits,
             size_t row_samples, Strip& out) {
  const size_t in_samples = rgb.wide.size() / kStripRows;
  out.first = rgb.first;
  out.count = rgb.count;
  if (bits == 16) {
    out.wide.resize(row_samples * rgb.count);
  } else {
    out.eight.resize(row_samples * rgb.count);
  }
  for (uint32_t y = 0; y < rgb.count; ++y) {
    const auto in = std::span(rgb.wide).subspan(y * in_samples, in_samples);
    if (bits == 16) {
      converter.wide_row(in, std::span(out.wide).subspan(y * row_samples, row_samples));
    } else {
      converter.eight_row(rgb.first + y, dither, in,
                          std::span(out.eight).subspan(y * row_samples, row_samples));
    }
  }
}

// Three threads at most: one reads and decodes, this one converts and watches, one encodes and
// writes. They hold 2 * kStripsInHand strips of kStripRows rows.
Status stream(RowSource& rows, Converter& converter, uint32_t channels, ImageWriter& writer,
              const DeliverySettings& settings, PromisedPixels& promised, const Watch& watch) {
  const RowFormat format = rows.format();
  const Dither dither(settings.seed);
  ReadAhead ahead(format.height, [&](Strip& strip) {
    strip.wide.resize(format.row_samples() * kStripRows);
    return rows.read(strip.first, strip.count,
                     std::span(strip.wide).first(format.row_samples() * strip.count));
  });
  WriteBehind behind([&](Strip& strip) {
    return settings.bits == 16 ? writer.write16(strip.wide, strip.count)
                               : writer.write8(strip.eight, strip.count);
  });
  for (uint32_t first = 0; first < format.height; first += kStripRows) {
    if (!keep_going(watch, kWritingShare * first / format.height)) return stopped();
    auto rgb = ahead.next();
    if (!rgb) return rgb.error();
    promised.note(first, rgb.value()->count, rgb.value()->wide);
    Strip* out = behind.room();
    if (out == nullptr) break;
    convert(*rgb.value(), converter, dither, settings.bits, size_t{format.width} * channels, *out);
    behind.send();
  }
  if (auto put = behind.finish(); !put) return put;
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
