#include "deliver/deliver.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "colour/lcms.h"
#include "pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

struct Made {
  Result<Delivery> result;
  Bytes file;
};

Made make_file(const Bytes& master_bytes, const Paper& paper, const DeliverySettings& settings,
               const Watch& watch = {}, const std::function<void(Bytes&)>& harm = {}) {
  auto master = open_master(memory("master.tif", master_bytes));
  REQUIRE(master);
  auto colour = master_colour(master.value()->info(), "master.tif", "", {});
  REQUIRE(colour);
  MemorySink sink;
  auto reopen = [&]() -> Result<std::shared_ptr<ByteSource>> {
    Bytes written = sink.bytes();
    if (harm) harm(written);
    return memory("print", written);
  };
  auto result = deliver(*master.value(), colour.value(), paper, settings, sink, reopen, watch);
  return {std::move(result), sink.take()};
}

Profile romm() { return standard_profile("romm").take(); }

DeliverySettings settings_for(Container container, uint32_t bits) {
  DeliverySettings settings;
  settings.container = container;
  settings.bits = bits;
  settings.print = {Intent::perceptual, true};
  return settings;
}

}  // namespace

TEST_CASE("each kind of print file is as promised, on RGB and CMYK papers") {
  const Bytes master = ramp_tiff(301, 203, romm().bytes());
  for (const std::string& where : {kDemo + "papers/tarnsea-baryta.icc", kCmykProfile}) {
    const Paper paper = paper_at(where);
    for (const auto& settings : {settings_for(Container::jpeg, 8), settings_for(Container::tiff, 8),
                                 settings_for(Container::tiff, 16)}) {
      const Made made = make_file(master, paper, settings);
      REQUIRE_MESSAGE(made.result.ok(), (made.result.ok() ? "" : made.result.error().message));
      const Delivery& delivery = made.result.value();
      CHECK(delivery.width == 301);
      CHECK(delivery.height == 203);
      CHECK(delivery.bytes == made.file.size());
      CHECK(delivery.check.samples == 301 * 203);
      CHECK(delivery.check.mean <= delivery.check.p95);
      CHECK(delivery.check.p95 <= delivery.check.max);
      CHECK(delivery.sentence.find("ΔE00") != std::string::npos);
      if (settings.bits == 16) CHECK(delivery.check.max < 0.05);
      if (settings.container == Container::tiff) CHECK(delivery.check.mean < 0.5);

      auto again = open_master(memory("print", made.file));
      REQUIRE(again);
      const MasterInfo& info = again.value()->info();
      CHECK(info.icc == paper.profile.bytes());
      CHECK(info.bits == settings.bits);
      CHECK(info.model == paper.model);
      REQUIRE(info.ppi);
      CHECK(*info.ppi == doctest::Approx(300));
    }
  }
}

TEST_CASE("16-bit device values are LittleCMS' own for the same chain") {
  // LittleCMS' cmsDoTransform in 16 bits without precomputation as the judge.
  const Bytes master = ramp_tiff(64, 48, romm().bytes());
  const Paper paper = paper_at(kCmykProfile);
  const Made made = make_file(master, paper, settings_for(Container::tiff, 16));
  REQUIRE(made.result);
  auto rows = open_master(memory("print", made.file)).value()->open_rows();
  REQUIRE(rows);
  std::vector<uint16_t> found(64 * 48 * 4), expected(64 * 48 * 4), rgb(64 * 48 * 3);
  REQUIRE(rows.value()->read(0, 48, found).ok());
  for (uint32_t i = 0; i < 64 * 48; ++i) {
    for (uint32_t c = 0; c < 3; ++c) rgb[i * 3 + c] = ramp_sample(i % 64, i / 64, c);
  }
  const Profile source = romm();
  const Transform transform(cmsCreateTransform(
      source.handle(), TYPE_RGB_16, paper.profile.handle(), TYPE_CMYK_16, INTENT_PERCEPTUAL,
      cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE | cmsFLAGS_BLACKPOINTCOMPENSATION));
  cmsDoTransform(transform.get(), rgb.data(), expected.data(), 64 * 48);
  int worst = 0;
  for (size_t i = 0; i < found.size(); ++i)
    worst = std::max(worst, std::abs(found[i] - expected[i]));
  CHECK(worst <= 80);  // 0.12 per cent of ink: LittleCMS rounds to 16 bits between its stages
}

TEST_CASE("a large picture goes through the cube and is still as promised") {
  const Bytes master =
      ramp_tiff(1900, 1200, romm().bytes());  // more pixels than the cube has nodes
  const Made made = make_file(master, paper_at(kDemo + "papers/quillmoor-cotton-smooth.icc"),
                              settings_for(Container::tiff, 16));
  REQUIRE(made.result);
  CHECK(made.result.value().check.mean < 0.05);
  CHECK(made.result.value().check.max < 0.5);
}

TEST_CASE("the same seed gives the same file, another seed another") {
  const Bytes master = ramp_tiff(80, 60, romm().bytes());
  const Paper paper = paper_at(kDemo + "papers/owlbrook-pearl.icc");
  auto settings = settings_for(Container::tiff, 8);
  const Bytes one = make_file(master, paper, settings).file,
              two = make_file(master, paper, settings).file;
  settings.seed = 2;
  const Bytes other = make_file(master, paper, settings).file;
  CHECK(one == two);
  CHECK(one != other);
}

TEST_CASE("a file that is not as promised is an error") {
  const Bytes master = ramp_tiff(120, 90, romm().bytes());
  const Paper paper = paper_at(kDemo + "papers/owlbrook-pearl.icc");
  auto settings = settings_for(Container::tiff, 16);
  auto expect_error = [&](const std::function<void(Bytes&)>& harm, const char* word) {
    const Made made = make_file(master, paper, settings, {}, harm);
    REQUIRE_FALSE(made.result.ok());
    CHECK_MESSAGE(made.result.error().message.find(word) != std::string::npos,
                  made.result.error().message);
  };
  expect_error([](Bytes& file) { file.resize(file.size() / 2); }, "not as promised");
  expect_error([&](Bytes& file) { file = ramp_tiff(120, 91, paper.profile.bytes()); }, "size");
  expect_error([&](Bytes& file) { file = ramp_tiff(120, 90, romm().bytes()); }, "profile");
  expect_error([&](Bytes& file) { file = ramp_tiff(120, 90, paper.profile.bytes()); },
               "colours differ");
}

TEST_CASE("a very coarse JPEG is refused with a way out") {
  auto settings = settings_for(Container::jpeg, 8);
  settings.quality = 1;
  const Made made = make_file(ramp_tiff(200, 150, romm().bytes()),
                              paper_at(kDemo + "papers/tarnsea-baryta.icc"), settings);
  REQUIRE_FALSE(made.result.ok());
  CHECK(made.result.error().message.find("quality") != std::string::npos);
}

TEST_CASE("stopping, absurd resolutions and cut masters are errors, not files") {
  const Bytes master = ramp_tiff(300, 400, romm().bytes());
  const Paper paper = paper_at(kDemo + "papers/tarnsea-baryta.icc");
  auto settings = settings_for(Container::jpeg, 8);
  CHECK_FALSE(
      make_file(master, paper, settings, [](double share) { return share < 0.3; }).result.ok());
  settings.ppi = 0;
  CHECK_FALSE(make_file(master, paper, settings).result.ok());
  settings.ppi = NAN;
  CHECK_FALSE(make_file(master, paper, settings).result.ok());
}

TEST_CASE("private data stays out unless kept on purpose") {
  // Exif 2.32: GPS IFD pointer 0x8825, Artist 0x013B, BodySerialNumber 0xA431, little-endian.
  auto put16 = [](Bytes& b, uint32_t v) { b.push_back(uint8_t(v)), b.push_back(uint8_t(v >> 8)); };
  auto put32 = [&](Bytes& b, uint32_t v) { put16(b, v & 0xffff), put16(b, v >> 16); };
  Bytes exif{'I', 'I', 42, 0, 8, 0, 0, 0};
  put16(exif, 1);
  put16(exif, 0x013B), put16(exif, 2), put32(exif, 12), put32(exif, 26), put32(exif, 0);
  const std::string artist = "Wren Tidewell";
  exif.insert(exif.end(), artist.begin(), artist.begin() + 11);
  exif.push_back(0);
  const Bytes master = ramp_tiff(40, 30, romm().bytes(), exif);
  auto holds = [](const Bytes& file) {
    const std::string name = "Wren Tide";
    return std::search(file.begin(), file.end(), name.begin(), name.end()) != file.end();
  };
  REQUIRE(holds(master));
  const Paper paper = paper_at(kDemo + "papers/tarnsea-baryta.icc");
  for (const Container container : {Container::jpeg, Container::tiff}) {
    auto settings = settings_for(container, 8);
    CHECK_FALSE(holds(make_file(master, paper, settings).file));
    settings.keep_private = true;
    CHECK(holds(make_file(master, paper, settings).file));
  }
}
