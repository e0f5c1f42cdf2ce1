// Pictures in memory as rows, and stages read in several ways.
#pragma once

#include <algorithm>
#include <functional>
#include <vector>

#include "pictures.h"
#include "print/light.h"
#include "raster/rows.h"

namespace proofleaf::test {

using Codes = std::vector<uint16_t>;

struct Reads {
  uint64_t rows = 0;       // asked for in all
  uint32_t most = 0;       // in one call
  uint32_t backwards = 0;  // times a row was asked for again or out of order
  uint32_t next = 0;
};

// Three channels in memory; keeps count of what is asked of it.
class MemoryRows final : public RowSource {
 public:
  MemoryRows(uint32_t width, uint32_t height, Codes samples, Reads* reads = nullptr)
      : format_{width, height, 3}, samples_(std::move(samples)), reads_(reads) {}
  RowFormat format() const override { return format_; }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    if (uint64_t{first} + count > format_.height) return Error{"Read past the end."};
    if (reads_ != nullptr) {
      reads_->rows += count;
      reads_->most = std::max(reads_->most, count);
      if (first != reads_->next) ++reads_->backwards;
      reads_->next = first + count;
    }
    const size_t row = format_.row_samples();
    std::copy_n(&samples_[row * first], row * count, into.begin());
    return done();
  }

 private:
  RowFormat format_;
  Codes samples_;
  Reads* reads_;
};

inline std::unique_ptr<RowSource> rows_of(
    uint32_t width, uint32_t height,
    const std::function<double(uint32_t x, uint32_t y, uint32_t channel)>& code,
    Reads* reads = nullptr) {
  Codes samples(size_t{width} * height * 3);
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) {
      for (uint32_t c = 0; c < 3; ++c) {
        const double value = std::fmin(65535, std::fmax(0, code(x, y, c)));
        samples[(size_t{y} * width + x) * 3 + c] = static_cast<uint16_t>(std::lround(value));
      }
    }
  }
  return std::make_unique<MemoryRows>(width, height, std::move(samples), reads);
}

inline std::unique_ptr<RowSource> ramp_rows(uint32_t width, uint32_t height,
                                            Reads* reads = nullptr) {
  return rows_of(width, height, ramp_sample, reads);
}

// All of a stage, `step` rows at a time.
inline Codes all_of(RowSource& rows, uint32_t step = 16) {
  const RowFormat format = rows.format();
  Codes samples(format.row_samples() * format.height);
  for (uint32_t y = 0; y < format.height; y += step) {
    const uint32_t count = std::min(step, format.height - y);
    REQUIRE(rows.read(y, count,
                      std::span(&samples[format.row_samples() * y], format.row_samples() * count))
                .ok());
  }
  return samples;
}

// A stage gives the same picture in strips of 1, 7 and 64 rows, whole, and from the bottom up.
inline void check_strips(const std::function<std::unique_ptr<RowSource>()>& make) {
  const auto whole_rows = make();
  const RowFormat format = whole_rows->format();
  const Codes whole = all_of(*whole_rows, format.height);
  for (const uint32_t step : {1u, 7u, 64u}) {
    const auto rows = make();
    CHECK_MESSAGE(all_of(*rows, step) == whole, step);
  }
  const auto rows = make();
  Codes row(format.row_samples());
  bool same = true;
  for (uint32_t y = format.height; y-- > 0;) {
    REQUIRE(rows->read(y, 1, row).ok());
    same = same && std::equal(row.begin(), row.end(), &whole[format.row_samples() * y]);
  }
  CHECK(same);
}

inline Profile space(const char* id) {
  auto profile = standard_profile(id);
  REQUIRE(profile.ok());
  return profile.take();
}

inline print::Light light_of(const Profile& profile) {
  auto light = print::Light::of(profile);
  REQUIRE(light.ok());
  return light.take();
}

// sRGB's code 0..65535 of linear light 0..1 and back, IEC 61966-2-1:1999.
inline double srgb_code(double light) {
  return 65535 * (light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055);
}
inline double srgb_light(double code) {
  const double v = code / 65535;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

// CIE 15:2018 8.2.1, of luminance 0..1 and back.
inline double l_star(double y) {
  return y > 216.0 / 24389 ? 116 * std::cbrt(y) - 16 : y * 24389 / 27;
}
inline double y_of(double l) { return l > 8 ? std::pow((l + 16) / 116, 3) : l * 27 / 24389; }
// Of a neutral in sRGB.
inline double srgb_code_of_l(double l) { return srgb_code(y_of(l)); }
inline double l_of_srgb(double code) { return l_star(srgb_light(code)); }

}  // namespace proofleaf::test
