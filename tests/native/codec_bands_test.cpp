// Print files encoded in bands, held against the libraries' own way of writing the whole.
#include <algorithm>
#include <cstdio>
#include <random>

#include "codec/bands.h"
// (jpeglib.h needs <cstdio> before it.)
#include <jpeglib.h>

#include "codec/exif.h"
#include "codec/writers.h"
#include "pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

// Smooth tones with grain.
Bytes grainy_bytes(uint32_t width, uint32_t height, uint32_t samples) {
  std::mt19937 random(3);
  Bytes bytes(size_t{width} * height * samples);
  for (size_t i = 0; i < bytes.size(); ++i) {
    bytes[i] =
        static_cast<uint8_t>(i / samples % width / 2 + i / samples / width / 3 + random() % 9);
  }
  return bytes;
}

// The bands, encoded from the last to the first by two encoders in turn.
Bytes joined(const WriteSpec& spec, const Bytes& samples) {
  MemorySink sink;
  auto one = open_band_encoder(spec), two = open_band_encoder(spec);
  auto joiner = open_band_joiner(spec, sink);
  REQUIRE(one);
  REQUIRE(two);
  REQUIRE(joiner);
  const uint32_t count = bands_in(spec.height);
  const size_t row = samples.size() / spec.height;
  std::vector<Bytes> bands(count);
  for (uint32_t band = count; band-- > 0;) {
    const uint32_t rows = band_rows(spec.height, band);
    const auto part = std::span(samples).subspan(size_t{band} * kBandRows * row, rows * row);
    BandEncoder& encoder = band % 2 == 0 ? *one.value() : *two.value();
    Result<Bytes> made = Error{""};
    if (spec.bits == 8) {
      made = encoder.encode8(part, rows);
    } else {
      std::vector<uint16_t> wide(part.begin(), part.end());
      for (uint16_t& v : wide) v = static_cast<uint16_t>(v * 251);
      made = encoder.encode16(wide, rows);
    }
    REQUIRE(made);
    bands[band] = made.take();
  }
  for (const Bytes& band : bands) REQUIRE(joiner.value()->join(band).ok());
  CHECK_FALSE(joiner.value()->join(bands[0]).ok());  // one too many
  REQUIRE(joiner.value()->finish().ok());
  return sink.take();
}

// libjpeg-turbo writing the same picture in one go, with a restart after each band.
Bytes by_libjpeg(const WriteSpec& spec, Bytes samples) {
  jpeg_compress_struct cinfo{};
  jpeg_error_mgr errors{};
  cinfo.err = jpeg_std_error(&errors);
  jpeg_create_compress(&cinfo);
  unsigned char* out = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&cinfo, &out, &size);
  cinfo.image_width = spec.width;
  cinfo.image_height = spec.height;
  cinfo.input_components = static_cast<int>(channels_of(spec.model));
  const J_COLOR_SPACE in[]{JCS_GRAYSCALE, JCS_RGB, JCS_CMYK};
  cinfo.in_color_space = in[static_cast<int>(spec.model)];
  jpeg_set_defaults(&cinfo);
  if (spec.model == ColourModel::cmyk) {
    jpeg_set_colorspace(&cinfo, spec.full_colour_detail ? JCS_CMYK : JCS_YCCK);
    for (uint8_t& v : samples) v = static_cast<uint8_t>(255 - v);
  }
  const bool thin = !spec.full_colour_detail && spec.model != ColourModel::grey;
  for (int c = 0; c < cinfo.num_components; ++c) {
    cinfo.comp_info[c].h_samp_factor = cinfo.comp_info[c].v_samp_factor =
        thin && (c == 0 || c == 3) ? 2 : 1;
  }
  jpeg_set_quality(&cinfo, spec.quality, TRUE);
  cinfo.density_unit = 1;
  cinfo.X_density = cinfo.Y_density = static_cast<UINT16>(spec.ppi);
  cinfo.restart_in_rows = kBandRows / (thin ? 16 : 8);  // rows of blocks
  jpeg_start_compress(&cinfo, TRUE);
  Bytes exif = {'E', 'x', 'i', 'f', 0, 0};
  const Bytes block = clean_exif({}, {spec.width, spec.height, spec.ppi, spec.exif_space});
  exif.insert(exif.end(), block.begin(), block.end());
  jpeg_write_marker(&cinfo, JPEG_APP0 + 1, exif.data(), static_cast<unsigned>(exif.size()));
  const size_t row = samples.size() / spec.height;
  while (cinfo.next_scanline < spec.height) {
    JSAMPROW rows = &samples[cinfo.next_scanline * row];
    jpeg_write_scanlines(&cinfo, &rows, 1);
  }
  jpeg_finish_compress(&cinfo);
  jpeg_destroy_compress(&cinfo);
  Bytes bytes(out, out + size);
  std::free(out);
  return bytes;
}

}  // namespace

TEST_CASE("a JPEG joined of bands is byte for byte what libjpeg-turbo writes in one go") {
  for (const ColourModel model : {ColourModel::grey, ColourModel::rgb, ColourModel::cmyk}) {
    for (const bool full : {true, false}) {
      for (const auto& [width, height] :
           {std::pair{1u, 1u}, {9u, 64u}, {17u, 65u}, {203u, 127u}, {40u, 1000u}}) {
        WriteSpec spec;
        spec.model = model;
        spec.width = width;
        spec.height = height;
        spec.full_colour_detail = full;
        const Bytes samples = grainy_bytes(width, height, channels_of(model));
        CHECK(joined(spec, samples) == by_libjpeg(spec, samples));
      }
    }
  }
}

TEST_CASE("a lane that does not count changes nothing") {
  for (const Container container : {Container::jpeg, Container::tiff}) {
    for (const ColourModel model : {ColourModel::grey, ColourModel::rgb}) {
      for (const bool full : {true, false}) {
        WriteSpec spec;
        spec.container = container;
        spec.model = model;
        spec.width = 203;
        spec.height = kBandRows;
        spec.full_colour_detail = full;
        const uint32_t channels = channels_of(model);
        const Bytes samples = grainy_bytes(spec.width, spec.height, channels);
        Bytes lanes = grainy_bytes(spec.width, spec.height, 4);
        for (size_t i = 0; i < samples.size(); ++i) {
          lanes[i / channels * 4 + i % channels] = samples[i];
        }
        auto encoder = open_band_encoder(spec);
        REQUIRE(encoder);
        const auto narrow = encoder.value()->encode8(samples, spec.height);
        const auto wide = encoder.value()->encode8(lanes, spec.height);
        const auto again = encoder.value()->encode8(samples, spec.height);
        REQUIRE(narrow);
        REQUIRE(wide);
        REQUIRE(again);
        CHECK(wide.value() == narrow.value());
        CHECK(again.value() == narrow.value());
        if (container == Container::jpeg) continue;
        spec.bits = 16;
        auto deep = open_band_encoder(spec);
        REQUIRE(deep);
        const std::vector<uint16_t> samples16(samples.begin(), samples.end()),
            lanes16(lanes.begin(), lanes.end());
        const auto narrow16 = deep.value()->encode16(samples16, spec.height);
        const auto wide16 = deep.value()->encode16(lanes16, spec.height);
        REQUIRE(narrow16);
        REQUIRE(wide16);
        CHECK(wide16.value() == narrow16.value());
      }
    }
  }
}

TEST_CASE("the widest band fits into a restart interval") {
  // ITU-T T.81 section B.2.4.4: Ri has 16 bits.
  WriteSpec spec;
  spec.width = 65500;
  spec.height = 2 * kBandRows;
  const Bytes samples = grainy_bytes(spec.width, spec.height, 3);
  auto file = open_master(memory("wide.jpg", joined(spec, samples)));
  REQUIRE(file);
  auto rows = file.value()->open_rows();
  REQUIRE(rows);
  std::vector<uint16_t> last(size_t{spec.width} * 3);
  REQUIRE(rows.value()->read(spec.height - 1, 1, last).ok());
  int worst = 0;
  for (size_t i = 0; i < last.size(); ++i) {
    const int wanted = samples[size_t{spec.height - 1} * last.size() + i];
    worst = std::max(worst, std::abs(last[i] / 257 - wanted));
  }
  CHECK(worst <= 24);  // quality 95 with grain and colours that wrap around at 255
}

TEST_CASE("a TIFF joined of bands holds the picture exactly") {
  for (const uint32_t bits : {8u, 16u}) {
    for (const uint32_t width : {1u, 203u, 3000u}) {  // 3000: several strips to a band
      WriteSpec spec;
      spec.container = Container::tiff;
      spec.width = width;
      spec.height = 131;
      spec.bits = bits;
      const Bytes samples = grainy_bytes(width, spec.height, 3);
      auto file = open_master(memory("bands.tif", joined(spec, samples)));
      REQUIRE(file);
      auto rows = file.value()->open_rows();
      REQUIRE(rows);
      std::vector<uint16_t> found(samples.size());
      REQUIRE(rows.value()->read(0, spec.height, found).ok());
      const int factor = bits == 8 ? 257 : 251;
      size_t different = 0;
      for (size_t i = 0; i < found.size(); ++i) different += found[i] != samples[i] * factor;
      CHECK(different == 0);
    }
  }
}

TEST_CASE("rows in strips of 1, 7, 64 or all at once make the same file") {
  for (const Container container : {Container::jpeg, Container::tiff}) {
    WriteSpec spec;
    spec.container = container;
    spec.width = 150;
    spec.height = 200;
    const Bytes samples = grainy_bytes(150, 200, 3);
    const Bytes expected = joined(spec, samples);
    for (const uint32_t step : {1u, 7u, 64u, 200u}) {
      MemorySink sink;
      auto writer = open_writer(spec, sink);
      REQUIRE(writer);
      for (uint32_t y = 0; y < 200; y += step) {
        const uint32_t count = std::min(step, 200 - y);
        REQUIRE(
            writer.value()
                ->write8(std::span(samples).subspan(size_t{y} * 450, size_t{count} * 450), count)
                .ok());
      }
      REQUIRE(writer.value()->finish().ok());
      CHECK(sink.bytes() == expected);
    }
  }
}

TEST_CASE("bands that are not bands are refused") {
  for (const Container container : {Container::jpeg, Container::tiff}) {
    WriteSpec spec;
    spec.container = container;
    spec.width = 10;
    spec.height = 100;
    auto encoder = open_band_encoder(spec);
    REQUIRE(encoder);
    CHECK_FALSE(encoder.value()->encode8(Bytes(30 * 65), 65).ok());
    CHECK_FALSE(encoder.value()->encode8(Bytes(31), 1).ok());
    CHECK_FALSE(encoder.value()->encode8(Bytes(40 * 65), 65).ok());
    CHECK_FALSE(encoder.value()->encode8({}, 0).ok());
    CHECK_FALSE(encoder.value()->encode16(std::vector<uint16_t>(30), 1).ok());
    CHECK(encoder.value()->encode8(Bytes(30), 1).ok());
    MemorySink sink;
    auto joiner = open_band_joiner(spec, sink);
    REQUIRE(joiner);
    CHECK_FALSE(joiner.value()->finish().ok());
  }
  // A TIFF band whose length is longer than it.
  MemorySink sink;
  WriteSpec spec;
  spec.container = Container::tiff;
  spec.width = spec.height = 10;
  auto joiner = open_band_joiner(spec, sink);
  REQUIRE(joiner);
  CHECK_FALSE(joiner.value()->join(Bytes{200, 0, 0, 0, 1, 2}).ok());
}
