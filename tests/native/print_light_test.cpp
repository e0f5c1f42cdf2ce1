// Codes, linear light and lightness.
#include "colour/lcms.h"
#include "print_rows.h"

using namespace proofleaf;
using namespace proofleaf::test;
using proofleaf::print::Light;

TEST_CASE("print light: every code is found again, in every working space") {
  for (const char* id : {"srgb", "p3", "oprgb", "romm"}) {
    const Light light = light_of(space(id));
    CHECK(light.note().empty());
    size_t wrong = 0;
    for (uint32_t code = 0; code < 65536; ++code) {
      const auto sample = static_cast<uint16_t>(code);
      for (size_t c = 0; c < 3; ++c) wrong += light.encode(c, light.linear(c, sample)) != sample;
    }
    CHECK_MESSAGE(wrong == 0, id);
  }
}

TEST_CASE("print light: a coarse 16-bit table as curve loses no light either") {
  const Curve gamma(cmsBuildGamma(nullptr, 2.2));
  std::vector<uint16_t> nodes(1024);
  for (size_t i = 0; i < nodes.size(); ++i) {
    nodes[i] = static_cast<uint16_t>(
        std::lround(65535 * cmsEvalToneCurveFloat(gamma.get(), static_cast<float>(i) / 1023)));
  }
  const Curve table(cmsBuildTabulatedToneCurve16(nullptr, 1024, nodes.data()));
  const cmsCIExyY white{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE primaries{{0.64, 0.33, 1}, {0.21, 0.71, 1}, {0.15, 0.06, 1}};
  auto profile = rgb_profile(white, primaries, table.get(), "Table");
  REQUIRE(profile);
  const Light light = light_of(profile.value());
  // Where the table is flat, codes are one colour, and another of them may come back.
  double worst = 0, widest = 0;
  for (uint32_t code = 0; code < 65536; ++code) {
    const auto sample = static_cast<uint16_t>(code);
    const uint16_t back = light.encode(1, light.linear(1, sample));
    worst = std::max(worst, std::abs(double(light.linear(1, back)) - light.linear(1, sample)));
    if (code > 2000) widest = std::max(widest, std::abs(double(back) - sample));
  }
  CHECK(worst < 1e-7);
  CHECK(widest == 0);
}

TEST_CASE("print light: sRGB is IEC 61966-2-1, L* is CIE 15:2018") {
  const Light light = light_of(space("srgb"));
  for (const int code : {0, 10, 700, 2650, 2660, 12000, 32768, 50000, 65535}) {
    const auto sample = static_cast<uint16_t>(code);
    CHECK(light.linear(0, sample) == doctest::Approx(srgb_light(code)).epsilon(2e-5));
    const uint16_t rgb[3] = {sample, sample, sample};
    CHECK(light.lightness(rgb) == doctest::Approx(l_of_srgb(code)).epsilon(2e-4));
  }
  // Luminance of the primaries, IEC 61966-2-1 (0.2126, 0.7152, 0.0722), after adaptation to D50:
  // 0.2225, 0.7169, 0.0606 (the Y of the colorants in the profile of the same standard's makers).
  CHECK(light.luminance(1, 0, 0) == doctest::Approx(0.2225).epsilon(0.002));
  CHECK(light.luminance(0, 1, 0) == doctest::Approx(0.7169).epsilon(0.002));
  CHECK(light.luminance(0, 0, 1) == doctest::Approx(0.0606).epsilon(0.01));
  for (const double l : {0.0, 1.0, 7.9, 8.1, 50.0, 96.0, 100.0}) {
    CHECK(light.lightness(Light::luminance_of(static_cast<float>(l))) ==
          doctest::Approx(l).epsilon(1e-4));
    const auto grey = light.neutral(l);
    CHECK(l_of_srgb(grey[1]) == doctest::Approx(l).epsilon(0.01));
  }
}

TEST_CASE("print light: another lightness keeps the colour") {
  const Profile srgb = space("srgb");
  const Light light = light_of(srgb);
  const Transform to = to_lab(srgb, INTENT_RELATIVE_COLORIMETRIC);
  auto lab = [&](const uint16_t* rgb) {
    float in[3], out[3];
    for (size_t c = 0; c < 3; ++c) in[c] = float(rgb[c]) / 65535;
    cmsDoTransform(to.get(), in, out, 1);
    return Lab{out[0], out[1], out[2]};
  };
  const uint16_t colours[][3] = {
      {40000, 20000, 9000}, {9000, 30000, 20000}, {3000, 3000, 3000}, {52000, 51000, 60000}};
  for (const auto& rgb : colours) {
    const Lab before = lab(rgb);
    for (const double step : {-3.0, 2.0, 4.0}) {
      uint16_t out[3];
      light.set_lightness(rgb, static_cast<float>(before.l + step), out);
      const Lab after = lab(out);
      CHECK(after.l - before.l == doctest::Approx(step).epsilon(0.02));
      const double turn = std::atan2(after.b, after.a) - std::atan2(before.b, before.a);
      if (std::hypot(before.a, before.b) > 2) CHECK(std::abs(std::remainder(turn, 6.2832)) < 0.02);
    }
  }
  // Greys stay grey, from black on.
  for (const uint16_t code : {uint16_t{0}, uint16_t{100}, uint16_t{30000}, uint16_t{65535}}) {
    const uint16_t grey[3] = {code, code, code};
    uint16_t out[3];
    light.set_lightness(grey, 3, out);
    CHECK(out[0] == out[1]);
    CHECK(out[1] == out[2]);
    CHECK(l_of_srgb(out[0]) == doctest::Approx(3).epsilon(0.01));
  }
  // A full red cannot be made lighter without turning pale; it stays.
  const uint16_t red[3] = {65535, 0, 0};
  uint16_t out[3];
  light.set_lightness(red, 70, out);
  CHECK(out[0] == 65535);
  CHECK(out[1] == 0);
}

TEST_CASE("print light: a profile of tables is reckoned by its greys, and says so") {
  // An RGB paper of this project's own, with tables.
  auto profile = Profile::open(file_bytes(kDemo + "papers/tarnsea-baryta.icc"), "paper.icc");
  REQUIRE(profile);
  const Light light = light_of(profile.value());
  CHECK(light.note().find("by its greys") != std::string::npos);
  const Transform to = to_lab(profile.value(), INTENT_RELATIVE_COLORIMETRIC);
  auto y_of_grey = [&](float v) {
    const float in[3] = {v, v, v};
    float lab[3];
    cmsDoTransform(to.get(), in, lab, 1);
    return y_of(lab[0]);
  };
  const double black = y_of_grey(0), white = y_of_grey(1);
  for (const float v : {0.2f, 0.5f, 0.8f}) {
    const auto code = static_cast<uint16_t>(std::lround(v * 65535));
    CHECK(light.linear(0, code) ==
          doctest::Approx((y_of_grey(v) - black) / (white - black)).epsilon(0.01));
    CHECK(light.encode(0, light.linear(0, code)) == code);
  }
  CHECK_FALSE(Light::of(paper_at(kCmykProfile).profile).ok());
}
