// Clipping, levels and banding against pictures made with known areas and steps.
#include <algorithm>
#include <cmath>

#include "condition/regions.h"
#include "condition_pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

struct Box {
  uint32_t x, y, w, h;
  uint16_t r, g, b;
};

Bytes boxes(uint32_t width, uint32_t height, uint16_t ground, const std::vector<Box>& list) {
  std::vector<uint16_t> rgb(size_t{width} * height * 3, ground);
  for (const Box& box : list) {
    for (uint32_t y = box.y; y < box.y + box.h; ++y) {
      for (uint32_t x = box.x; x < box.x + box.w; ++x) {
        uint16_t* pixel = &rgb[(size_t{y} * width + x) * 3];
        pixel[0] = box.r;
        pixel[1] = box.g;
        pixel[2] = box.b;
      }
    }
  }
  return tiff_of(width, height, rgb);
}

bool same(const Place& place, uint32_t x, uint32_t y, uint32_t w, uint32_t h) {
  return place.x == x && place.y == y && place.width == w && place.height == h;
}

}  // namespace

TEST_CASE("condition: clipped areas are counted exactly and found where they are") {
  const auto report = report_of(boxes(400, 300, 30000,
                                      {{10, 20, 100, 50, 65535, 65535, 65535},
                                       {200, 100, 30, 40, 65500, 65500, 65500},
                                       {300, 200, 60, 70, 0, 100, 128},
                                       {50, 200, 40, 30, 65535, 20000, 0}}));
  const double pixels = 400 * 300;
  const Finding white = found(report, "highlights");
  CHECK(*white.value == doctest::Approx(100 * (5000 + 1200) / pixels));
  CHECK(number(white, "red_percent") == doctest::Approx(100 * (5000 + 1200 + 1200) / pixels));
  CHECK(number(white, "green_percent") == doctest::Approx(100 * (5000 + 1200) / pixels));
  CHECK(number(white, "largest_percent") == doctest::Approx(100 * 5000 / pixels));
  REQUIRE(white.places.size() == 2);
  CHECK(same(white.places[0], 10, 20, 100, 50));
  CHECK(same(white.places[1], 200, 100, 30, 40));
  CHECK(white.severity == Severity::act);
  const Finding black = found(report, "shadows");
  CHECK(*black.value == doctest::Approx(100 * 4200 / pixels));
  REQUIRE(black.places.size() == 1);
  CHECK(same(black.places[0], 300, 200, 60, 70));
  const Finding colour = found(report, "colours");
  CHECK(*colour.value == doctest::Approx(100 * 1200 / pixels));
  REQUIRE(colour.places.size() == 1);
  CHECK(same(colour.places[0], 50, 200, 40, 30));
}

TEST_CASE("condition: regions that meet late are one") {
  using namespace proofleaf::condition;
  std::vector<Region> done;
  Regions regions([&](const Region& region) { done.push_back(region); });
  regions.add_row(0, {{0, 2, 1}, {6, 8, 1}, {20, 22, 2}});
  regions.add_row(1, {{1, 3, 1}, {5, 7, 1}, {22, 23, 2}});  // the last over a corner
  regions.add_row(2, {{2, 6, 1}});
  regions.add_row(9, {{2, 6, 1}});
  regions.finish();
  REQUIRE(done.size() == 3);
  std::sort(done.begin(), done.end(),
            [](const Region& a, const Region& b) { return a.area > b.area; });
  CHECK(done[0].area == 12);
  CHECK(done[0].left == 0);
  CHECK(done[0].right == 8);
  CHECK(done[0].bottom == 3);
  CHECK(done[1].area == 4);
  CHECK(done[1].top == 9);
  CHECK(done[2].area == 3);
}

TEST_CASE("condition: glints are told from a blown sky") {
  Tones glints = texture(Texture::foliage, 900, 700, 4);
  for (uint32_t i = 0; i < 40; ++i) {
    for (uint32_t j = 0; j < 25; ++j) glints.at(20 + i * 20 + j % 5, 30 + i * 15 + j / 5) = 100;
  }
  const auto small = report_of(tiff_of(glints));
  CHECK(found(small, "highlights").severity == Severity::good);
  CHECK(number(found(small, "highlights"), "specular_percent") ==
        doctest::Approx(100.0 * 1000 / 630000));
  // A sky that runs up into white, with noise, so that it is in many small pieces at its rim.
  Tones sky = tones(900, 700, [](double, double y) { return std::min(100.0, 104 - y * 0.03); });
  add_noise(sky, 0.7, 3);
  for (double& l : sky.l) l = std::min(l, 100.0);
  const auto blown = report_of(tiff_of(sky));
  CHECK(found(blown, "highlights").severity == Severity::act);
  CHECK(number(found(blown, "highlights"), "specular_percent") < 0.01);
  CHECK(found(blown, "highlights").places[0].height > 80);
}

TEST_CASE("condition: a blown sky or a black night is no border") {
  Tones sky = tones(600, 400, [](double x, double y) { return y < 120 + x / 20 ? 100 : 50; });
  CHECK(number(found(report_of(tiff_of(sky)), "highlights"), "border_percent") == 0);
  Tones moon = tones(600, 400,
                     [](double x, double y) { return std::hypot(x - 300, y - 200) < 60 ? 80 : 0; });
  const auto report = report_of(tiff_of(moon));
  CHECK(number(found(report, "shadows"), "border_percent") == 0);
  CHECK(*found(report, "shadows").value > 90);
}

TEST_CASE("condition: 8-bit tones in a 16-bit file, and a comb after stretching, are told") {
  Tones picture = texture(Texture::foliage, 900, 700, 9);
  std::vector<uint16_t> rgb = rgb_of(picture, 8);
  const auto eight = report_of(tiff_of(900, 700, rgb, 16));
  CHECK(found(eight, "levels").variant == "eight");
  CHECK(*found(eight, "levels").value == doctest::Approx(8).epsilon(0.01));
  CHECK(found(report_of(tiff_of(picture)), "levels").severity == Severity::good);
  CHECK(found(report_of(tiff_of(900, 700, rgb, 8)), "levels").severity == Severity::good);
  for (uint16_t& v : rgb) {  // stretched by 1.4: two levels in seven stay empty
    v = static_cast<uint16_t>(std::min(255L, std::max(0L, std::lround((v / 257 - 30) * 1.4))) *
                              257);
  }
  const auto comb = report_of(tiff_of(900, 700, rgb, 8));
  CHECK(found(comb, "levels").variant == "comb");
  CHECK(number(found(comb, "levels"), "gap_percent") ==
        doctest::Approx(100 * 2 / 7.0).epsilon(0.15));
}

TEST_CASE("condition: bands in a smooth gradient are told, with their step and width") {
  // 8 bits, 40 L* over 1600 pixels: about 100 levels, 16 pixels each, 0.4 L* a step.
  const Tones fine = tones(1000, 1600, [](double, double y) { return 40 + y / 40; });
  const auto eight = report_of(tiff_of(fine, 8));
  const Finding bands = found(eight, "banding");
  CHECK(bands.severity == Severity::look);
  CHECK(*bands.value > 80);
  CHECK(number(bands, "step_l") == doctest::Approx(0.4).epsilon(0.1));
  CHECK(number(bands, "width_px") == doctest::Approx(16).epsilon(0.1));
  CHECK(found(report_of(tiff_of(fine)), "banding").severity == Severity::good);
  // Posterised to 1.5 L* across the picture: to be mended.
  const Tones coarse =
      tones(1600, 900, [](double x, double) { return std::floor((30 + x / 40) / 1.5) * 1.5; });
  const auto stairs = report_of(tiff_of(coarse));
  CHECK(found(stairs, "banding").severity == Severity::act);
  CHECK(number(found(stairs, "banding"), "step_l") == doctest::Approx(1.5).epsilon(0.05));
  // Grain of one level hides the steps.
  Tones grain = fine;
  add_noise(grain, 0.5, 4);
  CHECK(found(report_of(tiff_of(grain, 8)), "banding").severity == Severity::good);
}
