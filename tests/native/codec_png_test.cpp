#include <zlib.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

TEST_CASE("PNG colour types, depths and interlacing") {
  const std::array<png_color, 256> palette = [] {
    std::array<png_color, 256> p{};
    for (size_t i = 0; i < p.size(); ++i) {
      p[i] = {static_cast<png_byte>(i), static_cast<png_byte>(255 - i),
              static_cast<png_byte>(i * 7)};
    }
    return p;
  }();
  struct Case {
    int depth, type;
    uint32_t channels;
  };
  for (const Case& kind : {Case{1, PNG_COLOR_TYPE_GRAY, 1}, Case{2, PNG_COLOR_TYPE_GRAY, 1},
                           Case{4, PNG_COLOR_TYPE_GRAY, 1}, Case{8, PNG_COLOR_TYPE_GRAY, 1},
                           Case{16, PNG_COLOR_TYPE_GRAY, 1}, Case{8, PNG_COLOR_TYPE_RGB, 3},
                           Case{16, PNG_COLOR_TYPE_RGB, 3}, Case{1, PNG_COLOR_TYPE_PALETTE, 1},
                           Case{2, PNG_COLOR_TYPE_PALETTE, 1}, Case{4, PNG_COLOR_TYPE_PALETTE, 1},
                           Case{8, PNG_COLOR_TYPE_PALETTE, 1}}) {
    const int depth = kind.depth, type = kind.type;
    const uint32_t channels = kind.channels;
    for (const bool interlaced : {false, true}) {
      CAPTURE(depth);
      CAPTURE(type);
      CAPTURE(interlaced);
      const Codes drawn = picture(37, 29, channels, static_cast<uint32_t>(depth));
      PngRecipe recipe{.depth = depth, .type = type, .interlaced = interlaced};
      Codes expected;
      if (type == PNG_COLOR_TYPE_PALETTE) {
        recipe.more = [&](png_structp png, png_infop info) {
          png_set_PLTE(png, info, palette.data(), 1 << depth);
        };
        for (const uint16_t v : drawn) {
          for (const int c : {palette[v].red, palette[v].green, palette[v].blue}) {
            expected.push_back(static_cast<uint16_t>(c * 257));
          }
        }
      } else {
        for (const uint16_t v : drawn) {
          expected.push_back(static_cast<uint16_t>(v * (65535 / ((1 << depth) - 1))));
        }
      }
      auto master = open_master(source_of(raw_png(recipe, drawn)));
      REQUIRE(master.ok());
      CHECK(master.value()->info().container == Container::png);
      CHECK(master.value()->info().bits == (depth == 16 ? 16 : 8));
      CHECK_FALSE(master.value()->info().had_alpha);
      auto got = read_picture(*master.value());
      REQUIRE(got.ok());
      CHECK(got.value() == expected);
      // Backwards, row by row.
      auto rows = master.value()->open_rows();
      REQUIRE(rows.ok());
      const size_t row = rows.value()->format().row_samples();
      Codes one(row);
      for (const uint32_t y : {28u, 5u, 4u, 11u, 0u}) {
        REQUIRE(rows.value()->read(y, 1, one).ok());
        CHECK(std::equal(one.begin(), one.end(),
                         expected.begin() + static_cast<std::ptrdiff_t>(y * row)));
      }
    }
  }
}

TEST_CASE("PNG transparency is laid on white") {
  struct Case {
    int depth, type;
    uint32_t channels;
  };
  for (const Case& kind :
       {Case{8, PNG_COLOR_TYPE_GRAY_ALPHA, 2}, Case{16, PNG_COLOR_TYPE_GRAY_ALPHA, 2},
        Case{8, PNG_COLOR_TYPE_RGB_ALPHA, 4}, Case{16, PNG_COLOR_TYPE_RGB_ALPHA, 4}}) {
    const int depth = kind.depth, type = kind.type;
    const uint32_t channels = kind.channels;
    const Codes drawn = picture(37, 29, channels, static_cast<uint32_t>(depth));
    const double top = depth == 8 ? 255 : 65535;
    auto master = open_master(source_of(raw_png({.depth = depth, .type = type}, drawn)));
    REQUIRE(master.ok());
    CHECK(master.value()->info().had_alpha);
    CHECK(master.value()->info().notes.size() == 1);
    auto got = read_picture(*master.value());
    REQUIRE(got.ok());
    const uint32_t colours = channels - 1;
    for (size_t p = 0; p < 37 * 29; ++p) {
      const double a = drawn[p * channels + colours] / top;
      for (size_t c = 0; c < colours; ++c) {
        const double over = drawn[p * channels + c] / top * a + (1 - a);
        REQUIRE(std::abs(got.value()[p * colours + c] - over * 65535) <= 1.0);
      }
    }
  }
  // A single transparent colour (tRNS) becomes white, all others stay.
  Codes drawn = picture(37, 29, 1, 8);
  PngRecipe recipe{.type = PNG_COLOR_TYPE_GRAY};
  recipe.more = [&](png_structp png, png_infop info) {
    png_color_16 key{};
    key.gray = drawn[5];
    png_set_tRNS(png, info, nullptr, 0, &key);
  };
  auto got = read_file_rows(raw_png(recipe, drawn));
  REQUIRE(got.ok());
  for (size_t i = 0; i < drawn.size(); ++i) {
    REQUIRE(got.value()[i] == (drawn[i] == drawn[5] ? 65535 : drawn[i] * 257));
  }
}

TEST_CASE("PNG facts: resolution, sRGB, gamma, Exif before and after the picture") {
  const Codes drawn = picture(37, 29, 3, 8);
  const auto open = [&](std::function<void(png_structp, png_infop)> more) {
    auto master = open_master(source_of(raw_png({.more = std::move(more)}, drawn)));
    REQUIRE(master.ok());
    return master.take();
  };
  // PNG specification: pHYs counts pixels per metre; 11811 is what 300 per inch becomes.
  auto master = open([](png_structp png, png_infop info) {
    png_set_pHYs(png, info, 11811, 11811, PNG_RESOLUTION_METER);
    png_set_sRGB(png, info, PNG_sRGB_INTENT_PERCEPTUAL);
  });
  CHECK(master->info().ppi == 300.0);
  CHECK(master->info().exif_space == ExifColourSpace::srgb);
  CHECK(master->info().notes.size() == 1);
  master = open([](png_structp png, png_infop info) { png_set_gAMA(png, info, 0.55); });
  CHECK(master->info().exif_space == ExifColourSpace::none);
  CHECK(master->info().notes.size() == 1);
  CHECK_FALSE(master->info().ppi.has_value());

  Bytes block = raw_exif(true, {{0x112, 3, "", {8}}}, {}, {});
  master = open([&](png_structp png, png_infop info) {
    png_set_eXIf_1(png, info, static_cast<png_uint_32>(block.size()), block.data());
  });
  CHECK(master->info().orientation == 8);
  CHECK(master->info().width == 29);
  CHECK(master->info().exif == block);

  // The same chunk put between the picture and IEND (the last 12 bytes).
  Bytes file = raw_png({}, drawn);
  Bytes chunk;
  const auto put = [&chunk](uint32_t v) {
    for (int shift = 24; shift >= 0; shift -= 8) chunk.push_back(static_cast<uint8_t>(v >> shift));
  };
  put(static_cast<uint32_t>(block.size()));
  chunk.insert(chunk.end(), {'e', 'X', 'I', 'f'});
  chunk.insert(chunk.end(), block.begin(), block.end());
  put(static_cast<uint32_t>(crc32(0, chunk.data() + 4, static_cast<uInt>(chunk.size() - 4))));
  file.insert(file.end() - 12, chunk.begin(), chunk.end());
  auto late = open_master(source_of(file));
  REQUIRE(late.ok());
  CHECK(late.value()->info().orientation == 8);
}
