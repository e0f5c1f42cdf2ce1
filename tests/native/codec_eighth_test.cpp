// A JPEG at an eighth of its size, held against what libjpeg itself makes of it.
#include <optional>
#include <random>

#include "codec/jpeg_decoder.h"
#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

Result<Codes> eighth_of(const Bytes& file) {
  auto master = open_master(source_of(file));
  if (!master) return master.error();
  return read_picture(*master.value(), 3, 8);
}

// What libjpeg makes of it if it reads to the last row without a word of damage.
std::optional<Codes> plain_eighth(const Bytes& file) {
  JpegDecoder decoder(source_of(file));
  if (!decoder.open() || !decoder.start(8)) return std::nullopt;
  Codes samples;
  Bytes row(size_t{decoder.out_width()} * decoder.channels());
  while (decoder.next_row() < decoder.out_height()) {
    if (!decoder.read_row(row.data())) return std::nullopt;
    samples.insert(samples.end(), row.begin(), row.end());
  }
  return samples;
}

std::vector<JpegRecipe> recipes() {
  std::vector<JpegRecipe> all;
  for (const int quality : {1, 50, 90, 100}) {
    for (const bool own_codes : {false, true}) {
      all.push_back({.width = 203, .height = 150, .quality = quality, .own_codes = own_codes});
      all.push_back({.width = 203,
                     .height = 150,
                     .channels = 1,
                     .stored = JCS_GRAYSCALE,
                     .quality = quality,
                     .own_codes = own_codes});
    }
  }
  all.push_back({.width = 203, .height = 150, .stored = JCS_RGB});
  all.push_back({.width = 203, .height = 150, .restart_rows = 1});
  all.push_back({.width = 90, .height = 310, .restart_rows = 2, .quality = 60});
  for (const uint32_t side : {1u, 7u, 8u, 9u, 16u}) all.push_back({.width = side, .height = side});
  return all;
}

// Noise to the full, which takes the longest codes there are.
Codes noise(uint32_t width, uint32_t height, int channels) {
  std::mt19937 random(5);
  Codes samples;
  for (uint32_t i = 0; i < width * height * static_cast<uint32_t>(channels); ++i) {
    samples.push_back(random() % 2 == 0 ? 0 : 255);
  }
  return samples;
}

}  // namespace

TEST_CASE("a JPEG's eighth is libjpeg's, to the bit") {
  for (const JpegRecipe& recipe : recipes()) {
    CAPTURE(recipe.width);
    CAPTURE(recipe.channels);
    CAPTURE(recipe.quality);
    const auto channels = static_cast<uint32_t>(recipe.channels);
    for (const Codes& drawn : {picture(recipe.width, recipe.height, channels, 8),
                               noise(recipe.width, recipe.height, recipe.channels)}) {
      const Bytes file = raw_jpeg(recipe, drawn);
      auto small = eighth_of(file);
      REQUIRE(small.ok());
      CHECK(small.value() == widened(decode_jpeg(file, 8)));
    }
  }
}

TEST_CASE("rows of an eighth in any order") {
  const Bytes file = raw_jpeg({.width = 83, .height = 631}, picture(83, 631, 3, 8));
  auto master = open_master(source_of(file));
  REQUIRE(master.ok());
  auto rows = master.value()->open_rows(8);
  REQUIRE(rows.ok());
  const Codes whole = widened(decode_jpeg(file, 8));
  const size_t row = rows.value()->format().row_samples();
  for (const uint32_t first : {40u, 3u, 78u, 0u, 20u, 21u}) {
    CAPTURE(first);
    Codes part(row);
    REQUIRE(rows.value()->read(first, 1, part).ok());
    CHECK(std::equal(part.begin(), part.end(),
                     whole.begin() + static_cast<std::ptrdiff_t>(first * row)));
  }
}

TEST_CASE("an eighth finds the damage that libjpeg finds, and no other") {
  for (const int restart_rows : {0, 2}) {
    const JpegRecipe recipe{
        .width = 200, .height = 200, .restart_rows = restart_rows, .quality = 85};
    const Bytes sound = raw_jpeg(recipe, picture(200, 200, 3, 8));
    std::mt19937 random(77);
    int read = 0, refused = 0;
    for (int round = 0; round < 400; ++round) {
      Bytes file = sound;
      // Behind the headers, where the picture's data are; each fourth time cut off besides.
      const size_t at = 700 + random() % (file.size() - 702);
      file[at] = static_cast<uint8_t>(file[at] ^ (1u << random() % 8));
      if (round % 4 == 0) file.resize(700 + random() % (file.size() - 702));
      auto master = open_master(source_of(file));
      if (!master) continue;
      auto quick = read_picture(*master.value(), 3, 8);
      const auto plain = plain_eighth(file);
      CAPTURE(round);
      REQUIRE(quick.ok() == plain.has_value());
      if (quick.ok()) CHECK(quick.value() == widened(*plain));
      ++(quick.ok() ? read : refused);
    }
    CHECK(read > 20);
    CHECK(refused > 20);
  }
}

TEST_CASE("a cut JPEG's eighth says how much is there") {
  Bytes file = raw_jpeg({.width = 64, .height = 640}, picture(64, 640, 3, 8));
  file.resize(file.size() / 2);
  auto got = eighth_of(file);
  REQUIRE_FALSE(got.ok());
  CHECK(got.error().message.find("ends too soon; only the first ") != std::string::npos);
  CHECK(got.error().message.find(" of 80 rows") != std::string::npos);
}
