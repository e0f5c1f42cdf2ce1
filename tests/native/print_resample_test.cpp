// A picture at another number of pixels.
#include <numbers>

#include "colour/lcms.h"
#include "print/resample.h"
#include "print_rows.h"

using namespace proofleaf;
using namespace proofleaf::test;
using proofleaf::print::Light;

namespace {

// Codes that are linear light themselves.
Profile linear_space() {
  const Curve straight(cmsBuildGamma(nullptr, 1.0));
  const cmsCIExyY white{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE primaries{{0.64, 0.33, 1}, {0.21, 0.71, 1}, {0.15, 0.06, 1}};
  auto profile = rgb_profile(white, primaries, straight.get(), "Straight");
  REQUIRE(profile);
  return profile.take();
}

std::unique_ptr<RowSource> resized(std::unique_ptr<RowSource> rows, const Light& light,
                                   uint32_t width, uint32_t height) {
  auto made = print::resampled(std::move(rows), light, width, height);
  REQUIRE(made.ok());
  return made.take();
}

// The formula, written down a second time: Duchon (1979), three lobes.
double kernel(double t) {
  auto sinc = [](double v) {
    return v == 0 ? 1 : std::sin(std::numbers::pi * v) / (std::numbers::pi * v);
  };
  return std::abs(t) < 3 ? sinc(t) * sinc(t / 3) : 0;
}

// Its continuous Fourier transform at f cycles per unit.
double response(double f) {
  double sum = 0;
  constexpr int kSteps = 60000;
  for (int i = 0; i < kSteps; ++i) {
    const double t = 3 * (i + 0.5) / kSteps;
    sum += 2 * kernel(t) * std::cos(2 * std::numbers::pi * f * t) * 3 / kSteps;
  }
  return sum;
}

// Amplitude of a wave of f cycles per pixel along the middle row's green.
double amplitude(const Codes& samples, uint32_t width, uint32_t height, double f) {
  double re = 0, im = 0, weight = 0;
  const uint32_t margin = width / 8;
  for (uint32_t x = margin; x < width - margin; ++x) {
    const double window =
        0.5 - 0.5 * std::cos(2 * std::numbers::pi * (x - margin) / (width - 2 * margin));
    const double v = samples[(size_t{height / 2} * width + x) * 3 + 1] / 65535.0 - 0.5;
    const double phase = 2 * std::numbers::pi * f * (x + 0.5);
    re += window * v * std::cos(phase);
    im += window * v * std::sin(phase);
    weight += window;
  }
  return 2 * std::hypot(re, im) / weight;
}

auto wave(double f) {
  return [f](uint32_t x, uint32_t, uint32_t) {
    return 65535 * (0.5 + 0.02 * std::cos(2 * std::numbers::pi * f * (x + 0.5) + 0.4));
  };
}

}  // namespace

TEST_CASE("resample: the size a picture has is handed on untouched") {
  auto rows = ramp_rows(20, 10);
  const RowSource* before = rows.get();
  const auto same = resized(std::move(rows), light_of(space("srgb")), 20, 10);
  CHECK(same.get() == before);
}

TEST_CASE("resample: a constant stays that constant, to the code") {
  for (const char* id : {"srgb", "romm", "oprgb"}) {
    const Light light = light_of(space(id));
    for (const double code : {0.0, 1.0, 37.0, 4000.0, 32768.0, 60001.0, 65534.0, 65535.0}) {
      for (const auto& [w, h] : {std::pair{71u, 55u}, std::pair{9u, 4u}, std::pair{30u, 47u}}) {
        const auto flat =
            resized(rows_of(30, 22, [&](auto, auto, auto) { return code; }), light, w, h);
        const Codes samples = all_of(*flat);
        CHECK(std::all_of(samples.begin(), samples.end(),
                          [&](uint16_t sample) { return sample == code; }));
      }
    }
  }
}

TEST_CASE("resample: a black and white chequerboard becomes the mean light, 188 of 255") {
  // IEC 61966-2-1: linear 0.5 is 0.7354 or 187.5 of 255 (188 as a whole number); the mean of the
  // codes would be 128.
  const auto half = resized(
      rows_of(64, 64, [](uint32_t x, uint32_t y, uint32_t) { return (x + y) % 2 * 65535.0; }),
      light_of(space("srgb")), 32, 32);
  const Codes samples = all_of(*half);
  for (uint32_t y = 4; y < 28; ++y) {
    for (uint32_t x = 4; x < 28; ++x) {
      const double code = samples[(y * 32 + x) * 3 + 1];
      CHECK(std::lround(code / 257) == 188);
      CHECK(code ==
            doctest::Approx(65535 * (1.055 * std::pow(0.5, 1 / 2.4) - 0.055)).epsilon(1e-4));
    }
  }
}

TEST_CASE("resample: frequencies pass as the kernel's Fourier transform says") {
  const Light light = light_of(linear_space());
  SUBCASE("enlarged four times") {
    for (const double f : {0.02, 0.1, 0.2, 0.3, 0.4}) {
      const auto big = resized(rows_of(240, 8, wave(f)), light, 960, 32);
      const double got = amplitude(all_of(*big), 960, 32, f / 4) / 0.02;
      CHECK(got == doctest::Approx(response(f)).epsilon(0.01));
      // What a kernel lets through of the wave's mirror image at 1 - f.
      const double image = amplitude(all_of(*big), 960, 32, (1 - f) / 4) / 0.02;
      CHECK(image == doctest::Approx(std::abs(response(1 - f))).epsilon(0.05).scale(1));
    }
  }
  SUBCASE("reduced four times") {
    for (const double f : {0.01, 0.05, 0.08, 0.12}) {
      const auto small = resized(rows_of(1600, 16, wave(f)), light, 400, 4);
      const double got = amplitude(all_of(*small), 400, 4, f * 4) / 0.02;
      CHECK(got == doctest::Approx(std::abs(response(f * 4))).epsilon(0.02));
    }
    for (const double f : {0.2, 0.3, 0.45}) {  // would come back as false patterns
      const auto small = resized(rows_of(1600, 16, wave(f)), light, 400, 4);
      double alias = std::abs(std::remainder(f * 4, 1.0));
      CHECK(amplitude(all_of(*small), 400, 4, alias) / 0.02 < 0.02);
    }
  }
}

TEST_CASE("resample: a point becomes the kernel itself") {
  const Light light = light_of(linear_space());
  const auto big = resized(rows_of(31, 31,
                                   [](uint32_t x, uint32_t y, uint32_t) {
                                     return 65535 * (0.5 + 0.1 * (x == 15 && y == 15));
                                   }),
                           light, 31 * 5, 31 * 5);
  const Codes samples = all_of(*big);
  for (uint32_t x = 40; x < 115; ++x) {
    auto at = [&](uint32_t place) {
      double sum = 0, own = kernel((place + 0.5) / 5 - 0.5 - 15);
      for (int k = 0; k < 31; ++k) sum += kernel((place + 0.5) / 5 - 0.5 - k);
      return own / sum;
    };
    const double got = samples[(size_t{77} * 155 + x) * 3] / 65535.0 - 0.5;
    CHECK(got == doctest::Approx(0.1 * at(x) * at(77)).epsilon(0.002).scale(0.1));
  }
}

TEST_CASE("resample: ringing at a step stays within its bound") {
  const Light light = light_of(space("srgb"));
  for (const auto& [dark, bright] :
       {std::pair{10.0, 90.0}, std::pair{2.0, 60.0}, std::pair{40.0, 97.0}}) {
    for (const auto& [w, h] : {std::pair{150u, 40u}, std::pair{23u, 8u}}) {
      const double low = srgb_code_of_l(dark), high = srgb_code_of_l(bright);
      const auto made =
          resized(rows_of(50, 20, [&](uint32_t x, auto, auto) { return x < 25 ? low : high; }),
                  light, w, h);
      const Codes samples = all_of(*made);
      const auto [least, most] = std::minmax_element(samples.begin(), samples.end());
      // Across and down each 5 % of the light; a step across rings across only.
      CHECK(srgb_light(*most) <= srgb_light(high) * 1.0501);
      CHECK(srgb_light(*least) >= srgb_light(low) * 0.9499);
      CHECK(l_of_srgb(*most) - bright < 2);
      CHECK(dark - l_of_srgb(*least) < 2);
    }
  }
}

TEST_CASE("resample: strips of any height give the same picture, rows are asked for once") {
  const Light light = light_of(space("romm"));
  for (const auto& [w, h] :
       {std::pair{97u, 131u}, std::pair{21u, 17u}, std::pair{53u, 90u}, std::pair{53u, 7u}}) {
    check_strips([&, w = w, h = h] { return resized(ramp_rows(53, 67), light, w, h); });
    Reads reads;
    const auto rows = resized(ramp_rows(53, 67, &reads), light, w, h);
    all_of(*rows, 7);
    CHECK(reads.backwards == 0);
    CHECK(reads.rows <= 67);
  }
}

TEST_CASE("resample: a part asks only for the rows it needs") {
  Reads reads;
  const auto rows = resized(ramp_rows(40, 1000, &reads), light_of(space("srgb")), 40, 2000);
  Codes some(40 * 3 * 10);
  REQUIRE(rows->read(1000, 10, some).ok());
  CHECK(reads.rows <= 5 + 6);
}

TEST_CASE("crop: whole pixels of the master, and nothing outside") {
  auto part = print::cropped(ramp_rows(30, 20), 4, 5, 10, 7);
  REQUIRE(part);
  const Codes samples = all_of(*part.value(), 3);
  CHECK(samples[0] == ramp_sample(4, 5, 0));
  CHECK(samples[(6 * 10 + 9) * 3 + 2] == ramp_sample(13, 11, 2));
  CHECK_FALSE(print::cropped(ramp_rows(30, 20), 25, 0, 6, 1).ok());
  CHECK_FALSE(print::cropped(ramp_rows(30, 20), 0, 0xFFFFFFFF, 1, 2).ok());
}
