// Files that are cut short, flipped, absurd or something else.
#include <cstring>
#include <random>

#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

// TIFF 6.0 by hand with its directory in front, so that cutting the file cuts its pixels:
// 64 x 64 RGB, 8 bits, strips of 8 rows, uncompressed.
Bytes directory_first_tiff() {
  Bytes out = {'I', 'I', 42, 0, 8, 0, 0, 0};
  const auto put = [&out](uint32_t v, int size) {
    for (int i = 0; i < size; ++i) out.push_back(static_cast<uint8_t>(v >> 8 * i));
  };
  const uint32_t entries = 9, after = 8 + 2 + 12 * entries + 4;
  const uint32_t data = after + 6 + 64;
  const auto entry = [&](uint32_t tag, uint32_t type, uint32_t count, uint32_t value) {
    put(tag, 2);
    put(type, 2);
    put(count, 4);
    put(value, 4);
  };
  put(entries, 2);
  entry(256, 3, 1, 64);
  entry(257, 3, 1, 64);
  entry(258, 3, 3, after);
  entry(259, 3, 1, 1);
  entry(262, 3, 1, 2);
  entry(273, 4, 8, after + 6);
  entry(277, 3, 1, 3);
  entry(278, 3, 1, 8);
  entry(279, 4, 8, after + 6 + 32);
  put(0, 4);
  for (int i = 0; i < 3; ++i) put(8, 2);
  for (uint32_t i = 0; i < 8; ++i) put(data + i * 1536, 4);
  for (int i = 0; i < 8; ++i) put(1536, 4);
  for (uint32_t i = 0; i < 64 * 64 * 3; ++i) out.push_back(static_cast<uint8_t>(i * 13));
  return out;
}

void flip_test(const Named& sound, int rounds) {
  std::mt19937 random(1234);
  int read = 0;
  for (int round = 0; round < rounds; ++round) {
    Bytes file = sound.file;
    const int flips = 1 + static_cast<int>(random() % 4);
    for (int i = 0; i < flips; ++i) {
      // Half of the flips fall into the first or last 200 bytes, where the headers are.
      size_t at = random() % file.size();
      if (random() % 2) at = random() % 200;
      if (random() % 4 == 0) at = file.size() - 1 - random() % 200;
      file[at] = static_cast<uint8_t>(file[at] ^ (1u << random() % 8));
    }
    if (survives(file)) ++read;
  }
  MESSAGE(std::string(sound.what) << ": " << read << " of " << rounds
                                  << " flipped files still read");
  CHECK(read < rounds);
}

}  // namespace

TEST_CASE("a file cut short anywhere is an error") {
  auto files = sound_files();
  files.push_back({"TIFF directory first", directory_first_tiff()});
  for (const Named& sound : files) {
    CAPTURE(sound.what);
    REQUIRE(survives(sound.file));
    for (size_t part = 0; part < 16; ++part) {
      CAPTURE(part);
      Bytes file(sound.file.begin(),
                 sound.file.begin() + static_cast<std::ptrdiff_t>(sound.file.size() * part / 16));
      auto got = read_file_rows(file);
      REQUIRE_FALSE(got.ok());
      CHECK(got.error().message.find("picture.bin") == 0);
      CHECK(got.error().message.back() == '.');
    }
  }
}

TEST_CASE("a cut baseline JPEG says how much is there") {
  Bytes file = raw_jpeg({.width = 64, .height = 640}, picture(64, 640, 3, 8));
  file.resize(file.size() / 2);
  auto got = read_file_rows(file);
  REQUIRE_FALSE(got.ok());
  CHECK(got.error().message.find("ends too soon; only the first ") != std::string::npos);
  CHECK(got.error().message.find(" of 640 rows") != std::string::npos);
}

TEST_CASE("flipped bits never crash") {
  for (const Named& sound : sound_files()) flip_test(sound, 400);
}

TEST_CASE("flipped Exif blocks never crash the cleaner") {
  const Bytes block = raw_exif(true, {{0x112, 3, "", {1}}, {0x10F, 2, "Invented"}},
                               {{0x829A, 5, "", {1, 60}}}, {{1, 2, "N"}}, {{1, 2, "R98"}});
  std::mt19937 random(99);
  for (int round = 0; round < 3000; ++round) {
    Bytes bad = block;
    for (int i = 0; i < 3; ++i) bad[random() % bad.size()] = static_cast<uint8_t>(random());
    bad.resize(random() % (bad.size() + 1));
    const Bytes clean = clean_exif(bad, {.width = 10, .height = 20});
    REQUIRE(clean.size() >= 8);
    REQUIRE(clean[0] == 'I');
  }
}

TEST_CASE("what is not a picture is refused by its bytes, not its name") {
  const std::string words = "Dear customer, please find attached";
  auto master = open_master(source_of(Bytes(words.begin(), words.end()), "print.jpg"));
  REQUIRE_FALSE(master.ok());
  CHECK(master.error().message ==
        "print.jpg is not a JPEG, PNG or TIFF file, whatever its name says.");
  master = open_master(source_of({}, "print.jpg"));
  REQUIRE_FALSE(master.ok());
  CHECK(master.error().message == "print.jpg is empty.");
  // A TIFF called .jpg opens.
  CHECK(open_master(source_of(directory_first_tiff(), "print.jpg")).ok());
}

TEST_CASE("absurd sizes are refused before anything is decoded") {
  const auto refused = [](Bytes file, const std::string& word) {
    auto master = open_master(source_of(std::move(file), "sea.img"));
    REQUIRE_FALSE(master.ok());
    CAPTURE(master.error().message);
    CHECK(master.error().message.find(word) != std::string::npos);
  };
  // PNG: width and height stand at bytes 16 and 20, big-endian.
  Bytes png = raw_png({}, picture(37, 29, 3, 8));
  Bytes big = png;
  big[16] = 0x7F;
  refused(big, "a side may have up to 65500");
  big = png;
  big[18] = big[22] = 0xC0;  // 49,189 x 49,181
  refused(big, "600 megapixels");
  big = png;
  std::memset(big.data() + 16, 0, 4);
  refused(big, "no size");

  // JPEG: SOF0 is FF C0, length (2), precision (1), height (2), width (2).
  Bytes jpeg = raw_jpeg({}, picture(37, 29, 3, 8));
  for (size_t i = 0; i + 9 < jpeg.size(); ++i) {
    if (jpeg[i] != 0xFF || jpeg[i + 1] != 0xC0) continue;
    big = jpeg;
    big[i + 5] = big[i + 7] = 0xF0;
    refused(big, "600 megapixels");
    big[i + 5] = big[i + 6] = 0xFF;
    refused(big, "side");
    big = jpeg;
    big[i + 4] = 12;
    refused(big, "more than 8 bits");
    break;
  }

  // TIFF by hand: the first directory's first entries are width and height.
  Bytes tiff = directory_first_tiff();
  big = tiff;
  big[10 + 8 + 1] = big[10 + 12 + 8 + 1] = 0xC0;
  refused(big, "600 megapixels");
  big = tiff;
  big[10 + 2] = 4;  // LONG
  std::memset(big.data() + 10 + 8, 0xFF, 4);
  refused(big, "");
}

TEST_CASE("an interlaced PNG too large to be held is refused") {
  Bytes png = raw_png({.depth = 16, .interlaced = true}, picture(37, 29, 3, 16));
  // 12,000 x 12,000 pixels of 6 bytes; the chunk's checksum follows its 13 bytes.
  const uint8_t side[] = {0, 0, 0x2E, 0xE0};
  std::memcpy(png.data() + 16, side, 4);
  std::memcpy(png.data() + 20, side, 4);
  uint32_t crc = 0xFFFFFFFF;  // PNG specification, annex D
  for (size_t i = 12; i < 29; ++i) {
    crc ^= png[i];
    for (int k = 0; k < 8; ++k) crc = crc & 1 ? 0xEDB88320 ^ crc >> 1 : crc >> 1;
  }
  crc = ~crc;
  for (size_t i = 0; i < 4; ++i) png[29 + i] = static_cast<uint8_t>(crc >> 8 * (3 - i));
  png.resize(1'000'000);  // long enough for such a picture, packed as tightly as can be
  auto master = open_master(source_of(png));
  REQUIRE_FALSE(master.ok());
  CHECK(master.error().message.find("interlac") != std::string::npos);
}

TEST_CASE("a source that fails passes its own sentence on, and is never written") {
  class Failing final : public ByteSource {
   public:
    explicit Failing(Bytes bytes) : held_("sea.img", std::move(bytes)) {}
    const std::string& name() const override { return held_.name(); }
    uint64_t size() const override { return held_.size(); }
    Result<size_t> read_at(uint64_t offset, std::span<uint8_t> into) override {
      if (reads_left_-- <= 0) return Error{"The card was pulled out."};
      return held_.read_at(offset, into);
    }
    int reads_left_ = 1000;

   private:
    MemorySource held_;
  };
  for (const Named& sound : sound_files()) {
    for (int reads = 0; reads < 12; ++reads) {
      auto source = std::make_shared<Failing>(sound.file);
      source->reads_left_ = reads;
      auto master = open_master(source);
      if (!master) {
        CHECK(master.error().message == "The card was pulled out.");
        continue;
      }
      auto got = read_picture(*master.value());
      if (!got) CHECK(got.error().message == "The card was pulled out.");
    }
  }
}
