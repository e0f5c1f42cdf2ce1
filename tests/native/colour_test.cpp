#include <cmath>
#include <fstream>
#include <sstream>

#include "colour/lab.h"
#include "colour/lcms.h"
#include "colour/profile.h"
#include "doctest.h"
#include "small_profiles.h"

using namespace proofleaf;

namespace {

struct Pair {
  Lab one, two;
  double delta_e;
};

// Sharma, Wu and Dalal, Color Res. Appl. 30 (2005), table 1: all 34 pairs.
const std::vector<Pair> kSharma{
    {{50, 2.6772, -79.7751}, {50, 0, -82.7485}, 2.0425},
    {{50, 3.1571, -77.2803}, {50, 0, -82.7485}, 2.8615},
    {{50, 2.8361, -74.0200}, {50, 0, -82.7485}, 3.4412},
    {{50, -1.3802, -84.2814}, {50, 0, -82.7485}, 1.0000},
    {{50, -1.1848, -84.8006}, {50, 0, -82.7485}, 1.0000},
    {{50, -0.9009, -85.5211}, {50, 0, -82.7485}, 1.0000},
    {{50, 0, 0}, {50, -1, 2}, 2.3669},
    {{50, -1, 2}, {50, 0, 0}, 2.3669},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0009}, 7.1792},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0010}, 7.1792},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0011}, 7.2195},
    {{50, 2.4900, -0.0010}, {50, -2.4900, 0.0012}, 7.2195},
    {{50, -0.0010, 2.4900}, {50, 0.0009, -2.4900}, 4.8045},
    {{50, -0.0010, 2.4900}, {50, 0.0010, -2.4900}, 4.8045},
    {{50, -0.0010, 2.4900}, {50, 0.0011, -2.4900}, 4.7461},
    {{50, 2.5, 0}, {50, 0, -2.5}, 4.3065},
    {{50, 2.5, 0}, {73, 25, -18}, 27.1492},
    {{50, 2.5, 0}, {61, -5, 29}, 22.8977},
    {{50, 2.5, 0}, {56, -27, -3}, 31.9030},
    {{50, 2.5, 0}, {58, 24, 15}, 19.4535},
    {{50, 2.5, 0}, {50, 3.1736, 0.5854}, 1.0000},
    {{50, 2.5, 0}, {50, 3.2972, 0}, 1.0000},
    {{50, 2.5, 0}, {50, 1.8634, 0.5757}, 1.0000},
    {{50, 2.5, 0}, {50, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},
    {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
};

}  // namespace

TEST_CASE("CIEDE2000 gives all 34 published pairs, both ways round") {
  REQUIRE(kSharma.size() == 34);
  for (const Pair& pair : kSharma) {
    CHECK(std::abs(delta_e_2000(pair.one, pair.two) - pair.delta_e) <= 5e-5);
    CHECK(std::abs(delta_e_2000(pair.two, pair.one) - pair.delta_e) <= 5e-5);
  }
}

TEST_CASE("XYZ and L*a*b* agree with the FOGRA39L characterisation data, patch by patch") {
  // FOGRA39L (Fogra, December 2006), as packaged in icc-profiles-free: XYZ 0..100 with two
  // decimals.
  std::ifstream file("/usr/share/color/icc/FOGRA39L.ti3");
  REQUIRE_MESSAGE(file.good(), "package icc-profiles-free is missing");
  std::string line;
  int patches = 0;
  double worst = 0;
  while (std::getline(file, line)) {
    std::istringstream fields(line);
    double id, c, m, y, k, X, Y, Z, l, a, b;
    if (!(fields >> id >> c >> m >> y >> k >> X >> Y >> Z >> l >> a >> b)) continue;
    const Lab lab = lab_from_xyz({X / 100, Y / 100, Z / 100});
    const XYZ back = xyz_from_lab({l, a, b});
    // Both are rounded to two decimals in the file: 0.005 of L*a*b* is up to 0.015 of XYZ, and
    // 0.005 of XYZ more than that in L*a*b* where the patch is dark, so only light ones are
    // compared.
    CHECK(std::abs(back.x * 100 - X) < 0.02);
    CHECK(std::abs(back.y * 100 - Y) < 0.02);
    CHECK(std::abs(back.z * 100 - Z) < 0.02);
    if (Y > 10) worst = std::max(worst, std::hypot(lab.l - l, lab.a - a, lab.b - b));
    if (c + m + y + k == 0) {
      CHECK(l == doctest::Approx(95));
      CHECK(lab.b == doctest::Approx(-2).epsilon(0.01));
    }
    ++patches;
  }
  CHECK(patches == 1617);
  CHECK(worst < 0.1);
}

TEST_CASE("sRGB follows IEC 61966-2-1") {
  // IEC 61966-2-1:1999: the D65 matrix' luminance row and the transfer function; primaries adapted
  // to D50 as published by the ICC for sRGB (values from memory, four decimals).
  const auto profile = standard_profile("srgb");
  REQUIRE(profile);
  const auto* red =
      static_cast<cmsCIEXYZ*>(cmsReadTag(profile.value().handle(), cmsSigRedColorantTag));
  const auto* green =
      static_cast<cmsCIEXYZ*>(cmsReadTag(profile.value().handle(), cmsSigGreenColorantTag));
  const auto* blue =
      static_cast<cmsCIEXYZ*>(cmsReadTag(profile.value().handle(), cmsSigBlueColorantTag));
  REQUIRE((red && green && blue));
  CHECK(red->X == doctest::Approx(0.4361).epsilon(0.001));
  CHECK(red->Y == doctest::Approx(0.2225).epsilon(0.001));
  CHECK(green->Y == doctest::Approx(0.7169).epsilon(0.001));
  CHECK(blue->Z == doctest::Approx(0.7141).epsilon(0.001));
  CHECK(red->X + green->X + blue->X == doctest::Approx(kD50.x).epsilon(0.0005));
  const auto* curve =
      static_cast<cmsToneCurve*>(cmsReadTag(profile.value().handle(), cmsSigRedTRCTag));
  REQUIRE(curve);
  for (float v : {0.0f, 0.02f, 0.04045f, 0.05f, 0.2f, 0.5f, 0.735f, 1.0f}) {
    const double expected = v <= 0.04045f ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
    CHECK(cmsEvalToneCurveFloat(curve, v) == doctest::Approx(expected).epsilon(0.0005));
  }
}

TEST_CASE("standard spaces agree with profiles made by others") {
  // colord-data: AdobeRGB1998 and ProPhotoRGB stand for the primaries of opRGB and ROMM RGB;
  // libgs-common: srgb.icc. Each random colour must have the same L*a*b* in both.
  struct Twin {
    const char *id, *file;
    double limit;  // dE00
  };
  for (const Twin& twin : {Twin{"srgb", "/usr/share/color/icc/ghostscript/srgb.icc", 0.3},
                           Twin{"oprgb", "/usr/share/color/icc/ghostscript/a98.icc", 0.3},
                           Twin{"romm", "/usr/share/color/icc/ghostscript/rommrgb.icc", 0.3}}) {
    std::ifstream file(twin.file, std::ios::binary);
    REQUIRE_MESSAGE(file.good(), "package libgs-common is missing");
    const Bytes bytes((std::istreambuf_iterator<char>(file)), {});
    auto other = Profile::open(bytes, twin.file);
    auto own = standard_profile(twin.id);
    REQUIRE((other && own));
    cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
    const Transform a(cmsCreateTransform(own.value().handle(), TYPE_RGB_FLT, lab, TYPE_Lab_FLT,
                                         INTENT_RELATIVE_COLORIMETRIC, kExact));
    const Transform b(cmsCreateTransform(other.value().handle(), TYPE_RGB_FLT, lab, TYPE_Lab_FLT,
                                         INTENT_RELATIVE_COLORIMETRIC, kExact));
    cmsCloseProfile(lab);
    REQUIRE((a && b));
    double worst = 0;
    for (int i = 0; i < 729; ++i) {
      const float rgb[3] = {float(i / 81) / 8, float(i / 9 % 9) / 8, float(i % 9) / 8};
      float x[3], y[3];
      cmsDoTransform(a.get(), rgb, x, 1);
      cmsDoTransform(b.get(), rgb, y, 1);
      worst = std::max(worst, delta_e_2000({x[0], x[1], x[2]}, {y[0], y[1], y[2]}));
    }
    INFO(twin.id << " worst dE00 " << worst);
    CHECK(worst < twin.limit);
  }
}

TEST_CASE("the same space is the same bytes, and only known ids are answered") {
  for (const auto& space : standard_spaces()) {
    auto one = standard_profile(space.id), two = standard_profile(space.id);
    REQUIRE((one && two));
    CHECK(one.value().bytes() == two.value().bytes());
    CHECK(one.value().title() == space.title);
  }
  CHECK_FALSE(standard_profile("nowhere").ok());
}

TEST_CASE("damaged profiles are refused with a sentence") {
  const Bytes good = standard_profile("srgb").value().bytes();
  for (size_t length = 0; length < good.size(); length += 37) {
    const Bytes cut(good.begin(), good.begin() + static_cast<ptrdiff_t>(length));
    const auto opened = Profile::open(cut, "cut.icc");
    REQUIRE_FALSE(opened.ok());
    CHECK(opened.error().message.find("cut.icc") != std::string::npos);
  }
  Bytes wild = good;
  wild[128 + 4 + 4] = 0x7f;  // the first tag's offset, ICC.1:2022 7.3.1
  CHECK_FALSE(Profile::open(wild, "wild.icc").ok());
  Bytes many = good;
  many[128] = 0xff;
  CHECK_FALSE(Profile::open(many, "many.icc").ok());
}

TEST_CASE("a profile with tables of 8 bits is known by their type") {
  size_t byte_tables = 0;
  for (const testing::SmallProfile& profile : testing::small_profiles()) {
    CAPTURE(profile.name);
    const bool expected = profile.name.ends_with("lut8");
    byte_tables += expected;
    CHECK(Profile::open(profile.bytes, profile.name).value().has_byte_tables() == expected);
  }
  CHECK(byte_tables == 2);
  CHECK_FALSE(standard_profile("srgb").value().has_byte_tables());
}

TEST_CASE("a profile's name is read as the UTF-16 it is, surrogate pairs and all") {
  // ICC.1:2022 10.15 multiLocalizedUnicodeType; the pair D83C DF43 is U+1F343 (Unicode 15, 3.9).
  cmsHPROFILE handle = cmsCreate_sRGBProfile();
  cmsMLU* text = cmsMLUalloc(nullptr, 1);
  const wchar_t name[] = {L'B', 0xFC, L't', 0x2026, 0xD83C, 0xDF43, 0};
  REQUIRE(cmsMLUsetWide(text, "en", "US", name));
  cmsWriteTag(handle, cmsSigProfileDescriptionTag, text);
  cmsMLUfree(text);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(handle, nullptr, &size);
  Bytes bytes(size);
  cmsSaveProfileToMem(handle, bytes.data(), &size);
  cmsCloseProfile(handle);
  const auto profile = Profile::open(bytes, "file.icc");
  REQUIRE(profile);
  CHECK(profile.value().title() == "B\xC3\xBCt\xE2\x80\xA6\xF0\x9F\x8D\x83");
}
