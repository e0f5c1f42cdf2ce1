#include "codec/exif.h"
#include "codec/writer.h"
#include "codec_files.h"
#include "doctest.h"

using namespace proofleaf;
using namespace proofleaf::testing;

namespace {

// A block with everything in it that could give someone away.
Bytes telling_block(bool big) {
  return raw_exif(big,
                  {{0x10E, 2, "Holiday at the secret bay"},
                   {0x10F, 2, "Invented Works"},
                   {0x110, 2, "Model Zero"},
                   {0x112, 3, "", {6}},
                   {0x131, 2, "/home/nobody/tool"},
                   {0x13B, 2, "Ada Nobody"},
                   {0x8298, 2, "(c) Ada Nobody"}},
                  {{0x829A, 5, "", {1, 250}},
                   {0x829D, 5, "", {56, 10}},
                   {0x8827, 3, "", {400}},
                   {0x9003, 2, "2024:05:06 07:08:09"},
                   {0x920A, 5, "", {85, 1}},
                   {0x927C, 2, "MAKERNOTE-SECRET"},
                   {0x9286, 2, "comment-secret"},
                   {0xA001, 3, "", {1}},
                   {0xA002, 4, "", {9999}},
                   {0xA430, 2, "Owner Nobody"},
                   {0xA431, 2, "BODY-777"},
                   {0xA435, 2, "LENS-888"}},
                  {{1, 2, "N"}, {2, 5, "", {51, 1, 28, 1, 1234, 100}}, {0x12, 2, "WGS-84"}});
}

}  // namespace

TEST_CASE("clean_exif keeps how it was taken and drops who, where and with which body") {
  for (const bool big : {false, true}) {
    const Bytes clean =
        clean_exif(telling_block(big),
                   {.width = 3000, .height = 2000, .ppi = 360, .space = ExifColourSpace::oprgb});
    for (const char* secret :
         {"secret", "Nobody", "BODY-777", "LENS-888", "WGS-84", "MAKERNOTE", "/home"}) {
      CAPTURE(secret);
      CHECK_FALSE(contains(clean, secret));
    }
    for (const char* kept : {"Invented Works", "Model Zero", "2024:05:06 07:08:09", "0232"}) {
      CHECK(contains(clean, kept));
    }
    const ExifTree tree = read_exif(clean);
    CHECK(tree.gps.empty());
    CHECK(number_of(find_value(tree.image, 0x112)) == 1.0);
    CHECK(number_of(find_value(tree.image, 0x11A)) == 360.0);
    CHECK(number_of(find_value(tree.image, 0x128)) == 2.0);
    CHECK(number_of(find_value(tree.photo, 0xA002)) == 3000.0);
    CHECK(number_of(find_value(tree.photo, 0xA003)) == 2000.0);
    CHECK(number_of(find_value(tree.photo, 0x829A)) == doctest::Approx(1.0 / 250));
    CHECK(number_of(find_value(tree.photo, 0x8827)) == 400.0);
    const ExifFacts facts = exif_facts(tree);
    CHECK(facts.space == ExifColourSpace::oprgb);
    CHECK_FALSE(facts.traces.any());
  }
}

TEST_CASE("clean_exif with keep_private keeps names, place and serials, never the maker note") {
  for (const bool big : {false, true}) {
    const Bytes clean =
        clean_exif(telling_block(big), {.width = 30, .height = 20, .keep_private = true});
    for (const char* kept : {"secret bay", "Ada Nobody", "BODY-777", "LENS-888", "WGS-84"}) {
      CAPTURE(kept);
      CHECK(contains(clean, kept));
    }
    CHECK_FALSE(contains(clean, "MAKERNOTE"));
    CHECK_FALSE(contains(clean, "/home"));
    const ExifFacts facts = exif_facts(read_exif(clean));
    CHECK(facts.traces.place);
    CHECK(facts.traces.serial);
    CHECK(facts.traces.owner);
    CHECK(facts.orientation == 1);
  }
}

TEST_CASE("colour spaces and resolutions that are written are read back") {
  for (const ExifColourSpace space : {ExifColourSpace::none, ExifColourSpace::srgb,
                                      ExifColourSpace::oprgb, ExifColourSpace::uncalibrated}) {
    for (const double ppi : {72.0, 300.0, 304.8, 359.9999}) {
      const ExifFacts facts = exif_facts(
          read_exif(clean_exif({}, {.width = 1, .height = 1, .ppi = ppi, .space = space})));
      CHECK(facts.space == space);
      REQUIRE(facts.ppi.has_value());
      CHECK(*facts.ppi == doctest::Approx(ppi).epsilon(1e-6));
    }
  }
}

TEST_CASE("a damaged or looping block gives a minimal one") {
  const Bytes minimal = clean_exif({}, {.width = 5, .height = 6});
  CHECK(clean_exif(Bytes(100, 0xAB), {.width = 5, .height = 6}) == minimal);
  CHECK(clean_exif(Bytes{'I', 'I', 42, 0, 0xF0, 0xFF, 0xFF, 0xFF}, {.width = 5, .height = 6}) ==
        minimal);
  // A directory whose Exif pointer leads back to itself.
  Bytes loop = {'I', 'I', 42, 0, 8, 0, 0, 0, 1, 0};
  loop.insert(loop.end(), {0x69, 0x87, 4, 0, 1, 0, 0, 0, 8, 0, 0, 0, 8, 0, 0, 0});
  CHECK(clean_exif(loop, {.width = 5, .height = 6}) == minimal);
  // A huge count is not believed.
  Bytes huge = {'I', 'I', 42, 0, 8, 0, 0, 0, 1, 0};
  huge.insert(huge.end(), {0x0F, 0x01, 2, 0, 0xFF, 0xFF, 0xFF, 0xFF, 8, 0, 0, 0, 0, 0, 0, 0});
  CHECK(clean_exif(huge, {.width = 5, .height = 6}) == minimal);
}

TEST_CASE("a cleaned block always fits a JPEG segment") {
  std::vector<ExifField> photo, gps;
  for (uint16_t tag = 0; tag < 32; ++tag) gps.push_back({tag, 2, std::string(2000, 'g')});
  const Bytes clean =
      clean_exif(raw_exif(false, {{0x10F, 2, std::string(60'000, 'm')}}, photo, gps),
                 {.width = 5, .height = 6, .keep_private = true});
  CHECK(clean.size() < 60'000);
  CHECK_FALSE(contains(clean, "mmmm"));
}
