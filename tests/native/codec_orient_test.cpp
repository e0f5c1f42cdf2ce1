#include <algorithm>

#include "codec_files.h"
#include "doctest.h"
#include "raster/orient.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

// A picture in memory that counts how many rows are asked of it.
class HeldRows final : public RowSource {
 public:
  HeldRows(uint32_t width, uint32_t height, uint32_t channels, uint64_t* asked)
      : format_{width, height, channels},
        samples_(picture(width, height, channels, 16)),
        asked_(asked) {}
  RowFormat format() const override { return format_; }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    *asked_ += count;
    std::copy_n(samples_.begin() + static_cast<std::ptrdiff_t>(first * format_.row_samples()),
                count * format_.row_samples(), into.begin());
    return done();
  }

 private:
  RowFormat format_;
  Codes samples_;
  uint64_t* asked_;
};

// Exif 2.32 tag 0x0112: where the stored row 0 and column 0 stand in the upright picture.
// 1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7 right bottom,
// 8 left bottom. Pixel by pixel: where does stored (x, y) go?
Codes upright(const Codes& stored, uint32_t w, uint32_t h, uint32_t channels, int orientation) {
  const bool turned = orientation >= 5 && orientation <= 8;
  const uint32_t out_w = turned ? h : w;
  Codes out(stored.size());
  for (uint32_t y = 0; y < h; ++y) {
    for (uint32_t x = 0; x < w; ++x) {
      uint32_t to_x = x, to_y = y;
      switch (orientation) {
        case 2:
          to_x = w - 1 - x;
          break;  // row 0 top, column 0 right
        case 3:
          to_x = w - 1 - x;
          to_y = h - 1 - y;
          break;  // row 0 bottom, column 0 right
        case 4:
          to_y = h - 1 - y;
          break;  // row 0 bottom, column 0 left
        case 5:
          to_x = y;
          to_y = x;
          break;  // row 0 left, column 0 top
        case 6:
          to_x = h - 1 - y;
          to_y = x;
          break;  // row 0 right, column 0 top
        case 7:
          to_x = h - 1 - y;
          to_y = w - 1 - x;
          break;  // row 0 right, column 0 bottom
        case 8:
          to_x = y;
          to_y = w - 1 - x;
          break;  // row 0 left, column 0 bottom
        default:
          break;
      }
      for (uint32_t c = 0; c < channels; ++c) {
        out[(size_t{to_y} * out_w + to_x) * channels + c] =
            stored[(size_t{y} * w + x) * channels + c];
      }
    }
  }
  return out;
}

}  // namespace

TEST_CASE("all eight orientations, within any budget and in any order") {
  const uint32_t w = 37, h = 53;
  for (const uint32_t channels : {1u, 3u, 4u}) {
    const Codes stored = picture(w, h, channels, 16);
    for (int orientation = 0; orientation <= 9; ++orientation) {
      const Codes expected = upright(stored, w, h, channels, orientation);
      for (const size_t budget : {size_t{1}, size_t{1000}, size_t{5000}, kOrientBudget}) {
        CAPTURE(orientation);
        CAPTURE(budget);
        uint64_t asked = 0;
        auto rows =
            orient_rows(std::make_unique<HeldRows>(w, h, channels, &asked), orientation, budget);
        const RowFormat format = rows->format();
        const bool turned = orientation >= 5 && orientation <= 8;
        REQUIRE(format.width == (turned ? h : w));
        REQUIRE(format.height == (turned ? w : h));
        Codes got(stored.size());
        for (uint32_t y = 0; y < format.height; y += 5) {
          const uint32_t count = std::min(5u, format.height - y);
          REQUIRE(rows->read(y, count,
                             std::span(got).subspan(y * format.row_samples(),
                                                    count * format.row_samples()))
                      .ok());
        }
        REQUIRE(got == expected);
        if (budget == kOrientBudget) CHECK(asked == h);
        Codes part(2 * format.row_samples());
        for (const uint32_t y : {30u, 3u, 0u, 17u}) {
          REQUIRE(rows->read(y, 2, part).ok());
          REQUIRE(
              std::equal(part.begin(), part.end(),
                         expected.begin() + static_cast<std::ptrdiff_t>(y * format.row_samples())));
        }
      }
    }
  }
}

TEST_CASE("every container stands upright") {
  const Codes drawn = picture(30, 20, 3, 8);
  for (int orientation = 1; orientation <= 8; ++orientation) {
    CAPTURE(orientation);
    const auto turn = static_cast<uint32_t>(orientation);
    Bytes block = raw_exif(false, {{0x112, 3, "", {turn}}}, {}, {});
    Bytes segment = {'E', 'x', 'i', 'f', 0, 0};
    segment.insert(segment.end(), block.begin(), block.end());
    const Bytes jpeg =
        raw_jpeg({.width = 30, .height = 20, .segments = {{JPEG_APP0 + 1, segment}}}, drawn);
    const Bytes png =
        raw_png({.width = 30,
                 .height = 20,
                 .more =
                     [&](png_structp p, png_infop i) {
                       png_set_eXIf_1(p, i, static_cast<png_uint_32>(block.size()), block.data());
                     }},
                drawn);
    const Bytes tiff =
        raw_tiff({.width = 30,
                  .height = 20,
                  .more = [&](TIFF* t) { TIFFSetField(t, TIFFTAG_ORIENTATION, orientation); }},
                 drawn);
    const Codes expected = upright(widened(drawn), 30, 20, 3, orientation);
    for (const Bytes& file : {png, tiff}) {
      auto got = read_file_rows(file, 3);
      REQUIRE(got.ok());
      CHECK(got.value() == expected);
    }
    auto got = read_file_rows(jpeg, 3);
    REQUIRE(got.ok());
    CHECK(got.value() == upright(widened(decode_jpeg(jpeg)), 30, 20, 3, orientation));
  }
}

TEST_CASE("rows of 16 bits are given as they are") {
  uint64_t asked = 0;
  HeldRows rows(7, 5, 3, &asked);
  Codes wide(2 * 7 * 3);
  Pixels pixels;
  REQUIRE(rows.read(3, 2, wide).ok());
  REQUIRE(rows.read_pixels(3, 2, pixels).ok());
  const PixelView view = pixels.view();
  const auto* sixteen = std::get_if<std::span<const uint16_t>>(&view);
  REQUIRE(sixteen != nullptr);
  CHECK(Codes(sixteen->begin(), sixteen->end()) == wide);
}
