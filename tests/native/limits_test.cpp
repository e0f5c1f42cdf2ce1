// Files that ask for more than they are worth: bombs, absurd sizes, tables and curves out of all
// bounds. They are refused by stated limits; how much was read and held is counted, not timed.
#include "codec/limits.h"

#include <lcms2_plugin.h>
#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "codec/exif.h"
#include "codec_files.h"
#include "colour/lcms.h"
#include "doctest.h"
#include "paper/paper.h"
#include "print/cgats.h"
#include "proof/cube.h"
#include "share/offer.h"
#include "small_profiles.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

// Counts the bytes that are read from it.
class Counted final : public ByteSource {
 public:
  explicit Counted(Bytes bytes) : held_("bomb.img", std::move(bytes)) {}
  const std::string& name() const override { return held_.name(); }
  uint64_t size() const override { return held_.size(); }
  Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) override {
    auto got = held_.read_at(offset, into);
    if (got) read += got.value();
    return got;
  }
  uint64_t read = 0;

 private:
  MemorySource held_;
};

std::string refusal(Bytes file) {
  auto master = open_master(std::make_shared<Counted>(std::move(file)));
  return master.ok() ? std::string() : master.error().message;
}

// PNG specification, third edition: IHDR's data stands at 16, its checksum at 29.
Bytes png_of_size(Bytes png, uint32_t width, uint32_t height) {
  for (size_t i = 0; i < 4; ++i) {
    png[16 + i] = static_cast<uint8_t>(width >> (24 - 8 * i));
    png[20 + i] = static_cast<uint8_t>(height >> (24 - 8 * i));
  }
  const auto sum = static_cast<uint32_t>(crc32(0, &png[12], 17));
  for (size_t i = 0; i < 4; ++i) png[29 + i] = static_cast<uint8_t>(sum >> (24 - 8 * i));
  return png;
}

// ITU-T T.81 B.2.2: a frame header is FF C0..C2, length, precision, height, width.
Bytes jpeg_of_size(Bytes jpeg, uint16_t width, uint16_t height) {
  for (size_t i = 0; i + 9 < jpeg.size(); ++i) {
    if (jpeg[i] != 0xFF || (jpeg[i + 1] != 0xC0 && jpeg[i + 1] != 0xC2)) continue;
    jpeg[i + 5] = static_cast<uint8_t>(height >> 8);
    jpeg[i + 6] = static_cast<uint8_t>(height);
    jpeg[i + 7] = static_cast<uint8_t>(width >> 8);
    jpeg[i + 8] = static_cast<uint8_t>(width);
    break;
  }
  return jpeg;
}

void put_word(Bytes& bytes, size_t at, uint32_t value) {
  for (size_t i = 0; i < 4; ++i) bytes[at + i] = static_cast<uint8_t>(value >> (24 - 8 * i));
}

// A cube that may be run: its shaper never falls (proof/cube.h), or places in it lie outside.
bool sound(const Result<Cube>& cube) {
  return cube.ok() && cube.value().nodes.size() == 27 * 4 &&
         std::is_sorted(cube.value().shaper.begin(), cube.value().shaper.end());
}
// Every number that is told of a colour is one.
bool sound(const ProofPoint& point) {
  double sum = point.delta_e + point.off_gamut + point.ink;
  for (const Lab& lab : {point.master, point.corrected, point.on_paper})
    sum += lab.l + lab.a + lab.b;
  for (const double value : point.screen) sum += value;
  return std::isfinite(sum);
}

// An RGB profile whose floating-point table (ICC.1:2022 10.16, multiProcessElementsType) holds
// `value` at every node, beside the tag of the sound matrix profile it is made from.
Bytes with_float_table(float value) {
  cmsHPROFILE profile = cmsCreate_sRGBProfile();
  cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
  const std::vector<float> nodes(2 * 2 * 2 * 3, value);
  cmsPipelineInsertStage(pipeline, cmsAT_END,
                         cmsStageAllocCLutFloat(nullptr, 2, 3, 3, nodes.data()));
  REQUIRE(cmsWriteTag(profile, cmsSigDToB1Tag, pipeline));
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  Bytes bytes(size);
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsPipelineFree(pipeline);
  cmsCloseProfile(profile);
  return bytes;
}

// Whether a profile serves as a master's; if it does, proofs of it are sound.
bool serves_a_master(const Bytes& bytes) {
  static const Paper paper = paper_from_profile(standard_profile("p3").take(), "Display").take();
  auto profile = Profile::open(bytes, "wild.icc");
  if (!profile || profile.value().colour_space() != cmsSigRgbData) return false;
  auto chain = ProofChain::make(profile.value(), paper, {}, {});
  if (!chain) return false;
  REQUIRE(sound(chain.value()->point(0.2f, 0.5f, 0.9f)));
  REQUIRE(sound(build_screen_cube(*chain.value(), 3, {})));
  return true;
}

// Whether a profile is a paper that can be proofed; whatever it is, its numbers are numbers.
bool proofs_soundly(Bytes bytes) {
  static const Profile master = standard_profile("srgb").take();
  auto paper = read_paper(std::move(bytes), "wild.icc");
  if (!paper) {
    REQUIRE(paper.error().message.back() == '.');
    return false;
  }
  REQUIRE(paper.value().white.l > paper.value().black.l);
  auto chain = ProofChain::make(master, paper.value(), {}, {});
  if (!chain) return false;
  REQUIRE(sound(chain.value()->point(0.2f, 0.5f, 0.9f)));
  REQUIRE(sound(build_screen_cube(*chain.value(), 3, {})));
  return true;
}

}  // namespace

TEST_CASE("limits: a PNG too short for its size is refused before anything is decoded") {
  const Bytes small = raw_png({}, picture(37, 29, 3, 8));
  const Bytes interlaced = raw_png({.interlaced = true}, picture(37, 29, 3, 8));
  for (const Bytes& png : {small, interlaced}) {
    CHECK(refusal(png).empty());
    const std::string said = refusal(png_of_size(png, 12000, 12000));
    CHECK(said.find("bomb.img ends too soon: a picture of the size it says takes at least") == 0);
  }
}

TEST_CASE("limits: a picture of one colour, as well compressed as can be, still opens") {
  constexpr uint32_t kSide = 3000;
  const Codes white(size_t{kSide} * kSide, 1);
  const Bytes file =
      raw_png({.width = kSide, .height = kSide, .depth = 1, .type = PNG_COLOR_TYPE_GRAY}, white);
  MESSAGE("PNG: " << kSide * kSide / 8 / file.size() << " bytes of one");
  CHECK(refusal(file).empty());
  const Codes bright(size_t{kSide} * kSide, 255);
  const Bytes jpeg = raw_jpeg({.width = kSide,
                               .height = kSide,
                               .channels = 1,
                               .stored = JCS_GRAYSCALE,
                               .progressive = true},
                              bright);
  CHECK(refusal(jpeg).empty());
  CHECK(read_file_rows(jpeg).ok());
}

TEST_CASE("limits: a JPEG too short for its size is refused before memory is taken for it") {
  for (const bool progressive : {false, true}) {
    const Bytes sound = raw_jpeg({.progressive = progressive}, picture(37, 29, 3, 8));
    CHECK(refusal(sound).empty());
    CHECK(refusal(jpeg_of_size(sound, 24000, 24000)).find("ends too soon: a picture") !=
          std::string::npos);
  }
}

TEST_CASE("limits: a TIFF whose lists lie about their length is read only as far as it goes") {
  for (const Named& sound : sound_files()) {
    if (std::string(sound.what).substr(0, 4) != "TIFF") continue;
    CAPTURE(sound.what);
    // The directory's place (TIFF 6.0 section 2), then each entry's count and value in turn.
    const bool big_endian = sound.file[0] == 'M', big = sound.file[big_endian ? 3 : 2] == 43;
    if (big_endian || big) continue;
    const size_t at = sound.file[4] | sound.file[5] << 8 | sound.file[6] << 16;
    const size_t entries = sound.file[at] | sound.file[at + 1] << 8;
    for (size_t entry = 0; entry < entries; ++entry) {
      for (const size_t within : {size_t{4}, size_t{8}}) {
        Bytes file = sound.file;
        std::memset(&file[at + 2 + 12 * entry + within], 0xFF, 4);
        auto source = std::make_shared<Counted>(std::move(file));
        auto master = open_master(source);
        if (master) static_cast<void>(read_picture(*master.value()).ok());
        CAPTURE(entry);
        CHECK(source->read < 64 * source->size() + (size_t{16} << 20));
      }
    }
    Bytes looped = sound.file;  // the next directory is this one
    std::memcpy(&looped[at + 2 + 12 * entries], &sound.file[4], 4);
    auto source = std::make_shared<Counted>(std::move(looped));
    static_cast<void>(open_master(source).ok());
    CHECK(source->read < 64 * source->size());
  }
}

TEST_CASE("limits: an Exif block of directories that point at each other ends") {
  Bytes block = raw_exif(false, {{0x112, 3, "", {1}}}, {{0x829A, 5, "", {1, 60}}}, {{1, 2, "N"}});
  // Every four bytes in turn point at the first directory.
  for (size_t at = 8; at + 4 <= block.size(); at += 2) {
    Bytes bad = block;
    const uint8_t first[] = {8, 0, 0, 0};
    std::memcpy(&bad[at], first, 4);
    const auto source = std::make_shared<Counted>(bad);
    read_exif(source);
    CHECK(source->read < 1024 * block.size());
  }
}

TEST_CASE("limits: LittleCMS gets no piece of memory past the bound") {
  listen_to_lcms();
  CHECK(_cmsMalloc(nullptr, kLargestTable + 1) == nullptr);
  CHECK(_cmsCalloc(nullptr, kLargestTable / 2, 3) == nullptr);
  void* held = _cmsMallocZero(nullptr, kLargestTable);
  CHECK(held != nullptr);
  CHECK(_cmsRealloc(nullptr, held, kLargestTable + 1) == nullptr);
  _cmsFree(nullptr, held);
}

TEST_CASE("limits: every length, offset and number of a profile may be wild") {
  int refused = 0, kept = 0, masters = 0;
  for (const SmallProfile& profile : small_profiles()) {
    CAPTURE(profile.name);
    const size_t end = std::min<size_t>(profile.bytes.size(), 420);
    for (size_t at = 0; at + 4 <= end; at += 4) {
      for (const uint32_t word : {0u, 0x7FFFFFFFu, 0xFFFFFFFFu, 0x80000000u}) {
        CAPTURE(at);
        CAPTURE(word);
        Bytes bad = profile.bytes;
        put_word(bad, at, word);
        masters += serves_a_master(bad);
        proofs_soundly(std::move(bad)) ? ++kept : ++refused;
      }
    }
  }
  MESSAGE(refused << " refused as papers, " << kept << " proof; " << masters << " as masters");
  CHECK(refused > 500);
  CHECK(kept > 500);
  CHECK(masters > 500);
}

TEST_CASE(
    "limits: a table of no numbers is refused, one of numbers beyond any colour spoils nothing") {
  for (const float value : {NAN, INFINITY, -INFINITY}) {
    CHECK_FALSE(serves_a_master(with_float_table(value)));
  }
  for (const float value : {1e19f, -1e19f}) {
    CAPTURE(value);
    const Bytes bytes = with_float_table(value);
    CHECK(serves_a_master(bytes));
    proofs_soundly(bytes);
  }
}

TEST_CASE("limits: a table of more nodes than its file has is refused") {
  for (const SmallProfile& profile : small_profiles()) {
    // lut8Type and lut16Type say their nodes along a side in byte 10 (ICC.1:2022 10.10, 10.11).
    const std::string bytes(profile.bytes.begin(), profile.bytes.end());
    Bytes bad = profile.bytes;
    for (const char* type : {"mft1", "mft2"}) {
      const std::string head = std::string(type) + std::string(4, '\0');
      for (size_t at = bytes.find(head); at != bytes.npos; at = bytes.find(head, at + 1)) {
        bad[at + 10] = 255;
      }
    }
    if (bad == profile.bytes) continue;
    CAPTURE(profile.name);
    CHECK_FALSE(proofs_soundly(std::move(bad)));
  }
}

TEST_CASE("limits: tables of measurements and links are refused by their length alone") {
  const Bytes text(print::kLargestReadings + 1, ' ');
  const auto readings = print::read_readings(text, "long.txt");
  REQUIRE_FALSE(readings.ok());
  CHECK(readings.error().message.find("too large") != std::string::npos);
  CHECK_FALSE(offer_of(std::string(8 * kOfferLetters + 1, 'A')).ok());
}
