#include "print/light.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "colour/lab.h"
#include "colour/lcms.h"

namespace proofleaf::print {
namespace {

constexpr size_t kLightCodes = 65536;

// LittleCMS rounds what it looks up in a table to 16 bits, too coarse in the shadows.
double curve_at(const cmsToneCurve* curve, double x) {
  if (cmsGetToneCurveParametricType(curve) != 0) {
    return cmsEvalToneCurveFloat(curve, static_cast<float>(x));
  }
  const cmsUInt32Number count = cmsGetToneCurveEstimatedTableEntries(curve);
  const cmsUInt16Number* nodes = cmsGetToneCurveEstimatedTable(curve);
  if (count < 2) return x;
  const double at = x * (count - 1);
  const auto low = std::min(static_cast<cmsUInt32Number>(at), count - 2);
  const double part = at - low;
  return (nodes[low] * (1 - part) + nodes[low + 1] * part) / 65535;
}

// Held to rise from code to code, by steps no eye or file can tell from none.
std::vector<float> rising(const std::function<double(double)>& curve) {
  std::vector<float> light(kLightCodes);
  const double last = curve(1);
  const double scale = std::isfinite(last) && last > 0.01 ? 1 / last : 1;
  for (size_t code = 0; code < kLightCodes; ++code) {
    const double value = curve(double(code) / (kLightCodes - 1)) * scale;
    light[code] = static_cast<float>(std::isfinite(value) ? std::clamp(value, 0.0, 1.0) : 0);
    if (code == 0) continue;
    const float before = light[code - 1];
    light[code] = std::max(light[code], std::max(before * (1 + 0x1p-22f), before + 0x1p-34f));
  }
  return light;
}

DoublingTable inverse(const std::vector<float>& light) {
  return DoublingTable([&](double value) {
    const auto above = std::upper_bound(light.begin(), light.end(), static_cast<float>(value));
    if (above == light.begin()) return 0.0;
    if (above == light.end()) return double(kLightCodes - 1);
    const double low = *(above - 1), high = *above;
    return double(above - 1 - light.begin()) + (value - low) / (high - low);
  });
}

const cmsToneCurve* curve_of(const Profile& profile, cmsTagSignature tag) {
  return static_cast<const cmsToneCurve*>(cmsReadTag(profile.handle(), tag));
}

bool has_own_curves(const Profile& profile) {
  return cmsIsMatrixShaper(profile.handle()) && !cmsIsTag(profile.handle(), cmsSigAToB0Tag) &&
         curve_of(profile, cmsSigRedTRCTag) && curve_of(profile, cmsSigGreenTRCTag) &&
         curve_of(profile, cmsSigBlueTRCTag);
}

// Luminance of colours, media-relative.
std::vector<double> luminances(const Transform& transform, std::span<const float> rgb) {
  std::vector<float> lab(rgb.size());
  cmsDoTransform(transform.get(), rgb.data(), lab.data(),
                 static_cast<cmsUInt32Number>(rgb.size() / 3));
  std::vector<double> y(rgb.size() / 3);
  for (size_t i = 0; i < y.size(); ++i) {
    y[i] = std::isfinite(lab[i * 3]) ? xyz_from_lab({lab[i * 3], 0, 0}).y : 0;
  }
  return y;
}

std::vector<double> grey_luminances(const Transform& transform) {
  constexpr size_t kNodes = 1025;
  std::vector<float> rgb(kNodes * 3);
  for (size_t i = 0; i < kNodes; ++i) {
    std::fill_n(&rgb[i * 3], 3, static_cast<float>(i) / static_cast<float>(kNodes - 1));
  }
  return luminances(transform, rgb);
}

}  // namespace

DoublingTable::DoublingTable(const std::function<double(double)>& of) {
  const uint32_t last = (bits_of(kHighest) >> kShift) + 1;
  values_.resize(last - kFirst + 1);
  for (uint32_t i = 0; i < values_.size(); ++i) {
    values_[i] = static_cast<float>(of(__builtin_bit_cast(float, (kFirst + i) << kShift)));
  }
}

Result<Light> Light::of(const Profile& profile) {
  const Transform transform = profile.colour_space() == cmsSigRgbData
                                  ? to_lab(profile, INTENT_RELATIVE_COLORIMETRIC)
                                  : Transform();
  if (!transform) {
    return Error{"The master's profile has no usable way from its numbers to colour."};
  }
  Light light;
  if (has_own_curves(profile)) {
    constexpr cmsTagSignature kTags[] = {cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
    for (size_t c = 0; c < 3; ++c) {
      const cmsToneCurve* curve = curve_of(profile, kTags[c]);
      light.decode_[c] = std::make_shared<const std::vector<float>>(
          rising([&](double x) { return curve_at(curve, x); }));
      if (c > 0 && *light.decode_[c] == *light.decode_[0]) light.decode_[c] = light.decode_[0];
    }
  } else {
    const std::vector<double> grey = grey_luminances(transform);
    const double black = grey.front(), span = grey.back() - black;
    light.decode_.fill(std::make_shared<const std::vector<float>>(rising([&](double x) {
      const double at = x * double(grey.size() - 1);
      const size_t low = std::min(static_cast<size_t>(at), grey.size() - 2);
      const double y = grey[low] + (grey[low + 1] - grey[low]) * (at - double(low));
      return span > 0 ? (y - black) / span : x;
    })));
    light.note_ = said(
        "The master's profile ({}) has colour tables in place of tone curves; light is reckoned by "
        "its greys.",
        profile.title());
  }
  for (size_t c = 0; c < 3; ++c) {
    light.encode_[c] = c > 0 && light.decode_[c] == light.decode_[0]
                           ? light.encode_[0]
                           : std::make_shared<const DoublingTable>(inverse(*light.decode_[c]));
  }
  light.lightness_ = std::make_shared<const DoublingTable>([](double y) {
    return lab_from_xyz({y, y, y}, {1, 1, 1}).l;
  });
  const std::vector<float> primaries{1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0};
  const std::vector<double> y = luminances(transform, primaries);
  double sum = 0;
  for (size_t c = 0; c < 3; ++c) sum += std::max(0.0, y[c] - y[3]);
  for (size_t c = 0; c < 3; ++c) {
    light.weights_[c] = static_cast<float>(sum > 0 ? std::max(0.0, y[c] - y[3]) / sum : 1.0 / 3);
  }
  return light;
}

float Light::luminance_of(float lightness) {
  constexpr float kKappa = 24389.0f / 27.0f;
  const float l = lightness < 0 ? 0 : (lightness > 100 ? 100 : lightness);
  const float f = (l + 16) / 116;
  return l > 8 ? f * f * f : l / kKappa;
}

void Light::set_lightness(const uint16_t* rgb, float lightness, uint16_t* out) const {
  constexpr float kNearBlack = 0.001f;  // of white; L* 0.9
  const float light[3] = {linear(0, rgb[0]), linear(1, rgb[1]), linear(2, rgb[2])};
  const float most = std::max(light[0], std::max(light[1], light[2]));
  const float now = luminance(light[0], light[1], light[2]);
  float factor = (luminance_of(lightness) + kNearBlack) / (now + kNearBlack);
  const float fullest = (std::max(1.0f, most) + kNearBlack) / (most + kNearBlack);
  if (factor > fullest) factor = fullest;
  for (size_t c = 0; c < 3; ++c) {
    out[c] = encode(c, (light[c] + kNearBlack) * factor - kNearBlack);
  }
}

std::array<uint16_t, 3> Light::neutral(double lightness) const {
  const float y = luminance_of(static_cast<float>(lightness));
  return {encode(0, y), encode(1, y), encode(2, y)};
}

}  // namespace proofleaf::print
