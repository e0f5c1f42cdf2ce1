#include "deliver/dither.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>

#include "doctest.h"

using namespace proofleaf;

namespace {

constexpr size_t kSide = 128;

std::vector<uint8_t> dithered(uint16_t value, uint32_t channels, uint32_t seed) {
  const Dither dither(seed);
  std::vector<uint8_t> out(kSide * kSide * channels);
  const std::vector<uint16_t> row(kSide * channels, value);
  for (uint32_t y = 0; y < kSide; ++y) {
    dither.row(y, channels, row, std::span(out).subspan(y * kSide * channels, kSide * channels));
  }
  return out;
}

double mean_of(const std::vector<uint8_t>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / double(values.size());
}

// Power at one frequency (cycles over the side) by the discrete Fourier sum.
double power_at(const std::vector<uint8_t>& values, double mean, size_t fx, size_t fy) {
  std::complex<double> sum = 0;
  for (size_t y = 0; y < kSide; ++y) {
    for (size_t x = 0; x < kSide; ++x) {
      const double turn = -2 * std::numbers::pi * double(fx * x + fy * y) / double(kSide);
      sum += (values[y * kSide + x] - mean) * std::polar(1.0, turn);
    }
  }
  return std::norm(sum);
}

}  // namespace

TEST_CASE("the mask holds each threshold once, the same for the same seed") {
  auto mask = make_blue_noise(5);
  CHECK(mask == make_blue_noise(5));
  CHECK(mask != make_blue_noise(6));
  std::sort(mask.begin(), mask.end());
  for (size_t i = 0; i < mask.size(); ++i) REQUIRE(mask[i] == i);
}

TEST_CASE("dithering keeps the mean and moves no value further than its neighbours") {
  for (const uint16_t value : {1000, 12345, 32896, 40001, 65000}) {
    const auto out = dithered(value, 3, 1);
    CHECK(std::abs(mean_of(out) - value / 257.0) < 0.004);
    const auto [low, high] = std::minmax_element(out.begin(), out.end());
    CHECK(*low >= std::floor(value / 257.0));
    CHECK(*high <= std::ceil(value / 257.0));
  }
}

TEST_CASE("what 8 bits hold exactly stays: paper white and full ink carry no noise") {
  for (int code = 0; code < 256; ++code) {
    const auto out = dithered(static_cast<uint16_t>(code * 257), 4, 9);
    CHECK(std::all_of(out.begin(), out.end(), [&](uint8_t v) { return v == code; }));
  }
}

TEST_CASE("the noise is blue: little power at low frequencies") {
  // Ulichney 1993: void-and-cluster patterns have almost no energy below the principal frequency.
  const auto out = dithered(32768 + 64, 1, 3);
  const double mean = mean_of(out);
  double low = 0, high = 0;
  int lows = 0, highs = 0;
  // The mask repeats after 64 pixels, so only even frequencies of 128 carry power.
  for (size_t fy = 0; fy <= 64; fy += 4) {
    for (size_t fx = 0; fx <= 64; fx += 4) {
      const double radius = std::hypot(double(fx), double(fy));
      if (radius == 0) continue;
      const double power = power_at(out, mean, fx, fy);
      if (radius <= 16) low += power, ++lows;
      if (radius >= 44) high += power, ++highs;
    }
  }
  CHECK(high / highs > 20 * (low / lows));
}

TEST_CASE("channels do not share their noise") {
  const auto out = dithered(20000, 3, 1);
  size_t same = 0;
  for (size_t i = 0; i < out.size(); i += 3) same += out[i] == out[i + 1];
  const double share = 20000 / 257.0 - std::floor(20000 / 257.0);
  const double expected = share * share + (1 - share) * (1 - share);
  CHECK(double(same) / double(out.size() / 3) == doctest::Approx(expected).epsilon(0.1));
}
