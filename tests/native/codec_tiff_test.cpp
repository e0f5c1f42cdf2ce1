#include <algorithm>
#include <cmath>

#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

Codes to16(const Codes& samples, uint16_t bits) { return bits == 8 ? widened(samples) : samples; }

}  // namespace

TEST_CASE("TIFF layouts: compression, predictor, planes, tiles, byte order, BigTIFF") {
  int made = 0;
  for (const uint16_t bits : {uint16_t{8}, uint16_t{16}}) {
    for (const uint16_t compression : {COMPRESSION_NONE, COMPRESSION_LZW, COMPRESSION_ADOBE_DEFLATE,
                                       COMPRESSION_DEFLATE, COMPRESSION_PACKBITS}) {
      for (const bool predictor : {false, true}) {
        if (predictor && (compression == COMPRESSION_NONE || compression == COMPRESSION_PACKBITS)) {
          continue;
        }
        for (const uint16_t planar : {PLANARCONFIG_CONTIG, PLANARCONFIG_SEPARATE}) {
          for (const bool tiled : {false, true}) {
            for (const char* mode : {"wl", "wb", "wl8"}) {
              CAPTURE(bits);
              CAPTURE(compression);
              CAPTURE(predictor);
              CAPTURE(planar);
              CAPTURE(tiled);
              CAPTURE(mode);
              const Codes drawn = picture(37, 29, 3, bits);
              const Bytes file = raw_tiff({.bits = bits,
                                           .planar = planar,
                                           .compression = compression,
                                           .predictor = predictor,
                                           .tiled = tiled,
                                           .mode = mode},
                                          drawn);
              auto got = read_file_rows(file);
              REQUIRE(got.ok());
              REQUIRE(got.value() == to16(drawn, bits));
              ++made;
            }
          }
        }
      }
    }
  }
  CHECK(made == 2 * 8 * 2 * 2 * 3);
}

TEST_CASE("TIFF colour models") {
  for (const uint16_t bits : {uint16_t{8}, uint16_t{16}}) {
    const Codes grey = picture(37, 29, 1, bits);
    auto got = read_file_rows(
        raw_tiff({.bits = bits, .samples = 1, .photometric = PHOTOMETRIC_MINISBLACK}, grey));
    REQUIRE(got.ok());
    CHECK(got.value() == to16(grey, bits));
    got = read_file_rows(
        raw_tiff({.bits = bits, .samples = 1, .photometric = PHOTOMETRIC_MINISWHITE}, grey));
    REQUIRE(got.ok());
    CHECK(got.value() == inverted(to16(grey, bits)));

    // TIFF 6.0 section 16: with the usual DotRange 0 is no ink.
    const Codes inks = picture(37, 29, 4, bits);
    auto master = open_master(source_of(
        raw_tiff({.bits = bits, .samples = 4, .photometric = PHOTOMETRIC_SEPARATED}, inks)));
    REQUIRE(master.ok());
    CHECK(master.value()->info().model == ColourModel::cmyk);
    CHECK(master.value()->info().bits == bits);
    got = read_picture(*master.value());
    REQUIRE(got.ok());
    CHECK(got.value() == to16(inks, bits));
  }
  const Codes numbers = picture(37, 29, 1, 8);
  Codes red(256), green(256), blue(256);
  for (size_t i = 0; i < 256; ++i) {
    red[i] = static_cast<uint16_t>(i * 201);
    green[i] = static_cast<uint16_t>(65535 - i);
    blue[i] = static_cast<uint16_t>(i * i);
  }
  auto got = read_file_rows(raw_tiff({.samples = 1,
                                      .photometric = PHOTOMETRIC_PALETTE,
                                      .more =
                                          [&](TIFF* tiff) {
                                            TIFFSetField(tiff, TIFFTAG_COLORMAP, red.data(),
                                                         green.data(), blue.data());
                                          }},
                                     numbers));
  REQUIRE(got.ok());
  for (size_t i = 0; i < numbers.size(); ++i) {
    REQUIRE(got.value()[3 * i] == red[numbers[i]]);
    REQUIRE(got.value()[3 * i + 1] == green[numbers[i]]);
    REQUIRE(got.value()[3 * i + 2] == blue[numbers[i]]);
  }
}

TEST_CASE("TIFF alpha is laid on white, other extra channels are left out") {
  for (const uint16_t planar : {PLANARCONFIG_CONTIG, PLANARCONFIG_SEPARATE}) {
    for (const uint16_t kind : {EXTRASAMPLE_ASSOCALPHA, EXTRASAMPLE_UNASSALPHA}) {
      for (const uint16_t photometric :
           {PHOTOMETRIC_RGB, PHOTOMETRIC_SEPARATED, PHOTOMETRIC_MINISWHITE}) {
        const uint16_t colours = photometric == PHOTOMETRIC_RGB         ? 3
                                 : photometric == PHOTOMETRIC_SEPARATED ? 4
                                                                        : 1;
        // An unspecified channel stands before the alpha.
        const uint16_t samples = static_cast<uint16_t>(colours + 2);
        Codes drawn = picture(37, 29, samples, 16);
        if (kind == EXTRASAMPLE_ASSOCALPHA) {
          for (size_t p = 0; p < 37 * 29; ++p) {
            for (size_t c = 0; c < colours; ++c) {
              uint16_t& v = drawn[p * samples + c];
              v = std::min(v, drawn[p * samples + samples - 1u]);
            }
          }
        }
        auto master = open_master(source_of(raw_tiff({.bits = 16,
                                                      .samples = samples,
                                                      .photometric = photometric,
                                                      .planar = planar,
                                                      .compression = COMPRESSION_LZW,
                                                      .extra = {EXTRASAMPLE_UNSPECIFIED, kind}},
                                                     drawn)));
        REQUIRE(master.ok());
        CHECK(master.value()->info().had_alpha);
        CHECK(master.value()->info().notes.size() == 2);
        auto got = read_picture(*master.value());
        REQUIRE(got.ok());
        for (size_t p = 0; p < 37 * 29; ++p) {
          const double a = drawn[p * samples + samples - 1u] / 65535.0;
          for (size_t c = 0; c < colours; ++c) {
            const double v = drawn[p * samples + c] / 65535.0;
            // Light: white is 1. Ink and min-is-white: white is 0.
            const double white = photometric == PHOTOMETRIC_RGB ? 1 : 0;
            double over = (kind == EXTRASAMPLE_ASSOCALPHA ? v : v * a) + white * (1 - a);
            if (photometric == PHOTOMETRIC_MINISWHITE) over = 1 - over;
            REQUIRE(std::abs(got.value()[p * colours + c] - over * 65535) <= 1.0);
          }
        }
      }
    }
  }
}

TEST_CASE("TIFF rows in any order, also from one long strip") {
  for (const uint16_t planar : {PLANARCONFIG_CONTIG, PLANARCONFIG_SEPARATE}) {
    for (const uint32_t strip : {3u, 1000u}) {
      const Codes drawn = picture(61, 203, 3, 16);
      auto master = open_master(source_of(raw_tiff({.width = 61,
                                                    .height = 203,
                                                    .bits = 16,
                                                    .planar = planar,
                                                    .compression = COMPRESSION_ADOBE_DEFLATE,
                                                    .predictor = true,
                                                    .rows_per_strip = strip},
                                                   drawn)));
      REQUIRE(master.ok());
      auto rows = master.value()->open_rows();
      REQUIRE(rows.ok());
      const std::pair<uint32_t, uint32_t> visits[] = {
          {100, 9}, {0, 1}, {202, 1}, {150, 50}, {149, 2}};
      for (const auto& [first, count] : visits) {
        Codes part(count * 61 * 3);
        REQUIRE(rows.value()->read(first, count, part).ok());
        CHECK(std::equal(part.begin(), part.end(), drawn.begin() + first * 61 * 3));
      }
    }
  }
}

TEST_CASE("TIFF facts from its own directories") {
  const Codes drawn = picture(37, 29, 3, 8);
  Bytes profile(70'000, 0x5A);
  for (const char* mode : {"wl", "wb", "wl8"}) {
    const Bytes file =
        raw_tiff({.mode = mode,
                  .more =
                      [&](TIFF* tiff) {
                        TIFFSetField(tiff, TIFFTAG_ORIENTATION, 5);
                        TIFFSetField(tiff, TIFFTAG_XRESOLUTION, 100.0);
                        TIFFSetField(tiff, TIFFTAG_YRESOLUTION, 100.0);
                        TIFFSetField(tiff, TIFFTAG_RESOLUTIONUNIT, RESUNIT_CENTIMETER);
                        TIFFSetField(tiff, TIFFTAG_ARTIST, "A. Nobody");
                        TIFFSetField(tiff, TIFFTAG_ICCPROFILE, profile.size(), profile.data());
                      }},
                 drawn);
    auto master = open_master(source_of(file));
    REQUIRE(master.ok());
    const MasterInfo& info = master.value()->info();
    CHECK(info.orientation == 5);
    CHECK(info.width == 29);
    CHECK(info.height == 37);
    CHECK(*info.ppi == doctest::Approx(254));
    CHECK(info.icc == profile);
    CHECK(info.traces.owner);
    CHECK_FALSE(info.traces.place);
    CHECK(contains(info.exif, "A. Nobody"));
  }
}

TEST_CASE("TIFFs that cannot be opened say why") {
  const auto refused = [](const TiffRecipe& recipe, uint32_t channels, const std::string& word) {
    auto master = open_master(
        source_of(raw_tiff(recipe, picture(recipe.width, recipe.height, channels, 16)), "sea.tif"));
    REQUIRE_FALSE(master.ok());
    CAPTURE(master.error().message);
    CHECK(master.error().message.find("sea.tif") == 0);
    CHECK(master.error().message.find(word) != std::string::npos);
  };
  refused({.bits = 16,
           .samples = 1,
           .photometric = PHOTOMETRIC_MINISBLACK,
           .more = [](TIFF* t) { TIFFSetField(t, TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_IEEEFP); }},
          1, "floating-point");
  refused({.bits = 16, .photometric = PHOTOMETRIC_CIELAB}, 3, "Lab");
  refused({.samples = 4,
           .photometric = PHOTOMETRIC_SEPARATED,
           .more = [](TIFF* t) { TIFFSetField(t, TIFFTAG_INKSET, INKSET_MULTIINK); }},
          4, "other inks");
  refused({.more = [](TIFF* t) { TIFFSetField(t, TIFFTAG_SUBFILETYPE, FILETYPE_REDUCEDIMAGE); }}, 3,
          "preview");
}
