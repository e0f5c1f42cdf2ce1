// Noise, sharpness, halos and JPEG traces of known size.
#include <cmath>
#include <numbers>

#include "codec_files.h"
#include "condition/compression.h"
#include "condition_pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

double normal(double t) { return 0.5 * std::erfc(-t / std::numbers::sqrt2); }

// Slanted bars: an edge profile by distance from each of several lines.
Tones bars(double degrees, const std::function<double(double)>& profile) {
  const double angle = degrees * std::numbers::pi / 180;
  return tones(900, 700, [&](double x, double y) {
    const double d = x * std::cos(angle) + y * std::sin(angle);
    const double period = 120, phase = std::fmod(d + 10 * period, 2 * period);
    const double t = phase < period ? phase - period / 2 : 3 * period / 2 - phase;
    return profile(t);
  });
}

Bytes jpeg_of(const Tones& picture, int quality, bool grey = false) {
  testing::JpegRecipe recipe;
  recipe.width = picture.width;
  recipe.height = picture.height;
  recipe.channels = grey ? 1 : 3;
  recipe.stored = grey ? JCS_GRAYSCALE : JCS_YCbCr;
  recipe.quality = quality;
  testing::Codes samples;
  for (const double l : picture.l) {
    samples.insert(samples.end(), grey ? 1 : 3, static_cast<uint16_t>(srgb_sample(l, 8) / 257));
  }
  return testing::raw_jpeg(recipe, samples);
}

}  // namespace

TEST_CASE("condition: noise of known sigma is measured within 10 %") {
  double worst = 0;
  for (const double sigma : {0.3, 1.0, 2.5, 5.0}) {
    for (const double ground : {18.0, 50.0, 82.0}) {
      Tones picture =
          tones(600, 500, [&](double x, double y) { return ground + x / 150 - y / 200; });
      add_noise(picture, sigma, 21);
      const double told = *found(report_of(tiff_of(picture)), "noise").value;
      INFO("sigma " << sigma << " at L* " << ground << ": " << told);
      if (sigma < 5 || ground == 50) CHECK(told == doctest::Approx(sigma).epsilon(0.1));
      if (ground == 50) worst = std::max(worst, std::abs(told / sigma - 1));
    }
  }
  MESSAGE("worst at L* 50: " << 100 * worst << " %");
}

TEST_CASE("condition: noise is measured beside texture, and not in texture alone") {
  Tones half = texture(Texture::foliage, 900, 700, 3);
  for (uint32_t y = 0; y < 300; ++y) {
    for (uint32_t x = 0; x < 900; ++x) half.at(x, y) = 75 - y * 0.02;
  }
  add_noise(half, 0.8, 5);
  const auto report = report_of(tiff_of(half));
  CHECK(number(found(report, "noise"), "highlights_l") == doctest::Approx(0.8).epsilon(0.1));
  CHECK(finding(report_of(tiff_of(texture(Texture::gravel, 900, 700, 3))), "noise") == nullptr);
}

TEST_CASE("condition: the rise of an edge of known blur is 2.563 sigma") {
  // 10-90 % of the normal distribution: 2 x 1.28155 sigma.
  for (const double degrees : {4.0, 11.0, 86.0}) {
    for (const double sigma : {0.8, 1.5, 2.5}) {
      Tones picture = bars(degrees, [&](double t) { return 35 + 30 * normal(t / sigma); });
      add_noise(picture, 0.3, 6);
      const Finding sharp = found(report_of(tiff_of(picture)), "sharpness");
      INFO("sigma " << sigma << " at " << degrees << " degrees: " << number(sharp, "median_px"));
      CHECK(number(sharp, "median_px") == doctest::Approx(2.5631 * sigma).epsilon(0.06));
      CHECK(sharp.severity == (sigma < 1     ? Severity::good
                               : sigma < 1.9 ? Severity::look
                                             : Severity::act));
    }
  }
}

TEST_CASE("condition: overshoot of known size is told, and a clean edge has none") {
  for (const double share : {0.0, 0.1, 0.25}) {
    // The derivative of a bell of sigma 2.5 has its extremes at +-2.5, where it is exp(-1/2).
    Tones picture = bars(5, [&](double t) {
      const double halo = share * (t / 2.5) * std::exp(0.5 - t * t / 12.5);
      return 35 + 30 * (normal(t / 0.8) + halo);
    });
    add_noise(picture, 0.3, 8);
    const Finding halos = found(report_of(tiff_of(picture)), "halos");
    // At 2.5 pixels the edge itself is within 0.1 % of its end.
    INFO("share " << share << ": " << number(halos, "bright_percent") << ", "
                  << number(halos, "dark_percent"));
    CHECK(std::abs(number(halos, "bright_percent") - 100 * share) < 2);
    CHECK(std::abs(number(halos, "dark_percent") - 100 * share) < 2);
    CHECK(halos.severity == (share < 0.05   ? Severity::good
                             : share < 0.12 ? Severity::look
                                            : Severity::act));
  }
}

TEST_CASE("condition: JPEG quality comes back from libjpeg's own tables within 1") {
  const Tones picture = texture(Texture::foliage, 64, 64, 2);
  for (int quality = 5; quality <= 100; ++quality) {
    for (const bool grey : {false, true}) {
      const Finding told = found(report_of(jpeg_of(picture, quality, grey)), "compression");
      INFO("quality " << quality);
      CHECK(std::abs(*told.value - quality) <= 1);
      CHECK(number(told, "exact") == 1);
    }
  }
  CHECK(finding(report_of(tiff_of(picture)), "compression") == nullptr);
  CHECK_FALSE(condition::estimate_quality({}).has_value());
}

TEST_CASE("condition: a subject's own squares on the grid are not taken for compression") {
  for (const int side : {16, 24, 40, 64}) {
    const Tones chart = tones(960, 720, [&](double x, double y) {
      return 40 + 2.5 * ((int(x) / side * 7 + int(y) / side * 13) % 9);
    });
    INFO("squares of " << side);
    CHECK(found(report_of(tiff_of(chart)), "blocking").severity == Severity::good);
  }
}

TEST_CASE(
    "condition: blocks of strong compression are told, also once the file is no JPEG any more") {
  Tones picture = tones(800, 600, [](double x, double y) {
    return 60 + 12 * std::sin(x / 60) * std::cos(y / 45) + 6 * std::sin(x / 9 + y / 14);
  });
  add_noise(picture, 1, 3);
  for (const int quality : {15, 40, 95}) {
    const Bytes file = jpeg_of(picture, quality);
    const auto samples = testing::widened(testing::decode_jpeg(file));
    const auto as_tiff = report_of(tiff_of(800, 600, samples, 8));
    const auto as_jpeg = report_of(file);
    const double told = *found(as_tiff, "blocking").value;
    MESSAGE("quality " << quality << ": " << told << " %");
    CHECK(told == doctest::Approx(*found(as_jpeg, "blocking").value).epsilon(0.05));
    CHECK(found(as_tiff, "blocking").severity == (quality == 15   ? Severity::act
                                                  : quality == 40 ? Severity::act
                                                                  : Severity::good));
  }
  CHECK(found(report_of(tiff_of(picture)), "blocking").severity == Severity::good);
}
