#include "proof/view.h"

#include <cmath>

#include "colour/lcms.h"

namespace proofleaf {
namespace {

using Matrix = std::array<std::array<double, 3>, 3>;

Matrix inverse(const Matrix& m) {
  auto minor = [&](size_t r, size_t c) {
    const size_t r1 = (r + 1) % 3, r2 = (r + 2) % 3, c1 = (c + 1) % 3, c2 = (c + 2) % 3;
    return m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
  };
  const double det = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
  Matrix out{};
  for (size_t r = 0; r < 3; ++r) {
    for (size_t c = 0; c < 3; ++c) out[c][r] = minor(r, c) / det;
  }
  return out;
}

std::array<double, 3> times(const Matrix& m, const std::array<double, 3>& v) {
  std::array<double, 3> out{};
  for (size_t r = 0; r < 3; ++r) out[r] = m[r][0] * v[0] + m[r][1] * v[1] + m[r][2] * v[2];
  return out;
}

}  // namespace

double srgb_encode(double linear) {
  const double x = std::abs(linear);
  const double v = x <= 0.0031308 ? 12.92 * x : 1.055 * std::pow(x, 1 / 2.4) - 0.055;
  return std::copysign(v, linear);
}

double srgb_decode(double encoded) {
  const double v = std::abs(encoded);
  const double x = v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  return std::copysign(x, encoded);
}

View::View(const ProofView& view, const XYZ& white, const XYZ& black) {
  const std::array<double, 3> d50{kD50.x, kD50.y, kD50.z};
  const std::array<double, 3> darkest{black.x, black.y, black.z};
  const std::array<double, 3> media{white.x, white.y, white.z};
  for (size_t i = 0; i < 3; ++i) {
    scale_[i] = 1;
    if (!view.paper_black) {
      scale_[i] = d50[i] / (d50[i] - darkest[i]);
      offset_[i] = -darkest[i] * scale_[i];
    }
    if (view.paper_white) {
      scale_[i] *= media[i] / d50[i];
      offset_[i] *= media[i] / d50[i];
    }
  }
}

XYZ View::shown(const XYZ& p) const {
  return {p.x * scale_[0] + offset_[0], p.y * scale_[1] + offset_[1], p.z * scale_[2] + offset_[2]};
}

Result<ScreenEncoder> ScreenEncoder::make(Screen screen) {
  auto profile = standard_profile(screen == Screen::display_p3 ? "p3" : "srgb");
  if (!profile) return profile.error();
  constexpr std::array<cmsTagSignature, 3> kColorants{cmsSigRedColorantTag, cmsSigGreenColorantTag,
                                                      cmsSigBlueColorantTag};
  ScreenEncoder encoder;
  for (size_t c = 0; c < 3; ++c) {
    const auto* xyz = static_cast<cmsCIEXYZ*>(cmsReadTag(profile.value().handle(), kColorants[c]));
    if (xyz == nullptr) return Error{"The screen's colour space could not be built."};
    encoder.to_xyz_[0][c] = xyz->X;
    encoder.to_xyz_[1][c] = xyz->Y;
    encoder.to_xyz_[2][c] = xyz->Z;
  }
  encoder.to_rgb_ = inverse(encoder.to_xyz_);
  return encoder;
}

ScreenEncoder ScreenEncoder::srgb() {
  ScreenEncoder encoder;
  encoder.to_xyz_ = {{{0.4360747, 0.3850649, 0.1430804},
                      {0.2225045, 0.7168786, 0.0606169},
                      {0.0139322, 0.0971045, 0.7141733}}};
  encoder.to_rgb_ = inverse(encoder.to_xyz_);
  return encoder;
}

std::array<double, 3> ScreenEncoder::encode(const XYZ& xyz) const {
  auto rgb = times(to_rgb_, {xyz.x, xyz.y, xyz.z});
  for (double& channel : rgb) channel = srgb_encode(channel);
  return rgb;
}

XYZ ScreenEncoder::decode(const std::array<double, 3>& rgb) const {
  const auto xyz = times(to_xyz_, {srgb_decode(rgb[0]), srgb_decode(rgb[1]), srgb_decode(rgb[2])});
  return {xyz[0], xyz[1], xyz[2]};
}

}  // namespace proofleaf
