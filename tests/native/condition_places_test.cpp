// Spots, tilt and things cut by the frame, in pictures where their places are known.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "condition_pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

struct Planted {
  double x, y, diameter, contrast;
};

// Round spots with soft rims, seeded, at least 60 pixels apart.
std::vector<Planted> plant(Tones& picture, size_t count, uint32_t seed, double smallest,
                           double largest) {
  std::mt19937 random(seed);
  const auto uniform = [&](double low, double high) {
    return low + (high - low) * random() / 4294967295.0;
  };
  std::vector<Planted> spots;
  while (spots.size() < count) {
    const Planted spot{uniform(50, picture.width - 50.0), uniform(50, picture.height - 50.0),
                       uniform(smallest, largest), uniform(3, 9) * (random() % 4 == 0 ? 1 : -1)};
    const bool near = std::any_of(spots.begin(), spots.end(), [&](const Planted& other) {
      return std::hypot(spot.x - other.x, spot.y - other.y) < 60;
    });
    if (near) continue;
    spots.push_back(spot);
    const auto reach = static_cast<int>(spot.diameter) + 2;
    for (int dy = -reach; dy <= reach; ++dy) {
      for (int dx = -reach; dx <= reach; ++dx) {
        const auto x = static_cast<uint32_t>(spot.x + dx), y = static_cast<uint32_t>(spot.y + dy);
        const double r = std::hypot(x + 0.5 - spot.x, y + 0.5 - spot.y);
        picture.at(x, y) +=
            spot.contrast / (1 + std::exp((r - spot.diameter / 2) / (0.12 * spot.diameter)));
      }
    }
  }
  return spots;
}

struct Score {
  double precision, recall, diameter_off, contrast_off;
};

Score score(const std::vector<Planted>& truth, const std::vector<Spot>& spots) {
  size_t hits = 0;
  double diameter = 0, contrast = 0;
  for (const Planted& one : truth) {
    for (const Spot& spot : spots) {
      if (std::hypot(one.x - spot.x, one.y - spot.y) > one.diameter / 2) continue;
      ++hits;
      diameter += std::abs(spot.diameter / one.diameter - 1);
      contrast += std::abs(spot.contrast / one.contrast - 1);
      break;
    }
  }
  return {spots.empty() ? 1 : double(hits) / double(spots.size()),
          double(hits) / double(truth.size()), diameter / double(hits), contrast / double(hits)};
}

double sky(double x, double y) {
  return 78 - 0.025 * y + 0.004 * x + 4 * std::sin(x / 310) * std::cos(y / 270);
}

Tones horizon(double degrees, bool upright, double noise, uint32_t seed) {
  const double slope = std::tan(degrees * std::numbers::pi / 180);
  Tones picture = tones(1300, 900, [&](double x, double y) {
    const double d = upright ? x - 640 + slope * (y - 450) : y - 430 - slope * (x - 650);
    return 55 - 20 * std::clamp(d, -0.5, 0.5) + 4 * std::sin(x / 90) + 4 * std::cos(y / 70);
  });
  add_noise(picture, noise, seed);
  return picture;
}

}  // namespace

TEST_CASE("condition: planted spots are found in a sky with grain") {
  for (const double grain : {0.0, 0.8, 1.6}) {
    Tones picture = tones(1500, 1000, sky);
    const auto truth = plant(picture, 60, 5, 6.5, 34);
    add_noise(picture, grain, 11);
    const Score s = score(truth, report_of(tiff_of(picture)).spots);
    MESSAGE("grain " << grain << " L*: precision " << s.precision << ", recall " << s.recall
                     << ", diameter off by " << s.diameter_off << ", contrast by "
                     << s.contrast_off);
    CHECK(s.precision >= 0.97);
    CHECK(s.recall >= (grain > 1 ? 0.85 : 0.93));
    CHECK(s.diameter_off < 0.2);
    CHECK(s.contrast_off < 0.3);
  }
}

TEST_CASE("condition: spots are measured by their size on the print") {
  Tones picture = tones(1500, 1000, sky);
  plant(picture, 40, 8, 6.5, 7);
  add_noise(picture, 0.3, 2);
  const Bytes file = tiff_of(picture);
  CHECK(report_of(file).spots.size() > 30);
  // 0.5 mm of a print 40 mm wide are 18.75 pixels of 1500: the same spots are too small to count.
  ConditionSettings small;
  small.print_width_mm = 40;
  const auto report = report_of(file, small);
  CHECK(report.dust_px == doctest::Approx(18.75));
  CHECK(report.spots.size() < 3);
}

TEST_CASE("condition: no spots, halos or bands in textures") {
  for (const Texture kind : kTextures) {
    for (const uint32_t seed : {101u, 202u, 303u}) {
      Tones picture = texture(kind, 800, 600, seed);
      add_noise(picture, 0.4, seed);
      const auto report = report_of(tiff_of(picture, seed == 303u ? 8 : 16));
      const Finding* halo = finding(report, "halos");
      INFO(std::string(name_of(kind)) << " " << seed << ": spots " << report.spots.size()
                                      << ", banding " << *found(report, "banding").value
                                      << ", halo " << (halo != nullptr ? *halo->value : -1));
      CHECK(report.spots.size() <= 1);
      CHECK(found(report, "banding").severity == Severity::good);
      if (halo != nullptr) CHECK(halo->severity == Severity::good);
      if (const Finding* blocks = finding(report, "blocking")) {
        INFO("blocks " << *blocks->value);
        CHECK(blocks->severity == Severity::good);
      }
    }
  }
}

TEST_CASE("condition: stars, lamps and glitter are not spots of dust") {
  Tones night = tones(900, 700, [](double, double y) { return 4 + 0.005 * y; });
  std::mt19937 random(3);
  for (int i = 0; i < 300; ++i) {
    const uint32_t x = 10 + random() % 880, y = 10 + random() % 680;
    for (uint32_t j = 0; j < 9; ++j) night.at(x + j % 3, y + j / 3) = 20 + random() % 80;
  }
  add_noise(night, 0.5, 4);
  CHECK(report_of(tiff_of(night)).spots.empty());
}

TEST_CASE("condition: a known tilt is told to a tenth of a degree") {
  double worst = 0;
  for (const bool upright : {false, true}) {
    for (const double degrees : {-4.0, -1.3, -0.5, 0.0, 0.2, 0.7, 2.2, 6.0}) {
      const auto report = report_of(tiff_of(horizon(degrees, upright, 1, 7)));
      const Finding tilt = found(report, "tilt");
      INFO("tilt " << degrees << (upright ? " upright" : " level") << " told " << *tilt.value);
      CHECK(std::abs(*tilt.value - degrees) < 0.1);
      worst = std::max(worst, std::abs(*tilt.value - degrees));
      CHECK((tilt.severity == Severity::good) == (std::abs(degrees) < 0.15));
    }
  }
  MESSAGE("worst " << worst << " degrees");
}

TEST_CASE("condition: nothing is said of tilt where nothing is straight, nor of a border") {
  for (const Texture kind : kTextures) {
    if (kind == Texture::brick) continue;  // its courses are straight
    const auto report = report_of(tiff_of(texture(kind, 900, 700, 55)));
    const Finding* tilt = finding(report, "tilt");
    INFO(std::string(name_of(kind)) << " " << (tilt != nullptr ? *tilt->value : 0));
    CHECK(tilt == nullptr);
  }
  Tones framed = texture(Texture::foliage, 900, 700, 6);
  for (uint32_t y = 0; y < 700; ++y) {
    for (uint32_t x = 0; x < 900; ++x) {
      if (x < 40 || y < 40 || x >= 860 || y >= 660) framed.at(x, y) = 100;
    }
  }
  const auto report = report_of(tiff_of(framed));
  CHECK(finding(report, "tilt") == nullptr);
  CHECK(finding(report, "sharpness") == nullptr);
  CHECK(number(found(report, "highlights"), "border_percent") ==
        doctest::Approx(100.0 * (900 * 700 - 820 * 620) / (900 * 700)));
  CHECK(*found(report, "highlights").value == 0);
}

TEST_CASE("condition: what comes in from outside is told by side and place") {
  Tones picture = tones(1200, 800, sky);
  for (uint32_t y = 300; y < 340; ++y) {  // a dark branch from the left
    for (uint32_t x = 0; x < 90; ++x) picture.at(x, y) = 25;
  }
  for (uint32_t y = 760; y < 800; ++y) {  // a bright thing from below
    for (uint32_t x = 700; x < 750; ++x) picture.at(x, y) = 99;
  }
  add_noise(picture, 0.8, 9);
  const Finding cut = found(report_of(tiff_of(picture)), "edges");
  REQUIRE(cut.places.size() == 2);
  CHECK(cut.sides[0] == "left");
  CHECK(cut.sides[1] == "bottom");
  CHECK(cut.places[0].x == 0);
  CHECK(std::abs(double(cut.places[0].y) - 300) <= 4);
  CHECK(std::abs(double(cut.places[0].width) - 90) <= 6);
  CHECK(std::abs(double(cut.places[1].x) - 700) <= 4);
  CHECK(cut.places[1].y + cut.places[1].height == 800);
}

TEST_CASE("condition: next to nothing is cut by the edges of textures") {
  size_t told = 0;
  for (const Texture kind : kTextures) {
    for (const uint32_t seed : {8u, 88u, 188u, 288u}) {
      const Finding cut = found(report_of(tiff_of(texture(kind, 700, 560, seed))), "edges");
      told += cut.severity != Severity::good;
      if (!cut.places.empty())
        MESSAGE(std::string(name_of(kind)) << " " << seed << ": " << cut.places.size());
    }
  }
  // A patch of glitter that the border cuts may be told: it is bright and alone.
  CHECK(told <= 1);
}
