#include "deliver/deliver.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <random>
#include <thread>

#include "colour/lcms.h"
#include "deliver/band_maker.h"
#include "deliver/dither.h"
#include "deliver/run_bands.h"
#include "pictures.h"
#include "proof/device_cube.h"

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
  REQUIRE_MESSAGE(master.ok(), (master.ok() ? "" : master.error().message));
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
  const Bytes master = ramp_tiff(1100, 900, romm().bytes());  // more pixels than the cube has nodes
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

// A sink that refuses after some bytes, as a full disk does.
class SmallSink final : public ByteSink {
 public:
  explicit SmallSink(uint64_t room) : room_(room) {}
  Status write_at(uint64_t offset, ByteView bytes) override {
    if (offset + bytes.size() > room_) return Error{"The disk is full."};
    size_ = std::max<uint64_t>(size_, offset + bytes.size());
    return done();
  }
  uint64_t size() const override { return size_; }

 private:
  uint64_t room_, size_ = 0;
};

TEST_CASE("a disk that fills up ends the work with its own sentence, wherever it happens") {
  const Bytes bytes = ramp_tiff(700, 3000, romm().bytes());
  const Paper paper = paper_at(kDemo + "papers/tarnsea-baryta.icc");
  for (const auto& settings :
       {settings_for(Container::jpeg, 8), settings_for(Container::tiff, 16)}) {
    for (const uint64_t room : {100, 30000, 100000}) {
      auto master = open_master(memory("master.tif", bytes));
      REQUIRE(master);
      auto colour = master_colour(master.value()->info(), "master.tif", "", {});
      REQUIRE(colour);
      SmallSink sink(room);
      bool reopened = false;
      const Reopen reopen = [&]() -> Result<std::shared_ptr<ByteSource>> {
        reopened = true;
        return Error{"Nothing was finished."};
      };
      const auto result =
          deliver(*master.value(), colour.value(), paper, settings, sink, reopen, {});
      REQUIRE_FALSE(result.ok());
      CHECK(result.error().message == "The disk is full.");
      CHECK_FALSE(reopened);
    }
  }
}

TEST_CASE("a master cut short or damaged ends the work with its own sentence") {
  const Paper paper = paper_at(kDemo + "papers/tarnsea-baryta.icc");
  const auto settings = settings_for(Container::jpeg, 8);
  const Bytes tiff = ramp_tiff(300, 1000, romm().bytes());
  Bytes cut = make_file(tiff, paper, settings).file;
  cut.erase(cut.end() - 4000, cut.end());  // the profile is most of so smooth a file
  Bytes damaged = tiff;
  // Long enough to take in the beginning of a strip: libtiff does not check Deflate's checksums.
  std::fill_n(damaged.begin() + static_cast<std::ptrdiff_t>(tiff.size() * 6 / 10), tiff.size() / 5,
              0xff);
  for (const Bytes& master : {cut, damaged}) {
    const Made made = make_file(master, paper, settings);
    REQUIRE_FALSE(made.result.ok());
    CHECK(made.result.error().message.starts_with("master.tif"));
  }
}

TEST_CASE("stopped at any share, all threads end, and the share never falls") {
  const Bytes master = ramp_tiff(300, 400, romm().bytes());
  const Paper paper = paper_at(kDemo + "papers/tarnsea-baryta.icc");
  const auto settings = settings_for(Container::jpeg, 8);
  const auto asker = std::this_thread::get_id();
  for (int percent = 0; percent <= 100; percent += 4) {
    double last = 0;
    const Made made = make_file(master, paper, settings, [&](double share) {
      CHECK(std::this_thread::get_id() == asker);
      CHECK(share >= last);
      last = share;
      return share < percent / 100.0;
    });
    if (percent < 80) CHECK_FALSE(made.result.ok());
    if (!made.result.ok()) CHECK(made.result.error().message == stopped().message);
  }
}

TEST_CASE("stopped in the middle of a large picture") {
  int asked = 0;
  const Made made = make_file(
      ramp_tiff(1900, 1200, romm().bytes()), paper_at(kDemo + "papers/tarnsea-baryta.icc"),
      settings_for(Container::jpeg, 8), [&](double) { return ++asked < 4; });
  REQUIRE_FALSE(made.result.ok());
  CHECK(made.result.error().message == stopped().message);
}

TEST_CASE("bands come in order, each once, and all sides learn of each other's end") {
  constexpr uint32_t kBands = 203;
  const auto read = [](uint32_t band, Pixels& rgb) -> Status {
    rgb.sixteen(3)[0] = static_cast<uint16_t>(band);
    return done();
  };
  bool begun = false;
  const auto begin = [&]() -> Status {
    begun = true;
    return done();
  };
  const auto make = [&](size_t maker, uint32_t band, PixelView rgb) {
    CHECK(begun);
    // Makers of unlike speed, so that bands are finished out of order.
    std::this_thread::sleep_for(std::chrono::microseconds(maker * 200));
    CHECK(std::get<1>(rgb)[0] == band);
    return Result<Bytes>(Bytes{static_cast<uint8_t>(band)});
  };
  for (const size_t makers : {1u, 2u, 5u}) {
    for (const size_t in_hand : {1u, 2u, 7u, 300u}) {
      uint32_t joined = 0;
      const Status all =
          run_bands(kBands, makers, in_hand, {begin, read, make, [&](uint32_t band, ByteView made) {
                                                CHECK(band == joined++);
                                                CHECK(made[0] == static_cast<uint8_t>(band));
                                                return done();
                                              }});
      CHECK(all.ok());
      CHECK(joined == kBands);
    }
  }
  // What cannot begin makes and joins nothing.
  const Status none = run_bands(kBands, 2, 3,
                                {[]() -> Status { return Error{"Begin"}; }, read,
                                 [](size_t, uint32_t, PixelView) -> Result<Bytes> {
                                   FAIL_CHECK("made");
                                   return Bytes{};
                                 },
                                 [](uint32_t, ByteView) -> Status {
                                   FAIL_CHECK("joined");
                                   return done();
                                 }});
  REQUIRE_FALSE(none.ok());
  CHECK(none.error().message == "Begin");
  // Whoever gives up first, by the bands' order, is told; earlier bands are joined.
  for (const int who : {0, 1, 2}) {
    uint32_t joined = 0;
    const auto fails = [&](int me, uint32_t band) { return me == who && band >= 50; };
    const Status all = run_bands(kBands, 3, 8,
                                 {begin,
                                  [&](uint32_t band, Pixels& rgb) -> Status {
                                    if (fails(0, band))
                                      return Error{"Read " + std::to_string(band)};
                                    return read(band, rgb);
                                  },
                                  [&](size_t maker, uint32_t band, PixelView rgb) -> Result<Bytes> {
                                    if (fails(1, band))
                                      return Error{"Make " + std::to_string(band)};
                                    return make(maker, band, rgb);
                                  },
                                  [&](uint32_t band, ByteView) -> Status {
                                    if (fails(2, band))
                                      return Error{"Join " + std::to_string(band)};
                                    ++joined;
                                    return done();
                                  }});
    REQUIRE_FALSE(all.ok());
    CHECK(all.error().message.substr(5) == "50");
    CHECK(joined == 50);
  }
}

TEST_CASE("a device cube filled where a picture is, is the whole one there") {
  const auto paper = paper_at(kDemo + "papers/owlbrook-pearl.icc");
  const std::shared_ptr<const ProofChain> chain = ProofChain::make(romm(), paper, {}, {}).take();
  constexpr uint32_t kGrid = 33;
  auto whole = DeviceCube::make(chain, kGrid);
  auto some = DeviceCube::make(chain, kGrid);
  REQUIRE(whole);
  REQUIRE(some);
  whole.value()->cover_all();
  CHECK(whole.value()->filled() == kGrid * kGrid * kGrid);
  std::vector<uint16_t> picture;
  std::mt19937 random(5);
  for (int i = 0; i < 3000; ++i) {
    const uint32_t level = random() % 65536;
    for (int c = 0; c < 3; ++c) {
      picture.push_back(static_cast<uint16_t>(std::min<uint64_t>(65535, level + random() % 4000)));
    }
  }
  const size_t half = picture.size() / 2 / 3 * 3;
  some.value()->cover(std::span(picture).first(half));
  some.value()->cover(std::span(picture).subspan(half));
  CHECK(some.value()->filled() < whole.value()->filled() / 4);
  std::vector<uint16_t> one(picture.size() / 3 * 4), two(one.size());
  apply_cube(whole.value()->cube(), picture, one);
  apply_cube(some.value()->cube(), picture, two);
  CHECK(one == two);
  for (const uint32_t grid : {0u, 2u, 32u, 34u, 64u, 193u}) {
    CHECK_FALSE(DeviceCube::make(chain, grid).ok());
  }

  // Node after node against the chain itself, at the nearest 16-bit codes.
  const Cube& cube = whole.value()->cube();
  const auto level = [&](uint32_t node) {
    const double position = 65535.0 * node / (kGrid - 1);
    return float(std::lower_bound(cube.shaper.begin(), cube.shaper.end(), position) -
                 cube.shaper.begin()) /
           65535;
  };
  int worst = 0;
  for (uint32_t i = 0; i < kGrid * kGrid * kGrid; i += 7) {
    const std::array<float, 3> rgb{level(i / kGrid / kGrid), level(i / kGrid % kGrid),
                                   level(i % kGrid)};
    std::array<float, 3> device{};
    chain->to_device(rgb, device);
    for (uint32_t c = 0; c < 3; ++c) {
      const int code = cube.nodes[i * 4 + c] + 32768;
      worst = std::max(worst, std::abs(code - static_cast<int>(device[c] * 65535 + 0.5f)));
    }
  }
  CHECK(worst <= 8);  // half a 16-bit code of position
}

TEST_CASE("pixels run through a cube that fills itself come out as through a whole one") {
  // By threads that need the same colours at the same time, on three lanes and on four.
  const std::shared_ptr<const ProofChain> rgb_chain =
      ProofChain::make(romm(), paper_at(kDemo + "papers/tarnsea-baryta.icc"), {}, {}).take();
  const std::shared_ptr<const ProofChain> ink_chain =
      ProofChain::make(romm(), paper_at(kCmykProfile), {}, {}).take();
  std::mt19937 random(23);
  std::vector<uint16_t> picture(3 * 5000);
  for (auto& code : picture) code = static_cast<uint16_t>(random() % 20000 + 30000);
  const Dither dither(7);
  for (const auto& chain : {rgb_chain, ink_chain}) {
    const auto lifts = dither.lifts(0, chain->device_channels());
    auto whole = DeviceCube::make(chain, 33);
    REQUIRE(whole);
    whole.value()->cover_all();
    std::vector<uint16_t> wide(picture.size() / 3 * 4);
    std::vector<uint8_t> eight(wide.size());
    apply_cube(whole.value()->cube(), picture, wide);
    apply_cube_dithered(whole.value()->cube(), picture, lifts, eight);
    auto cube = DeviceCube::make(chain, 33);
    REQUIRE(cube);
    constexpr size_t kThreads = 4;
    std::array<std::vector<uint16_t>, kThreads> got_wide;
    std::array<std::vector<uint8_t>, kThreads> got_eight;
    std::vector<std::thread> threads;
    for (size_t i = 0; i < kThreads; ++i) {
      threads.emplace_back([&, i] {
        got_wide[i].resize(wide.size());
        got_eight[i].resize(eight.size());
        if (i % 2) cube.value()->apply(picture, got_wide[i]);
        cube.value()->apply_dithered(picture, lifts, got_eight[i]);
        if (i % 2 == 0) cube.value()->apply(picture, got_wide[i]);
      });
    }
    for (auto& thread : threads) thread.join();
    for (size_t i = 0; i < kThreads; ++i) {
      CHECK(got_wide[i] == wide);
      CHECK(got_eight[i] == eight);
    }
    CHECK(cube.value()->filled() < whole.value()->filled() / 3);
  }
}

TEST_CASE("a master of 8 bits comes out as the same one of 16") {
  // Through the cube and, smaller than it, exactly; by threads' makers and by a worker's, which
  // gets mere bytes.
  std::mt19937 random(5);
  for (const uint32_t width : {1500u, 61u}) {
    const uint32_t height = width;
    for (const std::string& where : {kDemo + "papers/tarnsea-baryta.icc", kCmykProfile}) {
      const Paper paper = paper_at(where);
      const std::shared_ptr<const ProofChain> chain =
          ProofChain::make(romm(), paper, {}, {}).take();
      for (const auto& settings :
           {settings_for(Container::jpeg, 8), settings_for(Container::tiff, 8),
            settings_for(Container::tiff, 16)}) {
        CAPTURE(where);
        CAPTURE(settings.bits);
        auto maker = BandMaker::make(chain, print_spec(width, height, paper, settings), 3);
        REQUIRE(maker);
        const size_t samples = maker.value()->samples_of(1);
        CHECK(samples == band_rows(height, 1) * width * 3);
        CHECK(maker.value()->samples_of(bands_in(height)) == 0);
        Pixels eight, sixteen;
        const auto narrow = eight.eight(samples);
        const auto wide = sixteen.sixteen(samples);
        const auto start = static_cast<uint32_t>(random() % 100);
        for (size_t i = 0; i < samples; ++i) {
          narrow[i] = static_cast<uint8_t>(start + random() % 60);
          wide[i] = static_cast<uint16_t>(narrow[i] * 257);
        }
        auto made = maker.value()->make(1, eight.view());
        auto expected = maker.value()->make(1, sixteen.view());
        REQUIRE(made);
        REQUIRE(expected);
        CHECK(made.value() == expected.value());
        for (const PixelView sent : {eight.view(), sixteen.view()}) {
          auto there = maker.value()->make(1, pixels_of(bytes_of(sent), samples));
          REQUIRE(there);
          CHECK(there.value() == expected.value());
        }
        CHECK_FALSE(maker.value()->make(1, PixelView(narrow.first(samples - 3))).ok());
      }
    }
  }
}

TEST_CASE("a JPEG master is delivered as a TIFF of the same pixels is") {
  const Paper as_master = read_paper(romm().bytes(), "romm.icc").take();
  const Bytes jpeg =
      make_file(ramp_tiff(301, 203, romm().bytes()), as_master, settings_for(Container::jpeg, 8))
          .file;
  auto master = open_master(memory("master.jpg", jpeg));
  REQUIRE(master);
  auto rows = master.value()->open_rows();
  REQUIRE(rows);
  Pixels pixels;
  REQUIRE(rows.value()->read_pixels(0, 1, pixels).ok());
  REQUIRE(std::holds_alternative<std::span<const uint8_t>>(pixels.view()));
  const RowFormat format = rows.value()->format();
  const WriteSpec spec{.container = Container::tiff,
                       .width = format.width,
                       .height = format.height,
                       .bits = 16,
                       .icc = romm().bytes()};
  MemorySink wide;
  auto tiff = open_writer(spec, wide);
  REQUIRE(tiff);
  std::vector<uint16_t> samples(format.row_samples());
  for (uint32_t y = 0; y < format.height; ++y) {
    REQUIRE(rows.value()->read(y, 1, samples).ok());
    REQUIRE(tiff.value()->write16(samples, 1).ok());
  }
  REQUIRE(tiff.value()->finish().ok());
  const Paper paper = paper_at(kDemo + "papers/tarnsea-baryta.icc");
  const Made one = make_file(jpeg, paper, settings_for(Container::tiff, 8));
  const Made other = make_file(wide.take(), paper, settings_for(Container::tiff, 8));
  REQUIRE(one.result.ok());
  REQUIRE(other.result.ok());
  CHECK(one.file == other.file);
  CHECK(one.result.value().check.mean == other.result.value().check.mean);
}

TEST_CASE("a cube's kernel dithers as rows are dithered") {
  // A cube of one cell: its lanes are what its corners' are, blended.
  std::mt19937 random(11);
  Cube cube{2, 4, std::vector<uint16_t>(65536), {}, {}, {}};
  for (size_t v = 0; v < 65536; ++v) cube.shaper[v] = static_cast<uint16_t>(v);
  for (size_t i = 0; i < 8 * 4; ++i) cube.nodes.push_back(static_cast<int16_t>(random()));
  cube.nodes[0] = cube.nodes[1] = 32767;  // paper white and full ink are among them
  cube.nodes[2] = cube.nodes[3] = -32768;
  const Dither dither(7);
  for (const size_t width : {1u, 63u, 64u, 65u, 301u}) {
    std::vector<uint16_t> rgb(width * 3), codes(width * 4);
    for (size_t i = 3; i < rgb.size(); ++i) rgb[i] = static_cast<uint16_t>(random());
    apply_cube(cube, rgb, codes);
    std::vector<uint8_t> lanes(codes.size());
    for (const uint32_t channels : {1u, 3u, 4u}) {
      apply_cube_dithered(cube, rgb, dither.lifts(65, channels), lanes);
      std::vector<uint16_t> packed(width * channels);
      std::vector<uint8_t> found(packed.size()), wanted(packed.size());
      for (size_t i = 0; i < packed.size(); ++i) {
        packed[i] = codes[i / channels * 4 + i % channels];
        found[i] = lanes[i / channels * 4 + i % channels];
      }
      dither.row(65, channels, packed, wanted);
      CHECK(found == wanted);
    }
  }
}

TEST_CASE("dithering moves each 16-bit value as the thresholds say") {
  // Plainly: code / 257 has a whole part and 257ths, and 257ths above the threshold count as one.
  const auto mask = make_blue_noise(3);
  const Dither dither(3);
  std::vector<uint16_t> all(65536);
  std::vector<uint8_t> found(all.size());
  for (size_t v = 0; v < all.size(); ++v) all[v] = static_cast<uint16_t>(v);
  for (uint32_t y = 0; y < kMaskSide; ++y) {
    dither.row(y, 1, all, found);
    for (size_t v = 0; v < all.size(); ++v) {
      const uint32_t threshold = mask[y * kMaskSide + v % kMaskSide] * 257u / 4096;
      const auto expected = static_cast<uint8_t>(v / 257 + (v % 257 > threshold ? 1 : 0));
      if (found[v] != expected) REQUIRE(found[v] == expected);
    }
  }
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
