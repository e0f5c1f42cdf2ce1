// Photos of returned prints made for tests: a promise seen through a known homography, in known
// light, by a known camera, with known faults.
#pragma once

#include <functional>
#include <map>
#include <random>

#include "pictures.h"
#include "returned/compare.h"

namespace proofleaf::test {

using returned::Corners;
using returned::Homography;
using returned::Point;
using returned::Promise;

struct Scene {
  uint32_t width = 1280, height = 960;  // of the photo
  Corners corners{{{0.14, 0.12}, {0.87, 0.17}, {0.9, 0.86}, {0.1, 0.83}}};
  // Light at a place of the front: 1 in the middle.
  std::function<double(double u, double v)> light = [](double, double) { return 1.0; };
  // Gains of the camera's R, G, B in linear light: the light's colour, not balanced away.
  std::array<double, 3> balance{1, 1, 1};
  double gamma = 1;  // of the camera, on top of sRGB's curve
  double noise = 0.004;
  double exposure = 0.8;
  // The print against its promise: absolute L*a*b* at a place of the front.
  std::function<Lab(const Lab&, double u, double v)> printed = [](const Lab& lab, double, double) {
    return lab;
  };
  // Where a place of the sheet's surface [front] lies on it: a stretched or shifted picture.
  std::function<Point(Point)> surface = [](Point p) { return p; };
  // A grey card beside the print: a disc of the photo, empty where its radius is 0.
  Point card;
  double card_radius = 0;
};

// Linear sRGB of XYZ relative to D50 (IEC 61966-2-1's primaries adapted by Bradford; the matrix as
// published by B. Lindbloom, from memory).
inline std::array<double, 3> linear_srgb(const XYZ& c) {
  return {3.1338561 * c.x - 1.6168667 * c.y - 0.4906146 * c.z,
          -0.9787684 * c.x + 1.9161415 * c.y + 0.0334540 * c.z,
          0.0719453 * c.x - 0.2289914 * c.y + 1.4052427 * c.z};
}

// IEC 61966-2-1.
inline double srgb_share(double linear) {
  const double x = std::fmin(1, std::fmax(0, linear));
  return x <= 0.0031308 ? 12.92 * x : 1.055 * std::pow(x, 1 / 2.4) - 0.055;
}

inline Lab absolute(const Promise& promise, double u, double v) {
  const Lab lab{promise.l.sample(u, v), promise.a.sample(u, v), promise.b.sample(u, v)};
  const XYZ own = xyz_from_lab(lab), white = xyz_from_lab(promise.paper_white);
  return lab_from_xyz(
      {own.x * white.x / kD50.x, own.y * white.y / kD50.y, own.z * white.z / kD50.z});
}

// A table top of dark wood, or so.
inline Lab table_at(double x, double y) {
  const double grain = std::sin(40 * x + 3 * std::sin(9 * y)) * 2 + std::sin(130 * y + 11 * x);
  return {34 + grain, 6, 14};
}

inline Picture photo_of_print(const Promise& promise, const Scene& scene) {
  const auto place = Homography::to(scene.corners);
  REQUIRE(place);
  const auto back = place->inverse();
  REQUIRE(back);
  Picture photo{scene.width, scene.height,
                std::vector<uint16_t>(size_t{scene.width} * scene.height * 3)};
  std::mt19937 random(2026);
  std::normal_distribution<double> noise(0, scene.noise);
  const auto seen = [&](double x, double y) -> std::array<double, 3> {
    const Point p = (*back)({x, y});
    const bool on_print = p.x >= 0 && p.y >= 0 && p.x <= 1 && p.y <= 1;
    Lab lab = table_at(x, y);
    if (on_print) {
      const Point at = scene.surface(p);
      lab = scene.printed(absolute(promise, at.x, at.y), at.x, at.y);
    }
    const double dx = x - scene.card.x,
                 dy = (y - scene.card.y) * scene.height / double(scene.width);
    if (std::hypot(dx, dy) < scene.card_radius) lab = {60, 0, 0};
    auto rgb = linear_srgb(xyz_from_lab(lab));
    const double light = scene.exposure * scene.light(p.x, p.y);
    for (size_t c = 0; c < 3; ++c) rgb[c] *= light * scene.balance[c];
    return rgb;
  };
  for (uint32_t y = 0; y < scene.height; ++y) {
    for (uint32_t x = 0; x < scene.width; ++x) {
      std::array<double, 3> sum{};
      for (const double part : {0.25, 0.75}) {  // a pixel is an area
        const auto rgb = seen((x + part) / scene.width, (y + part) / scene.height);
        for (size_t c = 0; c < 3; ++c) sum[c] += rgb[c] / 2;
      }
      for (size_t c = 0; c < 3; ++c) {
        const double code = std::pow(srgb_share(sum[c]), scene.gamma) + noise(random);
        // As 8 bits hold it.
        const double held = std::round(std::fmin(1, std::fmax(0, code)) * 255);
        photo.rgb[(size_t{y} * scene.width + x) * 3 + c] = static_cast<uint16_t>(held * 257);
      }
    }
  }
  return photo;
}

// Of the demo's picture on the demo's paper, 400 mm wide, with a border of so many mm.
inline Promise make_demo_promise(double border_mm, const std::string& picture) {
  auto opened = open_master(memory(picture, file_bytes(kDemo + picture)));
  REQUIRE(opened);
  auto colour = master_colour(opened.value()->info(), picture, "", Profile());
  REQUIRE(colour);
  auto rows = opened.value()->open_rows();
  REQUIRE(rows);
  auto rgb = as_rgb(rows.take(), opened.value()->info(), colour.value());
  REQUIRE(rgb);
  const RowFormat format = rgb.value()->format();
  auto small = shrink(*rgb.value(), shrink_factor(format.width, format.height, 500'000), {});
  REQUIRE(small);
  Recipe recipe;
  recipe.sized = true;
  recipe.size.width_mm = 400;
  recipe.size.ppi = 200;
  recipe.size.border_mm = border_mm;
  auto promise = returned::promise_of(
      small.value(), colour.value().profile, format.width, format.height, recipe, 300,
      paper_at(kDemo + "papers/tarnsea-baryta.icc"), {Intent::relative, true}, {});
  REQUIRE_MESSAGE(promise.ok(), (promise.ok() ? "" : promise.error().message));
  return promise.take();
}

// The same, made once.
inline const Promise& demo_promise(double border_mm, const std::string& picture = "saltings.png") {
  static std::map<std::pair<double, std::string>, Promise> made;
  const std::pair key{border_mm, picture};
  if (!made.count(key)) made.emplace(key, make_demo_promise(border_mm, picture));
  return made.at(key);
}

inline returned::Photo seen_photo(const Picture& picture) {
  auto photo = returned::photo_of(picture, standard_profile("srgb").value(), {});
  REQUIRE(photo);
  return photo.take();
}

// Of the front's diagonal in the photo: how far the worst corner is off.
inline double corners_off(const Corners& found, const Corners& true_ones, const Scene& scene) {
  double worst = 0;
  for (size_t i = 0; i < 4; ++i) {
    worst = std::fmax(worst, std::hypot((found[i].x - true_ones[i].x) * scene.width,
                                        (found[i].y - true_ones[i].y) * scene.height));
  }
  return worst;
}

}  // namespace proofleaf::test
