#include <algorithm>
#include <cstdlib>

#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

std::vector<Segment> profile_segments(const Bytes& profile) {
  // ICC.1:2022 annex B.4: chunks of up to 65,519 bytes, numbered from 1.
  std::vector<Segment> segments;
  const size_t piece = 65519;
  const size_t count = (profile.size() + piece - 1) / piece;
  for (size_t i = 0; i < count; ++i) {
    Bytes body = {'I', 'C', 'C', '_', 'P', 'R', 'O', 'F', 'I', 'L', 'E', 0};
    body.push_back(static_cast<uint8_t>(i + 1));
    body.push_back(static_cast<uint8_t>(count));
    const size_t end = std::min(profile.size(), (i + 1) * piece);
    body.insert(body.end(), profile.begin() + static_cast<std::ptrdiff_t>(i * piece),
                profile.begin() + static_cast<std::ptrdiff_t>(end));
    segments.push_back({JPEG_APP0 + 2, body});
  }
  return segments;
}

Segment exif_segment(const Bytes& block) {
  Bytes body = {'E', 'x', 'i', 'f', 0, 0};
  body.insert(body.end(), block.begin(), block.end());
  return {JPEG_APP0 + 1, body};
}

// 16-bit samples that are 257 times 8-bit ones, as those.
Codes narrowed(Codes samples) {
  for (uint16_t& sample : samples) sample = static_cast<uint16_t>(sample / 257);
  return samples;
}

Codes codes_of8(const Pixels& pixels) {
  const PixelView view = pixels.view();
  const auto* eight = std::get_if<std::span<const uint8_t>>(&view);
  REQUIRE(eight != nullptr);
  return {eight->begin(), eight->end()};
}

}  // namespace

TEST_CASE("JPEG layouts decode as libjpeg itself decodes them") {
  std::vector<JpegRecipe> recipes;
  for (const bool progressive : {false, true}) {
    for (const bool thinned : {false, true}) {
      recipes.push_back({.progressive = progressive, .thinned = thinned});
    }
    recipes.push_back({.channels = 1, .stored = JCS_GRAYSCALE, .progressive = progressive});
    recipes.push_back({.stored = JCS_RGB, .progressive = progressive});
  }
  recipes.push_back({.width = 1, .height = 1});
  recipes.push_back({.width = 200, .height = 3, .restart_rows = 1});
  for (const unsigned mcus : {1u, 4u, 7u, 65535u}) {
    for (const bool thinned : {false, true}) {
      recipes.push_back({.width = 200, .height = 90, .thinned = thinned, .restart_mcus = mcus});
    }
  }
  for (const JpegRecipe& recipe : recipes) {
    CAPTURE(recipe.progressive);
    CAPTURE(recipe.thinned);
    const Codes drawn =
        picture(recipe.width, recipe.height, static_cast<uint32_t>(recipe.channels), 8);
    const Bytes file = raw_jpeg(recipe, drawn);
    auto master = open_master(source_of(file));
    REQUIRE(master.ok());
    const MasterInfo& info = master.value()->info();
    CHECK(info.container == Container::jpeg);
    CHECK(info.model == (recipe.channels == 1 ? ColourModel::grey : ColourModel::rgb));
    CHECK(info.width == recipe.width);
    CHECK(info.height == recipe.height);
    CHECK(info.bits == 8);
    auto got = read_picture(*master.value());
    REQUIRE(got.ok());
    CHECK(got.value() == widened(decode_jpeg(file)));
    if (recipe.thinned) continue;
    for (size_t i = 0; i < drawn.size(); ++i) {
      REQUIRE(std::abs(int{got.value()[i]} - int{drawn[i]} * 257) <= 4 * 257);
    }
  }
}

TEST_CASE("CMYK JPEGs come with 0 = no ink whatever their habit") {
  const Codes stored = picture(37, 29, 4, 8);
  SUBCASE("Adobe marker, CMYK: 255 is no ink") {
    const Bytes file = raw_jpeg({.channels = 4, .stored = JCS_CMYK}, stored);
    auto got = read_file_rows(file);
    REQUIRE(got.ok());
    CHECK(got.value() == inverted(widened(decode_jpeg(file))));
    auto master = open_master(source_of(file));
    REQUIRE(master.ok());
    auto rows = master.value()->open_rows();
    REQUIRE(rows.ok());
    Pixels as_filed;
    REQUIRE(rows.value()->read_pixels(0, rows.value()->format().height, as_filed).ok());
    CHECK(codes_of8(as_filed) == narrowed(got.value()));
    for (size_t i = 0; i < stored.size(); ++i) {
      REQUIRE(std::abs(int{got.value()[i]} - (255 - int{stored[i]}) * 257) <= 4 * 257);
    }
  }
  SUBCASE("Adobe marker, YCCK: the same") {
    const Bytes file = raw_jpeg({.channels = 4, .stored = JCS_YCCK}, stored);
    auto got = read_file_rows(file);
    REQUIRE(got.ok());
    for (size_t i = 0; i < stored.size(); ++i) {
      REQUIRE(std::abs(int{got.value()[i]} - (255 - int{stored[i]}) * 257) <= 4 * 257);
    }
  }
  SUBCASE("no Adobe marker: as stored") {
    const Bytes file = raw_jpeg({.channels = 4, .stored = JCS_CMYK, .adobe = false}, stored);
    auto master = open_master(source_of(file));
    REQUIRE(master.ok());
    CHECK(master.value()->info().model == ColourModel::cmyk);
    auto got = read_picture(*master.value());
    REQUIRE(got.ok());
    CHECK(got.value() == widened(decode_jpeg(file)));
  }
}

TEST_CASE("JPEG rows in any order and shrunk") {
  for (const bool progressive : {false, true}) {
    for (const bool thinned : {false, true}) {
      const JpegRecipe recipe{
          .width = 83, .height = 131, .progressive = progressive, .thinned = thinned};
      const Bytes file = raw_jpeg(recipe, picture(83, 131, 3, 8));
      auto master = open_master(source_of(file));
      REQUIRE(master.ok());
      const Codes whole = widened(decode_jpeg(file));
      auto rows = master.value()->open_rows();
      REQUIRE(rows.ok());
      // Ahead, back to the top, the last row, back, skips that cross and end inside blocks.
      const std::pair<uint32_t, uint32_t> visits[] = {{40, 7},  {0, 3},  {130, 1}, {17, 1},
                                                      {19, 30}, {50, 1}, {65, 2},  {100, 31},
                                                      {3, 1},   {5, 1}};
      for (const auto& visit : visits) {
        const uint32_t first = visit.first, count = visit.second;
        CAPTURE(first);
        Codes part(count * 83 * 3);
        REQUIRE(rows.value()->read(first, count, part).ok());
        CHECK(std::equal(part.begin(), part.end(), whole.begin() + first * 83 * 3));
        Pixels as_filed;
        REQUIRE(rows.value()->read_pixels(first, count, as_filed).ok());
        CHECK(codes_of8(as_filed) == narrowed(part));
      }
      for (const uint32_t shrink : {2u, 4u, 8u}) {
        CAPTURE(shrink);
        auto small = read_picture(*master.value(), 4, shrink);
        REQUIRE(small.ok());
        CHECK(small.value() == widened(decode_jpeg(file, shrink)));
        auto shape = master.value()->open_rows(shrink);
        REQUIRE(shape.ok());
        CHECK(shape.value()->format().width == (83 + shrink - 1) / shrink);
        CHECK(shape.value()->format().height == (131 + shrink - 1) / shrink);
      }
    }
  }
}

TEST_CASE("a profile in several APP2 chunks comes out whole") {
  Bytes profile(200'000);
  for (size_t i = 0; i < profile.size(); ++i) profile[i] = static_cast<uint8_t>(i * i >> 3);
  const Codes drawn = picture(37, 29, 3, 8);
  auto segments = profile_segments(profile);
  REQUIRE(segments.size() == 4);
  std::swap(segments[0], segments[2]);  // the numbers count, not the order
  auto master = open_master(source_of(raw_jpeg({.segments = segments}, drawn)));
  REQUIRE(master.ok());
  CHECK(master.value()->info().icc == profile);
  segments.pop_back();
  master = open_master(source_of(raw_jpeg({.segments = segments}, drawn)));
  REQUIRE(master.ok());
  CHECK(master.value()->info().icc.empty());
  CHECK(master.value()->info().notes.size() == 1);
}

TEST_CASE("JFIF 1.02 density and Exif resolution") {
  const Codes drawn = picture(37, 29, 3, 8);
  const auto ppi = [&](const JpegRecipe& recipe) {
    auto master = open_master(source_of(raw_jpeg(recipe, drawn)));
    REQUIRE(master.ok());
    return master.value()->info().ppi;
  };
  CHECK(ppi({.density_unit = 1, .density = 360}) == 360.0);
  CHECK(*ppi({.density_unit = 2, .density = 118}) == doctest::Approx(299.72));
  CHECK_FALSE(ppi({.density_unit = 0, .density = 1}).has_value());
  for (const bool big : {false, true}) {
    const Bytes inch = raw_exif(big, {{0x11A, 5, "", {2400, 10}}, {0x128, 3, "", {2}}}, {}, {});
    CHECK(ppi({.density_unit = 0, .density = 1, .segments = {exif_segment(inch)}}) == 240.0);
    const Bytes cm = raw_exif(big, {{0x11A, 5, "", {100, 1}}, {0x128, 3, "", {3}}}, {}, {});
    CHECK(ppi({.density_unit = 0, .density = 1, .segments = {exif_segment(cm)}}) == 254.0);
    const Bytes nought = raw_exif(big, {{0x11A, 5, "", {100, 0}}}, {}, {});
    CHECK_FALSE(ppi({.density_unit = 0, .density = 1, .segments = {exif_segment(nought)}}));
  }
}

TEST_CASE("an Exif block turns the picture and gives its facts, in both byte orders") {
  const JpegRecipe plain{.width = 30, .height = 20};
  const Codes drawn = picture(30, 20, 3, 8);
  for (const bool big : {false, true}) {
    const Bytes block =
        raw_exif(big, {{0x112, 3, "", {6}}, {0x13B, 2, "A. Nobody"}},
                 {{0xA001, 3, "", {65535}}, {0xA431, 2, "SN-12345"}},
                 {{0, 3, "", {2}}, {1, 2, "N"}, {2, 5, "", {51, 1, 28, 1, 0, 1}}}, {{1, 2, "R03"}});
    JpegRecipe recipe = plain;
    recipe.segments = {exif_segment(block)};
    auto master = open_master(source_of(raw_jpeg(recipe, drawn)));
    REQUIRE(master.ok());
    const MasterInfo& info = master.value()->info();
    CHECK(info.orientation == 6);
    CHECK(info.width == 20);
    CHECK(info.height == 30);
    CHECK(info.exif == block);
    CHECK(info.exif_space == ExifColourSpace::oprgb);
    CHECK(info.traces.place);
    CHECK(info.traces.serial);
    CHECK(info.traces.owner);
  }
}
