#include <algorithm>
#include <cstdlib>
#include <cstring>

#include "codec/writer.h"
#include "codec/writers.h"
#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

Result<Bytes> write_file(const WriteSpec& spec, const Codes& samples, uint32_t step = 5) {
  MemorySink sink;
  auto writer = open_writer(spec, sink);
  if (!writer) return writer.error();
  const size_t row = samples.size() / spec.height;
  for (uint32_t y = 0; y < spec.height; y += step) {
    const uint32_t count = std::min(step, spec.height - y);
    const auto part = std::span(samples).subspan(y * row, count * row);
    Status put = spec.bits == 16 ? writer.value()->write16(part, count)
                                 : writer.value()->write8(Bytes(part.begin(), part.end()), count);
    if (!put) return put.error();
  }
  if (Status end = writer.value()->finish(); !end) return end.error();
  return sink.take();
}

// The body of the first segment with this marker, empty if there is none.
Bytes segment(const Bytes& jpeg, uint8_t marker) {
  size_t at = 2;
  while (at + 4 <= jpeg.size() && jpeg[at] == 0xFF && jpeg[at + 1] != 0xDA) {
    const size_t length = static_cast<size_t>(jpeg[at + 2] << 8 | jpeg[at + 3]);
    const auto body = jpeg.begin() + static_cast<std::ptrdiff_t>(at + 4);
    if (jpeg[at + 1] == marker) return Bytes(body, body + static_cast<std::ptrdiff_t>(length - 2));
    at += 2 + length;
  }
  return {};
}

uint32_t little(const Bytes& bytes, size_t at, size_t size) {
  uint32_t value = 0;
  for (size_t i = size; i-- > 0;) value = value << 8 | bytes[at + i];
  return value;
}

// Offset of a tag's 12-byte entry in a little-endian directory (TIFF 6.0 section 2), 0 if absent.
size_t entry_of(const Bytes& bytes, size_t directory, uint16_t tag) {
  for (size_t i = 0; i < little(bytes, directory, 2); ++i) {
    const size_t at = directory + 2 + 12 * i;
    if (little(bytes, at, 2) == tag) return at;
  }
  return 0;
}

}  // namespace

TEST_CASE("JPEG print files come back within the coding error, for every model and detail") {
  for (const ColourModel model : {ColourModel::grey, ColourModel::rgb, ColourModel::cmyk}) {
    for (const bool full : {true, false}) {
      CAPTURE(static_cast<int>(model));
      CAPTURE(full);
      Codes drawn(48 * 40 * channels_of(model));
      for (size_t i = 0; i < drawn.size(); ++i) {
        // Smooth, so that thinned-out colour comes back too.
        const size_t p = i / channels_of(model), c = i % channels_of(model);
        drawn[i] = static_cast<uint16_t>((p % 48) * (c + 1) + p / 48 + 10);
      }
      const WriteSpec spec{
          .model = model, .width = 48, .height = 40, .quality = 100, .full_colour_detail = full};
      auto file = write_file(spec, drawn);
      REQUIRE(file.ok());
      auto master = open_master(source_of(file.value()));
      REQUIRE(master.ok());
      CHECK(master.value()->info().model == model);
      CHECK(master.value()->info().ppi == 300.0);
      CHECK(master.value()->info().exif_space == ExifColourSpace::uncalibrated);
      auto got = read_picture(*master.value());
      REQUIRE(got.ok());
      for (size_t i = 0; i < drawn.size(); ++i) {
        REQUIRE(std::abs(int{got.value()[i]} - drawn[i] * 257) <= 6 * 257);
      }
      // libjpeg itself: CMYK is stored inverted and the Adobe marker says so.
      const Codes raw = decode_jpeg(file.value());
      const bool ink = model == ColourModel::cmyk;
      for (size_t i = 0; i < drawn.size(); ++i) {
        REQUIRE(std::abs(int{raw[i]} - (ink ? 255 - drawn[i] : drawn[i])) <= 6);
      }
      CHECK(segment(file.value(), 0xEE).empty() == !ink);
      // The frame header's sampling: 4:4:4 is 0x11 for the first component, 4:2:0 is 0x22.
      const Bytes frame = segment(file.value(), 0xC0);
      REQUIRE(frame.size() > 7);
      CHECK(frame[7] == (full || model == ColourModel::grey ? 0x11 : 0x22));
    }
  }
}

TEST_CASE("JFIF 1.02 density bytes") {
  auto file = write_file({.width = 16, .height = 16, .ppi = 360}, picture(16, 16, 3, 8));
  REQUIRE(file.ok());
  const Bytes jfif = segment(file.value(), 0xE0);
  REQUIRE(jfif.size() >= 14);
  CHECK(std::memcmp(jfif.data(), "JFIF", 5) == 0);
  CHECK(jfif[7] == 1);  // units: dots per inch
  CHECK((jfif[8] << 8 | jfif[9]) == 360);
  CHECK((jfif[10] << 8 | jfif[11]) == 360);
  // CMYK has no JFIF segment; Exif XResolution says it.
  file = write_file({.model = ColourModel::cmyk, .width = 16, .height = 16, .ppi = 240},
                    picture(16, 16, 4, 8));
  REQUIRE(file.ok());
  CHECK(segment(file.value(), 0xE0).empty());
  auto master = open_master(source_of(file.value()));
  REQUIRE(master.ok());
  CHECK(master.value()->info().ppi == 240.0);
}

TEST_CASE("profiles of any length are embedded whole") {
  for (const size_t size : {500u, 70'000u, 200'000u}) {
    Bytes profile(size);
    for (size_t i = 0; i < size; ++i) profile[i] = static_cast<uint8_t>(i * 31 >> 2);
    for (const Container container : {Container::jpeg, Container::tiff}) {
      const WriteSpec spec{.container = container, .width = 16, .height = 16, .icc = profile};
      auto file = write_file(spec, picture(16, 16, 3, 8));
      REQUIRE(file.ok());
      auto master = open_master(source_of(file.value()));
      REQUIRE(master.ok());
      CHECK(master.value()->info().icc == profile);
    }
  }
}

TEST_CASE("TIFF print files come back exactly, and libtiff reads the same") {
  for (const ColourModel model : {ColourModel::grey, ColourModel::rgb, ColourModel::cmyk}) {
    for (const uint32_t bits : {8u, 16u}) {
      const Codes drawn = picture(301, 700, channels_of(model), bits);
      const WriteSpec spec{.container = Container::tiff,
                           .model = model,
                           .width = 301,
                           .height = 700,
                           .bits = bits,
                           .ppi = 360};
      auto file = write_file(spec, drawn, 13);
      REQUIRE(file.ok());
      auto got = read_file_rows(file.value());
      REQUIRE(got.ok());
      CHECK(got.value() == (bits == 8 ? widened(drawn) : drawn));
    }
  }
}

TEST_CASE("TIFF 6.0 resolution fields and the Exif directory, read from the bytes") {
  const Bytes exif =
      clean_exif({}, {.width = 16, .height = 12, .ppi = 300, .space = ExifColourSpace::srgb});
  const WriteSpec spec{.container = Container::tiff,
                       .width = 16,
                       .height = 12,
                       .ppi = 300,
                       .exif_space = ExifColourSpace::srgb,
                       .exif = exif};
  auto written = write_file(spec, picture(16, 12, 3, 8));
  REQUIRE(written.ok());
  const Bytes& file = written.value();
  CHECK(little(file, 0, 4) == 0x002A4949);  // "II", 42
  const size_t directory = little(file, 4, 4);
  for (const uint16_t tag : {282, 283}) {  // XResolution, YResolution: RATIONAL
    const size_t at = entry_of(file, directory, tag);
    REQUIRE(at > 0);
    CHECK(little(file, at + 2, 2) == 5);
    const size_t value = little(file, at + 8, 4);
    CHECK(little(file, value, 4) == 300 * little(file, value + 4, 4));
  }
  const size_t unit = entry_of(file, directory, 296);
  REQUIRE(unit > 0);
  CHECK(little(file, unit + 8, 2) == 2);  // inch
  const size_t pointer = entry_of(file, directory, 34665);
  REQUIRE(pointer > 0);
  const size_t photo = little(file, pointer + 8, 4);
  const size_t space = entry_of(file, photo, 0xA001);
  REQUIRE(space > 0);
  CHECK(little(file, space + 8, 2) == 1);
  CHECK(little(file, entry_of(file, photo, 0xA002) + 8, 4) == 16);
  auto master = open_master(source_of(file));
  REQUIRE(master.ok());
  CHECK(master.value()->info().exif_space == ExifColourSpace::srgb);
  CHECK(master.value()->info().ppi == 300.0);
}

TEST_CASE("what cannot be written is refused") {
  MemorySink sink;
  const auto refused = [&](const WriteSpec& spec) { return !open_writer(spec, sink).ok(); };
  CHECK(refused({.width = 10, .height = 10, .bits = 16}));
  CHECK(refused({.width = 0, .height = 10}));
  CHECK(refused({.width = 70'000, .height = 10}));
  CHECK(refused({.width = 10, .height = 10, .quality = 101}));
  CHECK(refused({.width = 10, .height = 10, .ppi = 0}));
  CHECK(refused({.width = 10, .height = 10, .icc = Bytes(17 << 20)}));
  CHECK(refused({.container = Container::png, .width = 10, .height = 10}));
  CHECK(refused({.container = Container::tiff, .width = 10, .height = 10, .bits = 32}));
  for (const Container container : {Container::jpeg, Container::tiff}) {
    auto writer = open_writer({.container = container, .width = 10, .height = 10}, sink);
    REQUIRE(writer.ok());
    CHECK_FALSE(writer.value()->write8(Bytes(29), 1).ok());
    CHECK_FALSE(writer.value()->write8(Bytes(30 * 11), 11).ok());
    CHECK_FALSE(writer.value()->write16(Codes(30), 1).ok());
    CHECK(writer.value()->write8(Bytes(30), 1).ok());
    CHECK_FALSE(writer.value()->finish().ok());  // nine rows are missing
  }
}

TEST_CASE("a sink that refuses passes its own sentence on") {
  class Full final : public ByteSink {
   public:
    explicit Full(uint64_t room) : room_(room) {}
    Status write_at(uint64_t offset, ByteView bytes) override {
      if (offset + bytes.size() > room_) return Error{"The disk is full."};
      return held_.write_at(offset, bytes);
    }
    uint64_t size() const override { return held_.size(); }

   private:
    uint64_t room_;
    MemorySink held_;
  };
  const Codes drawn = picture(300, 300, 3, 8);
  const Bytes rows(drawn.begin(), drawn.end());
  for (const Container container : {Container::jpeg, Container::tiff}) {
    for (const uint64_t room : {0u, 100u, 3000u, 70'000u}) {
      Full sink(room);
      std::string message;
      auto writer =
          open_writer({.container = container, .width = 300, .height = 300, .quality = 100}, sink);
      if (!writer) {
        message = writer.error().message;
      } else {
        Status put = writer.value()->write8(rows, 300);
        if (put) put = writer.value()->finish();
        REQUIRE_FALSE(put.ok());
        message = put.error().message;
      }
      CHECK(message == "The disk is full.");
    }
  }
}
