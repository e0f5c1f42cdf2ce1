// The test strip.
#include "print/dot_letters.h"
#include "print/strip.h"
#include "print_rows.h"

using namespace proofleaf;
using namespace proofleaf::test;
using namespace proofleaf::print;

namespace {

bool overlap(const PixelRect& a, const PixelRect& b) {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

// Grey L* 50 with four corners of interest: dark steps top left, bright ones top right, texture
// bottom left.
Picture scene() {
  Picture picture{200, 150, {}};
  for (uint32_t y = 0; y < 150; ++y) {
    for (uint32_t x = 0; x < 200; ++x) {
      double l = 50;
      if (x < 40 && y < 30) l = 4 + 3 * ((x / 4 + y / 4) % 2);
      if (x >= 160 && y < 30) l = 95 + 2 * ((x / 4 + y / 4) % 2);
      if (x < 40 && y >= 120) l = 50 + 10 * ((x + y) % 2);
      picture.rgb.insert(picture.rgb.end(), 3, static_cast<uint16_t>(srgb_code_of_l(l)));
    }
  }
  return picture;
}

std::vector<uint8_t> map_with_spot() {
  std::vector<uint8_t> map(64 * 64);
  for (uint32_t y = 52; y < 62; ++y) {
    for (uint32_t x = 52; x < 62; ++x) map[y * 64 + x] = 255;
  }
  return map;
}

const StripPlace* place_for(const std::vector<StripPlace>& places, PlaceReason reason) {
  for (const auto& place : places) {
    if (place.reason == reason) return &place;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("strip: parts are found where shadows, highlights, texture and gamut are") {
  const auto places = pick_places(scene(), light_of(space("srgb")), map_with_spot(), 64, 0.2, 0.2);
  REQUIRE(places);
  REQUIRE(places.value().size() == 4);
  const auto* deep = place_for(places.value(), PlaceReason::deepest);
  const auto* bright = place_for(places.value(), PlaceReason::brightest);
  const auto* off = place_for(places.value(), PlaceReason::off_gamut);
  const auto* fine = place_for(places.value(), PlaceReason::finest);
  REQUIRE((deep && bright && off && fine));
  CHECK((deep->x < 0.05 && deep->y < 0.05));
  CHECK((bright->x > 0.75 && bright->y < 0.05));
  CHECK((off->x > 0.7 && off->y > 0.7));
  CHECK((fine->x < 0.05 && fine->y > 0.75));
}

TEST_CASE("strip: parts do not overlap and lie inside, whatever their size") {
  for (const double side : {0.01, 0.13, 0.34, 0.5, 0.75, 1.0}) {
    const auto places =
        pick_places(scene(), light_of(space("srgb")), map_with_spot(), 64, side, side);
    REQUIRE(places);
    CHECK(places.value().size() >= 1);
    for (size_t i = 0; i < places.value().size(); ++i) {
      const StripPlace& a = places.value()[i];
      CHECK(a.x + a.width <= 1 + 1e-9);
      CHECK(a.y + a.height <= 1 + 1e-9);
      for (size_t j = 0; j < i; ++j) {
        const StripPlace& b = places.value()[j];
        CHECK((a.x + a.width <= b.x + 1e-9 || b.x + b.width <= a.x + 1e-9 ||
               a.y + a.height <= b.y + 1e-9 || b.y + b.height <= a.y + 1e-9));
      }
    }
  }
}

TEST_CASE("strip: a flat picture has nothing to show; nonsense is refused") {
  Picture flat{40, 30, Codes(40 * 30 * 3, 30000)};
  const Light light = light_of(space("srgb"));
  CHECK(pick_places(flat, light, {}, 0, 0.2, 0.2).value().empty());
  CHECK_FALSE(pick_places(flat, light, {}, 0, 0, 0.2).ok());
  CHECK_FALSE(pick_places(flat, light, {}, 0, 0.2, std::nan("")).ok());
  CHECK_FALSE(pick_places(flat, light, map_with_spot(), 63, 0.2, 0.2).ok());
  CHECK_FALSE(pick_places({40, 31, flat.rgb}, light, {}, 0, 0.2, 0.2).ok());
}

TEST_CASE("strip: a part moves, but not over another nor outside") {
  std::vector<StripPlace> places{{PlaceReason::deepest, 0, 0, 0.2, 0.2},
                                 {PlaceReason::finest, 0.5, 0.5, 0.2, 0.2}};
  const auto moved = move_place(places, 0, 0.95, -3);
  REQUIRE(moved);
  CHECK(moved.value()[0].x == doctest::Approx(0.8));
  CHECK(moved.value()[0].y == 0);
  CHECK(moved.value()[0].reason == PlaceReason::chosen);
  CHECK_FALSE(move_place(places, 0, 0.4, 0.4).ok());
  CHECK_FALSE(move_place(places, 2, 0, 0).ok());
  CHECK_FALSE(move_place(places, 0, std::nan(""), 0).ok());
}

TEST_CASE("strip: everything has its own place on the sheet, at final scale") {
  const std::vector<StripPlace> places{{PlaceReason::deepest, 0, 0, 0.1, 0.1},
                                       {PlaceReason::brightest, 0.9, 0.9, 0.1, 0.1},
                                       {PlaceReason::finest, 0.5, 0.3, 0.1, 0.1}};
  const std::vector<std::string> names{"As it is", "Lighter", "More contrast"};
  for (const auto& sheet : {StripSheet{210, 297, 300}, StripSheet{330, 260, 180}}) {
    for (size_t variants = 1; variants <= 3; ++variants) {
      const auto made = layout_strip(sheet, 9000, 6000, places, std::span(names).first(variants));
      REQUIRE_MESSAGE(made.ok(), made.error().message);
      const StripLayout& layout = made.value();
      CHECK(layout.width == uint32_t(std::lround(sheet.width_mm / 25.4 * sheet.ppi)));
      CHECK(layout.tiles.size() == 3 * variants);
      CHECK(layout.patches.size() == 13 + 11 + 7);
      std::vector<PixelRect> boxes;
      for (const auto& tile : layout.tiles) {
        boxes.push_back(tile.at);
        CHECK(tile.from.width == tile.at.width);  // pixel for pixel
        CHECK(tile.from.height == tile.at.height);
        CHECK(tile.from.x + tile.from.width <= 9000);
        CHECK(tile.from.y + tile.from.height <= 6000);
      }
      for (const auto& patch : layout.patches) {
        boxes.push_back(patch.ground_at);
        CHECK(patch.at.width >= uint32_t(5.9 / 25.4 * sheet.ppi));
      }
      for (const auto& label : layout.labels) {
        boxes.push_back({label.x, label.y, dots_wide(label.text) * label.dot, 7 * label.dot});
      }
      for (size_t i = 0; i < boxes.size(); ++i) {
        CHECK(boxes[i].x + boxes[i].width <= layout.width);
        CHECK(boxes[i].y + boxes[i].height <= layout.height);
        for (size_t j = 0; j < i; ++j) CHECK_FALSE(overlap(boxes[i], boxes[j]));
      }
    }
  }
  CHECK_FALSE(layout_strip({70, 70, 300}, 9000, 6000, places, names).ok());
  CHECK_FALSE(layout_strip({210, 297, 300}, 9000, 6000, {}, names).ok());
  CHECK_FALSE(layout_strip({210, 297, 300}, 9000, 6000, places, {}).ok());
  CHECK_FALSE(layout_strip({std::nan(""), 297, 300}, 9000, 6000, places, names).ok());
  CHECK_FALSE(layout_strip({210, 297, 0}, 9000, 6000, places, names).ok());
}

TEST_CASE("strip: the sheet holds the parts, the greys and their names") {
  const std::vector<StripPlace> places{{PlaceReason::deepest, 0, 0, 0.2, 0.2},
                                       {PlaceReason::finest, 0.7, 0.7, 0.2, 0.2}};
  const std::vector<std::string> names{"One", "Two"};
  const auto layout = layout_strip({150, 160, 72}, 500, 400, places, names);
  REQUIRE_MESSAGE(layout.ok(), layout.error().message);
  const Light light = light_of(space("srgb"));
  const auto make = [&] {
    std::vector<PixelRect> parts;
    for (const auto& tile : layout.value().tiles) parts.push_back(tile.from);
    Reads reads;
    auto cut = cut_parts(*ramp_rows(500, 400, &reads), parts, {});
    REQUIRE(cut);
    CHECK(reads.most == 1);
    CHECK(reads.rows <= 400);
    auto rows = strip_rows(layout.value(), light, cut.take());
    REQUIRE(rows);
    return rows.take();
  };
  check_strips(make);
  const Codes samples = all_of(*make());
  const uint32_t width = layout.value().width;
  for (const auto& tile : layout.value().tiles) {
    const uint32_t dx = tile.at.width - 1, dy = tile.at.height / 2;
    CHECK(samples[(size_t{tile.at.y + dy} * width + tile.at.x + dx) * 3 + 1] ==
          ramp_sample(tile.from.x + dx, tile.from.y + dy, 1));
  }
  for (const auto& patch : layout.value().patches) {
    const uint16_t* middle =
        &samples[(size_t{patch.at.y + patch.at.height / 2} * width + patch.at.x + 3) * 3];
    CHECK(l_of_srgb(middle[0]) == doctest::Approx(patch.lightness).epsilon(0.001));
    CHECK(middle[0] == middle[2]);
    const uint16_t* corner = &samples[(size_t{patch.ground_at.y} * width + patch.ground_at.x) * 3];
    CHECK(l_of_srgb(corner[0]) == doctest::Approx(patch.ground).epsilon(0.001));
  }
  CHECK(layout.value().patches.front().name == "B 0");
  CHECK(layout.value().patches[12].name == "B 12");
  CHECK(layout.value().patches[23].name == "W 100");
  CHECK_FALSE(strip_rows(layout.value(), light, {}).ok());
  CHECK_FALSE(cut_parts(*ramp_rows(10, 10), std::vector<PixelRect>{{5, 5, 6, 1}}, {}).ok());
  CHECK_FALSE(cut_parts(*ramp_rows(10, 10), std::vector<PixelRect>{{0, 0, 5, 5}}, [](double) {
                return false;
              }).ok());
}

TEST_CASE("strip: letters differ from one another") {
  const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,-+*/:%()";
  std::vector<std::string> shapes;
  for (const char letter : letters) {
    std::string shape;
    for (uint32_t y = 0; y < 7; ++y) {
      for (uint32_t x = 0; x < 5; ++x) shape += dot_at(letter, x, y) ? '#' : '.';
    }
    CHECK(shape.find('#') != std::string::npos);
    CHECK(std::find(shapes.begin(), shapes.end(), shape) == shapes.end());
    shapes.push_back(shape);
  }
  CHECK(dot_at('a', 2, 0) == dot_at('A', 2, 0));
  CHECK_FALSE(dot_at('\xc3', 0, 0));
  CHECK_FALSE(dot_at('A', 5, 0));
}
