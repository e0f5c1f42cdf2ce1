// The report as a whole: the same whatever the strips, sound for any picture, complete in words.
#include <lcms2.h>

#include <cmath>

#include "codec_files.h"
#include "condition/condition_json.h"
#include "condition/lightness.h"
#include "condition/words.h"
#include "condition_pictures.h"
#include "job/work.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

// All that could go wrong with a report that is read by a person or a panel.
void check_sound(const ConditionReport& report) {
  const std::string text = dump_json(to_json(report));
  CHECK(text.find("nan") == std::string::npos);
  CHECK(text.find('{' + std::string("value")) == std::string::npos);
  for (const Finding& one : report.findings) {
    INFO(one.id << " " << word_for(one.severity) << " " << one.variant);
    const Sentences words = sentences_for(one);
    CHECK(words.what.ends_with("."));
    CHECK(words.what.find('{') == std::string::npos);
    CHECK(words.title != one.id);
    if (one.severity != Severity::good) {
      CHECK(words.why.ends_with("."));
      CHECK(words.todo.ends_with("."));
    }
    if (one.value) CHECK(std::isfinite(*one.value));
    CHECK(one.places.size() <= kMostPlaces);
    for (const Place& place : one.places) {
      CHECK(place.width > 0);
      CHECK(place.height > 0);
      CHECK(uint64_t{place.x} + place.width <= report.width);
      CHECK(uint64_t{place.y} + place.height <= report.height);
    }
  }
  for (const std::string& id : report.unsaid) CHECK(sentences_for_unsaid(id).what.ends_with("."));
}

}  // namespace

TEST_CASE("condition: lightness is that of the profile within 0.02 L*") {
  for (const char* id : {"srgb", "p3", "oprgb", "romm"}) {
    const Profile profile = standard_profile(id).value();
    const auto lightness = condition::Lightness::of(profile);
    REQUIRE(lightness);
    cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
    cmsHTRANSFORM judge = cmsCreateTransform(profile.handle(), TYPE_RGB_FLT, lab, TYPE_Lab_FLT,
                                             INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    cmsCloseProfile(lab);
    std::mt19937 random(1);
    double worst = 0;
    for (int i = 0; i < 5000; ++i) {
      uint16_t rgb[3];
      for (uint16_t& v : rgb)
        v = static_cast<uint16_t>(i == 0 ? 65535 : i == 1 ? 0 : random() & 0xFFFF);
      const float in[3] = {rgb[0] / 65535.0f, rgb[1] / 65535.0f, rgb[2] / 65535.0f};
      float out[3];
      cmsDoTransform(judge, in, out, 1);
      int16_t l = 0;
      lightness.value().convert(rgb, {&l, 1});
      worst = std::max(worst, std::abs(double(l) / condition::kUnit - double(out[0])));
    }
    cmsDeleteTransform(judge);
    MESSAGE(std::string(id) << ": worst " << worst << " L*");
    CHECK(worst < 0.02);
  }
}

TEST_CASE("condition: the report is the same for any strip height") {
  Tones picture = texture(Texture::gravel, 500, 421, 2);
  for (uint32_t y = 0; y < 200; ++y) {
    for (uint32_t x = 0; x < 500; ++x)
      picture.at(x, y) = std::min(100.0, 60 + y * 0.25 + (x > 200 + y / 9 ? -20 : 0));
  }
  for (const uint32_t bits : {8u, 16u}) {
    const Bytes file = tiff_of(picture, bits);
    const std::string whole = dump_json(to_json(report_of(file)));
    for (const uint32_t rows : {1u, 2u, 7u, 16u, 33u, 421u, 5000u, 0u}) {
      ConditionSettings settings;
      settings.strip_rows = rows;
      CHECK(dump_json(to_json(report_of(file, settings))) == whole);
    }
  }
}

TEST_CASE("condition: any picture gets a sound report") {
  struct Size {
    uint32_t width, height;
  };
  for (const Size size : {Size{1, 1},
                          {3, 2},
                          {2, 3},
                          {1, 500},
                          {500, 1},
                          {8, 8},
                          {17, 16},
                          {31, 33},
                          {40, 40},
                          {60000, 20},
                          {20, 40000}}) {
    for (const double ground : {0.0, 50.0, 100.0}) {
      Tones picture = tones(size.width, size.height, [&](double, double) { return ground; });
      for (const double noise : {0.0, 3.0}) {
        add_noise(picture, noise, 1);
        for (const uint32_t bits : {8u, 16u}) {
          INFO(size.width << " x " << size.height << " L* " << ground << " noise " << noise
                          << " bits " << bits);
          const auto report = report_of(tiff_of(picture, bits));
          check_sound(report);
          CHECK(report.spots.empty());
        }
      }
    }
  }
  const Tones panorama = texture(Texture::water, 60000, 200, 3);
  check_sound(report_of(tiff_of(panorama, 8)));
  check_sound(report_of(file_bytes(kDemo + "saltings.png")));
  check_sound(report_of(file_bytes(kDemo + "stairwell.png")));
}

TEST_CASE("condition: every verdict that can be given has its words") {
  struct Known {
    const char* id;
    std::vector<Severity> severities;
    std::vector<const char*> variants;
  };
  using S = Severity;
  const Known all[] = {{"highlights", {S::act, S::look, S::good}, {"", "specular"}},
                       {"shadows", {S::act, S::look, S::good}, {""}},
                       {"colours", {S::act, S::look, S::good}, {""}},
                       {"levels", {S::act, S::look}, {"comb"}},
                       {"levels", {S::look}, {"eight", "few"}},
                       {"levels", {S::good}, {"", "eight"}},
                       {"banding", {S::act, S::look, S::good}, {""}},
                       {"noise", {S::look, S::good}, {""}},
                       {"sharpness", {S::act, S::look, S::good}, {""}},
                       {"halos", {S::act, S::look, S::good}, {""}},
                       {"dust", {S::look, S::good}, {"", "one"}},
                       {"edges", {S::look, S::good}, {"", "one"}},
                       {"tilt", {S::look}, {"left", "right"}},
                       {"tilt", {S::good}, {""}},
                       {"blocking", {S::act, S::look, S::good}, {""}},
                       {"compression", {S::act, S::look, S::good}, {"", "about"}},
                       {"profile", {S::act}, {"missing", "unusable"}},
                       {"profile", {S::look}, {"odd"}},
                       {"profile", {S::good}, {"", "exif"}},
                       {"bits", {S::look, S::good}, {""}},
                       {"traces", {S::look}, {"", "place"}},
                       {"traces", {S::good}, {""}},
                       {"size", {S::act, S::look, S::good}, {"print"}},
                       {"size", {S::good}, {""}}};
  for (const Known& known : all) {
    for (const S severity : known.severities) {
      for (const char* variant : known.variants) {
        const Sentences words = sentences_for({known.id, severity, variant, 12.0, "", {}});
        INFO(known.id << " " << word_for(severity) << " " << variant);
        CHECK(words.what.ends_with("."));
        CHECK(words.what.find('{') == std::string::npos);
        CHECK((severity == S::good) == words.todo.empty());
      }
    }
  }
}

TEST_CASE("condition: print sizes and viewing distances are those of the handbook") {
  // One arc minute is 1/3437.75 of the distance (handbook value): a pixel of 1/300 inch, 0.0847 mm,
  // is one minute wide at 291 mm; the rule of thumb for n ppi is 3438 / n inches.
  CHECK(viewing_distance_mm(300) == doctest::Approx(291.06).epsilon(0.0005));
  for (const double ppi : {72.0, 180.0, 240.0, 360.0}) {
    CHECK(viewing_distance_mm(ppi) == doctest::Approx(3437.75 / ppi * 25.4).epsilon(0.0001));
  }
  const auto report = report_of(tiff_of(tones(1200, 600, [](double, double) { return 50; })));
  REQUIRE(report.sizes.size() == 4);
  CHECK(report.sizes[1].ppi == 300);
  CHECK(report.sizes[1].width_cm == doctest::Approx(10.16));
  CHECK(report.sizes[1].height_in == doctest::Approx(2));
  CHECK(report.sizes[3].distance_cm == doctest::Approx(48.51).epsilon(0.001));
  ConditionSettings settings;
  settings.print_width_mm = 254;
  const auto sized =
      report_of(tiff_of(tones(1200, 600, [](double, double) { return 50; })), settings);
  CHECK(number(found(sized, "size"), "ppi") == doctest::Approx(120));
  CHECK(found(sized, "size").severity == Severity::act);
}

TEST_CASE("condition: profile, bits and private data") {
  const auto good = report_of(tiff_of(tones(50, 50, [](double, double) { return 50; })));
  CHECK(found(good, "profile").severity == Severity::good);
  CHECK(found(good, "bits").severity == Severity::good);
  CHECK(found(good, "traces").severity == Severity::good);
  CHECK(found(report_of(ramp_tiff(40, 40, {})), "profile").variant == "missing");
  const Bytes paper = file_bytes(kDemo + "papers/tarnsea-baryta.icc");
  CHECK(found(report_of(ramp_tiff(40, 40, paper)), "profile").variant == "odd");
  CHECK(found(report_of(ramp_tiff(40, 40, file_bytes(kCmykProfile))), "profile").variant ==
        "unusable");
  const Bytes exif = testing::raw_exif(false, {{0x013B, 2, "A. Nobody"}}, {}, {{0x0001, 2, "N"}});
  const auto traced = report_of(ramp_tiff(40, 40, standard_profile("srgb").value().bytes(), exif));
  CHECK(found(traced, "traces").severity == Severity::look);
  CHECK(number(found(traced, "traces"), "owner") == 1);
}

TEST_CASE("condition: as work, with progress and stop, and settings out of range are a sentence") {
  WorkFiles files;
  files.master = memory("picture.tif", ramp_tiff(80, 60, standard_profile("srgb").value().bytes()));
  const auto answer = perform(R"({"op":"condition","print_width_mm":200,"dust_mm":1})", files, {});
  REQUIRE(answer.ok());
  const Json json = parse_json(answer.value().json);
  CHECK(text_of(json, "kind") == "condition");
  CHECK(number_of(json, "print_ppi") == doctest::Approx(10.16));
  CHECK(json["findings"].size() + json["unsaid"].size() >= 14);
  CHECK(json["print_sizes"].size() == 4);
  CHECK_FALSE(perform(R"({"op":"condition"})", files, [](double) { return false; }).ok());
  CHECK_FALSE(perform(R"({"op":"condition","print_width_mm":-3})", files, {}).ok());
  CHECK_FALSE(perform(R"({"op":"condition","dust_mm":0})", files, {}).ok());
  CHECK_FALSE(perform(R"({"op":"condition"})", {}, {}).ok());
}
