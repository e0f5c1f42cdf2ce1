#include "deliver/band_maker.h"

#include <algorithm>
#include <optional>

#include "base/beside.h"
#include "codec/samples.h"

namespace proofleaf {

static_assert(kMaskSide == kLiftPixels);

// A picture smaller than the cube goes through LittleCMS exactly; a larger one through the cube.
Result<std::unique_ptr<BandMaker>> BandMaker::make(std::shared_ptr<const ProofChain> chain,
                                                   const WriteSpec& spec, uint32_t seed) {
  std::optional<Dither> dither;  // made beside the cube: each takes some ten milliseconds
  Beside dithering([&] { dither.emplace(seed); });
  const uint64_t grid = delivery_grid(chain->stepped());
  std::shared_ptr<DeviceCube> cube;
  if (uint64_t{spec.width} * spec.height > grid * grid * grid) {
    auto made = DeviceCube::make(chain, static_cast<uint32_t>(grid));
    if (!made) return made.error();
    cube = made.take();
  }
  dithering.wait();
  return BandMaker(std::move(chain), spec, *dither, std::move(cube)).another();
}

Result<std::unique_ptr<BandMaker>> BandMaker::another() const {
  auto encoder = open_band_encoder(spec_);
  if (!encoder) return encoder.error();
  std::unique_ptr<BandMaker> maker(new BandMaker(chain_, spec_, dither_, cube_));
  maker->encoder_ = encoder.take();
  return maker;
}

void BandMaker::exactly(std::span<const uint16_t> rgb, std::span<uint16_t> device) {
  in_.resize(rgb.size());
  out_.resize(device.size());
  std::transform(rgb.begin(), rgb.end(), in_.begin(), [](uint16_t v) { return float(v) / 65535; });
  chain_->to_device(in_, out_);
  std::transform(out_.begin(), out_.end(), device.begin(),
                 [](float v) { return static_cast<uint16_t>(v * 65535 + 0.5f); });
}

void BandMaker::wide_row(std::span<const uint16_t> rgb, std::span<uint16_t> device) {
  if (!cube_) return exactly(rgb, device);
  cube_->apply(rgb, device);
}

void BandMaker::eight_row(uint32_t y, PixelView rgb, std::span<uint8_t> device) {
  const uint32_t channels = chain_->device_channels();
  if (cube_) return cube_->apply_dithered(rgb, dither_.lifts(y, channels), device);
  lanes_.resize(device.size());
  exactly(widened(rgb), lanes_);
  dither_.row(y, channels, lanes_, device);
}

std::span<const uint16_t> BandMaker::widened(PixelView row) {
  if (const auto* sixteen = std::get_if<std::span<const uint16_t>>(&row)) return *sixteen;
  const auto eight = std::get<std::span<const uint8_t>>(row);
  widened_.resize(eight.size());
  widen(eight.data(), widened_.data(), eight.size());
  return widened_;
}

size_t BandMaker::samples_of(uint32_t band) const {
  const uint32_t bands = bands_in(spec_.height);
  return band < bands ? size_t{band_rows(spec_.height, band)} * spec_.width * 3 : 0;
}

Result<uint32_t> BandMaker::convert(uint32_t band, PixelView rgb) {
  const uint32_t first = band * kBandRows;
  const size_t in_row = size_t{spec_.width} * 3;
  const size_t out_row = size_t{spec_.width} * (cube_ ? 4 : chain_->device_channels());
  const auto rows = static_cast<uint32_t>(samples_of(band) / in_row);
  if (rows == 0 || samples_in(rgb) != rows * in_row) {
    return Error{"A part of the picture has another size than it should."};
  }
  const bool wide = spec_.bits == 16;
  if (wide) wide_.resize(rows * out_row);
  if (!wide) eight_.resize(rows * out_row);
  for (uint32_t y = 0; y < rows; ++y) {
    const PixelView in = part_of(rgb, y * in_row, in_row);
    if (wide) wide_row(widened(in), std::span(wide_).subspan(y * out_row, out_row));
    if (!wide) eight_row(first + y, in, std::span(eight_).subspan(y * out_row, out_row));
  }
  return rows;
}

Result<Bytes> BandMaker::make(uint32_t band, PixelView rgb) {
  auto rows = convert(band, rgb);
  if (!rows) return rows.error();
  return spec_.bits == 16 ? encoder_->encode16(wide_, rows.value())
                          : encoder_->encode8(eight_, rows.value());
}

Result<std::span<const uint8_t>> BandMaker::device8(uint32_t band, PixelView rgb) {
  if (spec_.bits != 8) return Error{"This print file has 16 bits."};
  auto rows = convert(band, rgb);
  if (!rows) return rows.error();
  return std::span<const uint8_t>(eight_);
}

}  // namespace proofleaf
