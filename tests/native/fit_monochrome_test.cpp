// Monochrome against IEC 61966-2-1 and against what toning must leave alone.
#include <numbers>

#include "fit/master_space.h"
#include "fit/monochrome.h"
#include "rank_papers.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

// IEC 61966-2-1: linear light of a code.
double decoded(double code) {
  return code <= 0.04045 ? code / 12.92 : std::pow((code + 0.055) / 1.055, 2.4);
}
double encoded(double light) {
  return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
}

std::array<float, 3> mapped(const Monochrome& monochrome, std::array<float, 3> rgb,
                            const Correction& correction = {}, const char* space = "srgb") {
  auto map = correction_map(standard_profile(space).take(), correction, monochrome);
  REQUIRE_MESSAGE(map.ok(), (map.ok() ? "" : map.error().message));
  map.value()->apply(rgb);
  return rgb;
}

Lab colour_of(const std::array<float, 3>& rgb, const char* space = "srgb") {
  auto made = MasterSpace::make(standard_profile(space).take());
  REQUIRE(made);
  return made.value()->colours(rgb)[0];
}

}  // namespace

TEST_CASE("fit: a monochrome's channels are mixed in linear light") {
  const std::array<std::array<float, 3>, 5> colours{{{0.9f, 0.1f, 0.2f},
                                                     {0.1f, 0.7f, 0.3f},
                                                     {0.2f, 0.3f, 0.95f},
                                                     {0.02f, 0.03f, 0.01f},
                                                     {0.6f, 0.6f, 0.6f}}};
  Monochrome m;
  m.on = true;
  for (const std::array<double, 3>& weights :
       {m.weights, {1, 0, 0}, {0.4, 0.4, 0.2}, {1.5, -0.3, 0.3}}) {
    m.weights = weights;
    for (const auto& rgb : colours) {
      double light = 0;
      for (size_t c = 0; c < 3; ++c) light += weights[c] * decoded(rgb[c]);
      light /= weights[0] + weights[1] + weights[2];
      const auto grey = mapped(m, rgb);
      for (float code : grey) {
        INFO(weights[0] << " " << rgb[0] << " " << rgb[1] << " " << rgb[2]);
        CHECK(std::abs(code - encoded(std::max(0.0, light))) < 2e-4);
      }
    }
  }
}

TEST_CASE("fit: by its default weights a monochrome keeps sRGB's luminance, worked by hand") {
  // Pure sRGB red: Y = 0.2126, code 1.055 * 0.2126^(1/2.4) - 0.055 = 0.498.
  Monochrome m;
  m.on = true;
  for (float code : mapped(m, {1, 0, 0})) CHECK(std::abs(code - 0.4984) < 5e-4);
  CHECK(colour_of(mapped(m, {0, 0, 1})).l ==
        doctest::Approx(116 * std::cbrt(0.0722) - 16).epsilon(1e-3));
}

TEST_CASE("fit: monochrome bands lighten their own hue and no neutral") {
  Monochrome m;
  m.on = true;
  m.bands[5] = 20;  // blue
  const std::array<float, 3> sky{0.3f, 0.5f, 0.8f}, leaf{0.3f, 0.6f, 0.2f}, grey{0.5f, 0.5f, 0.5f};
  Monochrome plain;
  plain.on = true;
  CHECK(colour_of(mapped(m, sky)).l > colour_of(mapped(plain, sky)).l + 8);
  CHECK(std::abs(colour_of(mapped(m, leaf)).l - colour_of(mapped(plain, leaf)).l) < 0.01);
  CHECK(std::abs(colour_of(mapped(m, grey)).l - colour_of(mapped(plain, grey)).l) < 0.01);
}

TEST_CASE("fit: the tone curve comes after the mix") {
  Monochrome m;
  m.on = true;
  Correction c;
  c.curve = {{50, 60}};
  const auto code = static_cast<float>(grey_code(50));
  CHECK(colour_of(mapped(m, {code, code, code}, c)).l == doctest::Approx(60).epsilon(1e-3));
}

TEST_CASE("fit: toning leaves white and black neutral and lands on its hue between") {
  for (const char* space : {"srgb", "romm"}) {
    Monochrome m;
    m.on = true;
    m.shadows = {250, 8};
    m.highlights = {80, 12};
    for (double l = 0; l <= 100; l += 2.5) {
      const Lab tone = toned(m, l);
      CHECK(tone.l == l);
      if (l == 0 || l == 100) CHECK(std::hypot(tone.a, tone.b) == 0);
    }
    const std::array<float, 3> black = mapped(m, {0, 0, 0}, {}, space),
                               white = mapped(m, {1, 1, 1}, {}, space);
    for (float code : black) CHECK(code < 1e-3);
    for (float code : white) CHECK(code > 0.999);
    CHECK(std::hypot(colour_of(white, space).a, colour_of(white, space).b) < 0.1);
    CHECK(std::hypot(colour_of(black, space).a, colour_of(black, space).b) < 0.1);
    auto hue = [](const Lab& lab) { return std::atan2(lab.b, lab.a) * 180 / std::numbers::pi; };
    const Lab dark = toned(m, 25), light = toned(m, 75);
    CHECK(std::hypot(dark.a, dark.b) == doctest::Approx(8));
    CHECK(std::remainder(hue(dark) - 250, 360.0) == doctest::Approx(0));
    CHECK(std::hypot(light.a, light.b) == doctest::Approx(12));
    CHECK(hue(light) == doctest::Approx(80));
    m.balance = 100;  // the highlights' tone reaches down
    CHECK(hue(toned(m, 45)) == doctest::Approx(80));
  }
}

TEST_CASE("fit: an untoned monochrome prints on the paper's own neutral") {
  // Media-relative, the print of a neutral is what the paper's neutral is: compare with the greys
  // of the master themselves.
  const Profile romm = standard_profile("romm").take();
  const Paper paper = paper_at(kDemo + "papers/tarnsea-baryta.icc");
  Monochrome m;
  m.on = true;
  auto map = correction_map(romm, {}, m);
  REQUIRE(map);
  const auto with = ProofChain::make(romm, paper, {}, {}, map.value()).take();
  const auto plain = ProofChain::make(romm, paper, {}, {}).take();
  for (float level : {0.0f, 0.1f, 0.3f, 0.5f, 0.8f, 1.0f}) {
    const ProofPoint one = with->point(level, level, level),
                     two = plain->point(level, level, level);
    CHECK(delta_e_2000(one.on_paper, two.on_paper) < 0.05);
  }
}

TEST_CASE("fit: a monochrome out of range is refused by name") {
  auto refused = [](const Monochrome& monochrome, const char* word) {
    const Status sound = check(monochrome);
    REQUIRE_FALSE(sound.ok());
    CHECK(sound.error().message.find(word) != std::string::npos);
  };
  Monochrome m;
  CHECK(check(m).ok());
  m.weights = {0.5, -0.5, 0};
  refused(m, "weights");
  m = {};
  m.shadows.chroma = 31;
  refused(m, "shadows.chroma");
  m = {};
  m.bands[0] = -31;
  refused(m, "bands.red");
}
