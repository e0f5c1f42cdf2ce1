// Corrections of single colours: curves, bands, neutrals, the way to L*a*b* and back, and how they
// go into a proof.
#include <algorithm>
#include <limits>
#include <numbers>
#include <random>

#include "fit/master_space.h"
#include "fit/monochrome.h"
#include "fit_maps.h"
#include "proof/device_cube.h"
#include "rank_papers.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

// No knot of a rising set may make the cubic between two points turn: Fritsch and Carlson 1980,
// from memory: with alpha, beta the end slopes over the chord's, monotone where alpha + beta <= 3
// or alpha^2 + beta^2 + alpha * beta - 6 alpha - 6 beta + 9 <= 0 or 2 alpha + beta <= 3 or
// alpha + 2 beta <= 3.
bool monotone_by_the_paper(double alpha, double beta) {
  constexpr double kRounding = 1e-9;
  if (alpha < 0 || beta < 0) return false;
  return 2 * alpha + beta <= 3 + kRounding || alpha + 2 * beta <= 3 + kRounding ||
         alpha * alpha + alpha * beta + beta * beta - 6 * alpha - 6 * beta + 9 <= kRounding;
}

std::shared_ptr<const MasterSpace> space_of(const Profile& profile) {
  auto space = MasterSpace::make(profile);
  REQUIRE(space);
  return space.take();
}

std::vector<float> random_colours(size_t count, uint32_t seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> level(0, 1);
  std::vector<float> rgb(count * 3);
  for (float& value : rgb) value = level(random);
  return rgb;
}

double hue_angle(const Lab& lab) { return std::atan2(lab.b, lab.a) * 180 / std::numbers::pi; }
double chroma(const Lab& lab) { return std::hypot(lab.a, lab.b); }
double distance(const Lab& p, const Lab& q) {
  return std::sqrt((p.l - q.l) * (p.l - q.l) + (p.a - q.a) * (p.a - q.a) +
                   (p.b - q.b) * (p.b - q.b));
}

}  // namespace

TEST_CASE("fit: a tone curve meets the condition of Fritsch and Carlson") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> anywhere(0, 100);
  for (int round = 0; round < 400; ++round) {
    std::vector<double> in, out;
    for (int i = 0; i < 8; ++i) {
      in.push_back(anywhere(random));
      out.push_back(round % 3 == 0 ? std::floor(anywhere(random) / 30) * 30 : anywhere(random));
    }
    std::sort(in.begin(), in.end());
    std::sort(out.begin(), out.end());
    std::vector<TonePoint> points;
    for (size_t i = 0; i < in.size(); ++i) points.push_back({in[i], out[i]});
    const MonotoneCubic curve(points);
    for (size_t i = 0; i + 1 < points.size(); ++i) {
      const double chord = (points[i + 1].out - points[i].out) / (points[i + 1].in - points[i].in);
      if (chord == 0) {
        CHECK(curve.slopes()[i] == 0);
        CHECK(curve.slopes()[i + 1] == 0);
      } else {
        CHECK(monotone_by_the_paper(curve.slopes()[i] / chord, curve.slopes()[i + 1] / chord));
      }
      CHECK(curve(points[i].in) == doctest::Approx(points[i].out));
    }
    double last = -1;
    for (double l = 0; l <= 100; l += 0.05) {
      CHECK_FALSE(curve(l) < last - 1e-9);
      last = curve(l);
    }
  }
}

TEST_CASE("fit: the test data of Fritsch and Carlson's paper stay between their neighbours") {
  // Their data set RPN 14, from memory.
  const std::vector<TonePoint> data{{7.99, 0},       {8.09, 2.76429e-5}, {8.19, 4.37498e-2},
                                    {8.7, 0.169183}, {9.2, 0.469428},    {10, 0.943740},
                                    {12, 0.998636},  {15, 0.999919},     {20, 0.999994}};
  const MonotoneCubic curve(data);
  for (size_t i = 0; i + 1 < data.size(); ++i) {
    for (double t = 0; t <= 1; t += 0.01) {
      const double value = curve(data[i].in + t * (data[i + 1].in - data[i].in));
      CHECK(value >= data[i].out - 1e-12);
      CHECK(value <= data[i + 1].out + 1e-12);
    }
  }
}

TEST_CASE("fit: a straight line stays one") {
  const MonotoneCubic line(std::vector<TonePoint>{{0, 0}, {10, 10}, {55, 55}, {100, 100}});
  for (double l = 0; l <= 100; l += 0.5) CHECK(line(l) == doctest::Approx(l));
}

TEST_CASE("fit: L* is the CIE's, by hand") {
  // CIE 15:2018 8.2.1: Y = 0.18 gives 116 * 0.18^(1/3) - 16 = 49.496; Y = 0.005, below (6/29)^3,
  // gives 903.2963 * 0.005 = 4.516.
  CHECK(lab_from_xyz({0, 0.18, 0}).l == doctest::Approx(49.496).epsilon(1e-5));
  CHECK(lab_from_xyz({0, 0.005, 0}).l == doctest::Approx(4.51648).epsilon(1e-5));
  const auto space = space_of(standard_profile("srgb").take());
  // IEC 61966-2-1: code 0.5 is ((0.5 + 0.055) / 1.055)^2.4 = 0.214041 of linear light.
  CHECK(space->linear(0.5) == doctest::Approx(0.214041).epsilon(1e-4));
  CHECK(space->linear(0.04) == doctest::Approx(0.04 / 12.92).epsilon(1e-3));
}

TEST_CASE("fit: colours go to L*a*b* and back to the codes they came from") {
  for (const char* name : {"srgb", "p3", "oprgb", "romm"}) {
    const Profile profile = standard_profile(name).take();
    const auto space = space_of(profile);
    const std::vector<float> rgb = random_colours(4000, 3);
    // The way there against LittleCMS' own transform.
    std::vector<float> reference(rgb.size()), back(rgb.size());
    cmsDoTransform(to_lab(profile, INTENT_RELATIVE_COLORIMETRIC).get(), rgb.data(),
                   reference.data(), static_cast<cmsUInt32Number>(rgb.size() / 3));
    const std::vector<Lab> colours = space->colours(rgb);
    space->codes(colours, back);
    double worst = 0, off = 0;
    const std::vector<Lab> again = space->colours(back);
    for (size_t i = 0; i < colours.size(); ++i) {
      const Lab wanted{reference[i * 3], reference[i * 3 + 1], reference[i * 3 + 2]};
      off = std::max(off, distance(wanted, colours[i]));
      worst = std::max(worst, distance(again[i], colours[i]));
    }
    INFO(name);
    CHECK(off < 1e-4);
    CHECK(worst < 0.01);
  }
}

TEST_CASE("fit: what a space cannot hold keeps lightness and hue and loses chroma") {
  const auto space = space_of(standard_profile("srgb").take());
  std::vector<Lab> wanted;
  for (int hue = 0; hue < 360; hue += 10) {
    for (double l : {10.0, 30.0, 50.0, 70.0, 90.0}) {
      const double t = hue * std::numbers::pi / 180;
      wanted.push_back({l, 140 * std::cos(t), 140 * std::sin(t)});
    }
  }
  std::vector<float> rgb(wanted.size() * 3);
  space->codes(wanted, rgb);
  const std::vector<Lab> got = space->colours(rgb);
  for (size_t i = 0; i < wanted.size(); ++i) {
    INFO("L* " << wanted[i].l << ", hue " << hue_angle(wanted[i]));
    CHECK(std::abs(got[i].l - wanted[i].l) < 2 * MasterSpace::kInside);
    CHECK(chroma(got[i]) < 140);
    CHECK(chroma(got[i]) > 5);
    const double turn = std::remainder(hue_angle(got[i]) - hue_angle(wanted[i]), 360.0);
    CHECK(chroma(got[i]) * std::abs(turn) * std::numbers::pi / 180 < 2 * MasterSpace::kInside);
    // As much as fits: a channel stands near its end.
    const auto channels = std::minmax({rgb[i * 3], rgb[i * 3 + 1], rgb[i * 3 + 2]});
    CHECK((channels.first < 0.03 || channels.second > 0.98));
  }
  for (float code : rgb) CHECK((code >= 0 && code <= 1));
}

TEST_CASE("fit: a correction of nothing changes nothing") {
  const auto map = map_of(standard_profile("romm").take(), {});
  CHECK_FALSE(map->changes());
  std::vector<float> rgb = random_colours(1000, 5);
  const std::vector<float> before = rgb;
  map->apply(rgb);
  CHECK(rgb == before);
  // One that leaves some colours alone leaves their very codes.
  Correction shadows;
  shadows.shadows = 4;
  const Profile romm = standard_profile("romm").take();
  const auto lifted = map_of(romm, shadows);
  CHECK(lifted->changes());
  lifted->apply(rgb);
  const std::vector<Lab> colours = space_of(romm)->colours(before);
  for (size_t i = 0; i < colours.size(); ++i) {
    const bool same = std::equal(&rgb[i * 3], &rgb[i * 3] + 3, &before[i * 3]);
    if (colours[i].l > 50) CHECK(same);
    if (colours[i].l > 2 && colours[i].l < 48) CHECK_FALSE(same);
  }
}

TEST_CASE("fit: tone controls do what they say and never fold") {
  Correction c;
  c.shadows = 5;
  CHECK(LabCorrection(c).tone(50.0 / 3) == doctest::Approx(50.0 / 3 + 5));
  CHECK(LabCorrection(c).tone(0) == 0);
  CHECK(LabCorrection(c).tone(60) == 60);
  c = {};
  c.highlights = -5;
  CHECK(LabCorrection(c).tone(250.0 / 3) == doctest::Approx(250.0 / 3 - 5));
  CHECK(LabCorrection(c).tone(100) == 100);
  CHECK(LabCorrection(c).tone(40) == 40);
  c = {};
  c.contrast = 40;
  const LabCorrection steep(c);
  CHECK((steep.tone(50.5) - steep.tone(49.5)) == doctest::Approx(1.2).epsilon(1e-3));
  c.curve = {{30, 40}};
  CHECK(LabCorrection({{{30, 40}}, 0, 0, 0, 0, {}, {}, 0}).tone(30) == doctest::Approx(40));
  for (double lift : {-7.0, 7.0}) {
    for (double contrast : {-100.0, 100.0}) {
      const LabCorrection most({{{20, 20}, {60, 90}}, lift, -lift, contrast, 0, {}, {}, 0});
      for (double l = 0; l < 100; l += 0.1) CHECK(most.tone(l + 0.1) >= most.tone(l));
    }
  }
}

TEST_CASE("fit: bands of hue add up to one and are each whole at their middle") {
  for (double hue = -180; hue < 360; hue += 0.5) {
    const double t = hue * std::numbers::pi / 180;
    const BandsOfHue at = bands_of_hue(std::cos(t), std::sin(t));
    CHECK(at_hue(at, [](size_t) { return 1.0; }) == doctest::Approx(1));
    CHECK(at.first_weight >= 0);
    CHECK(at.first_weight <= 1);
    CHECK(at.second == (at.first + 1) % kHueBands);
  }
  for (size_t band = 0; band < kHueBands; ++band) {
    const double t = kHueBandNames[band].middle * std::numbers::pi / 180;
    const BandsOfHue at = bands_of_hue(std::cos(t), std::sin(t));
    CHECK(at_hue(at, [&](size_t i) { return i == band ? 1.0 : 0.0; }) ==
          doctest::Approx(1).epsilon(1e-6));
    Correction c;
    c.bands[band] = {50, 8};
    c.saturation = 10;
    const Lab to = LabCorrection(c)({50, 20 * std::cos(t), 20 * std::sin(t)});
    CHECK(chroma(to) == doctest::Approx(20 * 1.5 * 1.1));
    CHECK(std::remainder(hue_angle(to) - kHueBandNames[band].middle, 360.0) ==
          doctest::Approx(8).epsilon(1e-6));
    CHECK(to.l == 50);
  }
}

TEST_CASE("fit: turns of neighbouring hues never pass each other") {
  Correction c;
  for (size_t i = 0; i < kHueBands; ++i) c.bands[i].turn = i % 2 == 0 ? 10 : -10;
  const LabCorrection most(c);
  auto turned = [&](double hue) {
    const double t = hue * std::numbers::pi / 180;
    return hue_angle(most({50, 30 * std::cos(t), 30 * std::sin(t)}));
  };
  for (double hue = 0; hue < 360; hue += 0.25) {
    CHECK(std::remainder(turned(hue + 0.25) - turned(hue), 360.0) > 0);
  }
}

TEST_CASE("fit: a cast is taken out of neutrals and leaves white, black and strong colours") {
  Correction c;
  for (NeutralShift& shift : c.neutral) shift = {2, -5};
  const LabCorrection shift(c);
  for (double l : {10.0, 20.0, 35.0, 50.0, 65.0, 80.0, 90.0}) {
    CHECK(distance(shift({l, -2, 5}), {l, 0, 0}) < 0.4);  // fades a little with its own chroma
    CHECK(distance(shift({l, 0, 0}), {l, 2, -5}) < 1e-9);
  }
  CHECK(distance(shift({100, 0, 0}), {100, 0, 0}) == 0);
  CHECK(distance(shift({0, 0, 0}), {0, 0, 0}) == 0);
  CHECK(distance(shift({50, 60, 0}), {50, 60, 0}) < 0.01);
  // Each tone by itself.
  c = {};
  c.neutral[0] = {4, 0};
  CHECK(LabCorrection(c)({20, 0, 0}).a == doctest::Approx(4));
  CHECK(LabCorrection(c)({50, 0, 0}).a == doctest::Approx(0));
}

TEST_CASE("fit: corrections out of range are refused by name") {
  const double kNone = std::numeric_limits<double>::quiet_NaN();
  auto refused = [](const Correction& correction, const char* word) {
    const Status sound = check(correction);
    REQUIRE_FALSE(sound.ok());
    INFO(sound.error().message);
    CHECK(sound.error().message.find(word) != std::string::npos);
    CHECK(sound.error().message.back() == '.');
    CHECK_FALSE(correction_map(standard_profile("srgb").take(), correction, {}).ok());
  };
  Correction c;
  CHECK(check(c).ok());
  c.shadows = 7.1;
  refused(c, "shadows");
  c = {};
  c.contrast = kNone;
  refused(c, "contrast");
  c = {};
  c.bands[3].turn = -11;
  refused(c, "bands.green.turn must be a number between -10 and 10");
  c = {};
  c.neutral[1].b = 20;
  refused(c, "neutral.midtones.b");
  for (const std::vector<TonePoint>& curve : {std::vector<TonePoint>{{50, 40}, {50, 60}},
                                              {{20, 40}, {60, 30}},
                                              {{20, kNone}},
                                              {{-1, 0}},
                                              {{50, 101}},
                                              std::vector<TonePoint>(9)}) {
    c = {};
    c.curve = curve;
    refused(c, "curve");
  }
}

TEST_CASE("fit: a proof carries a correction and still measures against the master") {
  const Profile romm = standard_profile("romm").take();
  const Paper paper = paper_at(kDemo + "papers/quillmoor-cotton-smooth.icc");
  Correction c;
  c.shadows = 5;
  c.saturation = 15;
  c.bands[1].turn = 5;
  const auto map = map_of(romm, c);
  const PrintIntent print{Intent::relative, true};
  const auto plain = ProofChain::make(romm, paper, print, {}).take();
  const auto with = ProofChain::make(romm, paper, print, {}, map).take();
  const std::vector<float> rgb = random_colours(300, 11);
  std::vector<float> corrected = rgb;
  map->apply(corrected);
  std::vector<ProofPoint> points(300), expected(300), master(300);
  with->points(rgb, points);
  plain->points(corrected, expected);
  plain->points(rgb, master);
  std::vector<float> screen(900), wanted_screen(900), device(900), wanted_device(900), off(300);
  with->to_screen(rgb, screen);
  plain->to_screen(corrected, wanted_screen);
  with->to_device(rgb, device);
  plain->to_device(corrected, wanted_device);
  with->off_gamut(rgb, off);
  CHECK(screen == wanted_screen);
  CHECK(device == wanted_device);
  for (size_t i = 0; i < points.size(); ++i) {
    CHECK(distance(points[i].master, master[i].master) == 0);
    CHECK(distance(points[i].corrected, expected[i].master) == 0);
    CHECK(distance(points[i].on_paper, expected[i].on_paper) == 0);
    CHECK(points[i].device == expected[i].device);
    CHECK(points[i].screen == expected[i].screen);
    CHECK(points[i].off_gamut == expected[i].off_gamut);
    CHECK(off[i] == static_cast<float>(expected[i].off_gamut));
    CHECK(points[i].delta_e == delta_e_2000(master[i].master, expected[i].on_paper));
    CHECK(distance(master[i].corrected, master[i].master) == 0);
  }
  // And so do the cubes: a delivery's node has the corrected device value.
  std::shared_ptr<const ProofChain> chain = with;
  auto cube = DeviceCube::make(chain, 33);
  REQUIRE(cube);
  const std::vector<uint16_t> black{0, 0, 0}, white{65535, 65535, 65535};
  for (const auto& pixel : {black, white}) {
    cube.value()->cover(pixel);
    std::vector<uint16_t> lanes(4);
    apply_cube(cube.value()->cube(), pixel, lanes);
    std::vector<float> at(3, pixel[0] / 65535.0f), wanted(3);
    with->to_device(at, wanted);
    for (size_t c3 = 0; c3 < 3; ++c3) CHECK(lanes[c3] == doctest::Approx(65535 * wanted[c3]));
  }
}
