#include "condition/lightness.h"

#include <algorithm>
#include <cmath>

#include "colour/lab.h"
#include "colour/lcms.h"

namespace proofleaf::condition {
namespace {

constexpr double kWhite = 1 << 24;
constexpr size_t kNodes = 4097;

// Luminance of `count` colours, 0..1.
std::vector<double> luminances(const Transform& transform, std::span<const float> rgb) {
  const size_t count = rgb.size() / 3;
  std::vector<float> lab(rgb.size());
  cmsDoTransform(transform.get(), rgb.data(), lab.data(), static_cast<cmsUInt32Number>(count));
  std::vector<double> y(count);
  for (size_t i = 0; i < count; ++i) {
    y[i] = xyz_from_lab({std::isfinite(lab[i * 3]) ? double(lab[i * 3]) : 0, 0, 0}).y;
  }
  return y;
}

// Luminance of one channel alone, above that of black, at kNodes even steps.
std::vector<double> ramp(const Transform& transform, size_t channel) {
  std::vector<float> rgb(kNodes * 3);
  for (size_t i = 0; i < kNodes; ++i) rgb[i * 3 + channel] = static_cast<float>(i) / (kNodes - 1);
  std::vector<double> y = luminances(transform, rgb);
  for (size_t i = kNodes; i-- > 0;) y[i] = std::max(0.0, y[i] - y[0]);
  return y;
}

// The ramp at the middle of each of the table's input steps; the two ends exactly.
std::vector<int32_t> table(const std::vector<double>& nodes, double offset, double scale,
                           size_t size) {
  std::vector<int32_t> values(size);
  for (size_t i = 0; i < size; ++i) {
    const double middle = (double(i) + 0.5) / double(size);
    const double at = (i == 0 ? 0 : i + 1 == size ? 1 : middle) * (kNodes - 1);
    const size_t low = std::min(static_cast<size_t>(at), kNodes - 2);
    const double part = at - double(low);
    const double y = nodes[low] * (1 - part) + nodes[low + 1] * part;
    values[i] =
        static_cast<int32_t>(std::lround(kWhite * std::clamp(offset + y * scale, 0.0, 1.0)));
  }
  return values;
}

}  // namespace

Result<Lightness> Lightness::of(const Profile& profile) {
  const Transform transform = to_lab(profile, INTENT_RELATIVE_COLORIMETRIC);
  if (!transform)
    return Error{"The master's profile has no usable way from its numbers to colour."};
  const std::vector<float> black(3, 0.0f);
  const double base = std::clamp(luminances(transform, black)[0], 0.0, 0.99);
  std::array<std::vector<double>, 3> ramps;
  double sum = 0;
  for (size_t c = 0; c < 3; ++c) {
    ramps[c] = ramp(transform, c);
    sum += ramps[c].back();
  }
  Lightness made;
  const double scale = sum > 0 ? (1 - base) / sum : 0;
  for (size_t c = 0; c < 3; ++c) {
    made.luminance_[c] = table(ramps[c], c == 0 ? base : 0, scale, size_t{1} << kInputBits);
  }
  made.lightness_.resize(kSteps + 2);
  for (uint32_t i = 0; i < made.lightness_.size(); ++i) {
    const double y = std::min(1.0, double(i) / kSteps);
    made.lightness_[i] =
        static_cast<int32_t>(std::lround(lab_from_xyz({y, y, y}, {1, 1, 1}).l * 65536));
  }
  return made;
}

void Lightness::convert(std::span<const uint16_t> rgb, std::span<int16_t> l) const {
  constexpr uint32_t kShift = 16 - kInputBits;
  const int32_t* red = luminance_[0].data();
  const int32_t* green = luminance_[1].data();
  const int32_t* blue = luminance_[2].data();
  const int32_t* curve = lightness_.data();
  const uint16_t* in = rgb.data();
  for (size_t x = 0; x < l.size(); ++x, in += 3) {
    const int32_t y =
        std::min(red[in[0] >> kShift] + green[in[1] >> kShift] + blue[in[2] >> kShift], 1 << 24);
    const int32_t low = curve[y >> 12], part = y & 0xFFF;
    // A step of the curve is at most 0.23 L*, so that the product stays below 2^26.
    const int32_t value = low + ((curve[(y >> 12) + 1] - low) * part >> 12);
    l[x] = static_cast<int16_t>((value + 128) >> 8);
  }
}

}  // namespace proofleaf::condition
