#include "colour.h"

#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "spectra.h"

namespace proofleaf::demo {
namespace {

// The profile library stamps the time of day; a fixed date keeps the bytes the same
// (ICC.1:2022, 7.2.1: six big-endian uint16 numbers at offset 24).
Result<Bytes> save_undated(cmsHPROFILE profile, const char* name) {
  Bytes bytes;
  uint32_t size = 0;
  cmsMLU* text = cmsMLUalloc(nullptr, 1);
  cmsMLU* rights = cmsMLUalloc(nullptr, 1);
  bool good = profile && text && rights && cmsMLUsetASCII(text, "en", "GB", name) &&
              cmsMLUsetASCII(rights, "en", "GB", "CC0") &&
              cmsWriteTag(profile, cmsSigProfileDescriptionTag, text) &&
              cmsWriteTag(profile, cmsSigCopyrightTag, rights) &&
              cmsSaveProfileToMem(profile, nullptr, &size);
  if (good) {
    bytes.resize(size);
    good = size >= 128 && cmsSaveProfileToMem(profile, bytes.data(), &size);
  }
  cmsMLUfree(text);
  cmsMLUfree(rights);
  if (profile) cmsCloseProfile(profile);
  if (!good) return Error{std::string("The profile ") + name + " could not be built."};
  constexpr std::array<uint8_t, 12> date{0x07, 0xEA, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
  std::copy(date.begin(), date.end(), bytes.begin() + 24);
  return bytes;
}

}  // namespace

Light lch(double lightness, double chroma, double hue) {
  const double angle = hue * std::numbers::pi / 180.0;
  const Xyz c = to_xyz({lightness, chroma * std::cos(angle), chroma * std::sin(angle)}, kD50);
  // ISO 22028-2:2013, annex: XYZ (D50) to linear ROMM RGB; from memory.
  return {static_cast<float>(1.3460 * c.x - 0.2556 * c.y - 0.0511 * c.z),
          static_cast<float>(-0.5446 * c.x + 1.5082 * c.y + 0.0205 * c.z),
          static_cast<float>(1.2123 * c.z)};
}

float romm_encode(float linear) {
  const float v = std::clamp(linear, 0.0f, 1.0f);
  return v < 1.0f / 512.0f ? 16.0f * v : std::pow(v, 1.0f / 1.8f);
}

Result<Bytes> romm_profile() {
  // ISO 22028-2:2013: primaries and D50 white in CIE x, y; the curve as ICC function type 3.
  const cmsCIExyY white{0.3457, 0.3585, 1.0};
  const cmsCIExyYTRIPLE primaries{
      {0.7347, 0.2653, 1.0}, {0.1596, 0.8404, 1.0}, {0.0366, 0.0001, 1.0}};
  const double curve[5] = {1.8, 1.0, 0.0, 1.0 / 16.0, 1.0 / 32.0};
  cmsToneCurve* tone = cmsBuildParametricToneCurve(nullptr, 4, curve);
  cmsToneCurve* tones[3] = {tone, tone, tone};
  cmsHPROFILE profile = tone ? cmsCreateRGBProfile(&white, &primaries, tones) : nullptr;
  cmsFreeToneCurve(tone);
  return save_undated(profile, "ROMM RGB (ISO 22028-2)");
}

Result<Bytes> grey_profile() {
  const cmsCIExyY white{0.3457, 0.3585, 1.0};
  cmsToneCurve* tone = cmsBuildGamma(nullptr, 2.2);
  cmsHPROFILE profile = tone ? cmsCreateGrayProfile(&white, tone) : nullptr;
  cmsFreeToneCurve(tone);
  return save_undated(profile, "Grey, gamma 2.2");
}

}  // namespace proofleaf::demo
