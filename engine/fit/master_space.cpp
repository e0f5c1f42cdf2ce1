#include "fit/master_space.h"

#include <algorithm>
#include <cmath>

#include "proof/cube_build.h"

namespace proofleaf {
namespace {

constexpr size_t kSteps = 4097;
constexpr int kHalvings = 11;  // of the chroma that is kept: to a two-thousandth of it

// Colours that do not fit, and the share of their chroma between `in`, which fits, and `out`.
struct Outside {
  size_t at;
  float in = 0, out = 1;
};

void put(const Lab& lab, float share, float* into) {
  into[0] = static_cast<float>(std::clamp(lab.l, 0.0, 100.0));
  into[1] = static_cast<float>(lab.a) * share;
  into[2] = static_cast<float>(lab.b) * share;
}

}  // namespace

Result<std::shared_ptr<const MasterSpace>> MasterSpace::make(const Profile& master) {
  auto space = std::shared_ptr<MasterSpace>(new MasterSpace());
  if (auto opened = space->open(master); !opened) return opened.error();
  return std::shared_ptr<const MasterSpace>(space);
}

Status MasterSpace::open(const Profile& master) {
  listen_to_lcms();
  if (!master || master.colour_space() != cmsSigRgbData) {
    return Error{"The master's profile is not RGB."};
  }
  master_ = master;
  to_colour_ = to_lab(master, INTENT_RELATIVE_COLORIMETRIC);
  cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
  to_code_ = Transform(cmsCreateTransform(lab, TYPE_Lab_FLT, master.handle(), TYPE_RGB_FLT,
                                          INTENT_RELATIVE_COLORIMETRIC, kExact));
  cmsCloseProfile(lab);
  if (!to_colour_ || !to_code_) {
    return Error{
        "The master's profile gives no way from colour back to its numbers, so its "
        "colours cannot be corrected."};
  }
  std::vector<float> rgb;
  for (size_t i = 0; i < kSteps; ++i) {
    rgb.insert(rgb.end(), 3, static_cast<float>(i) / (kSteps - 1));
  }
  float highest = 0;
  for (const Lab& colour : colours(rgb)) {
    const auto y = static_cast<float>(xyz_from_lab({colour.l, 0, 0}).y);
    if (!std::isfinite(y)) return Error{"The master's profile gives no numbers."};
    linear_.push_back(highest = std::clamp(y, highest, 1.0f));
  }
  return done();
}

std::vector<Lab> MasterSpace::colours(std::span<const float> rgb) const {
  const size_t count = rgb.size() / 3;
  std::vector<float> lab(rgb.size());
  cmsDoTransform(to_colour_.get(), rgb.data(), lab.data(), static_cast<cmsUInt32Number>(count));
  std::vector<Lab> found(count);
  for (size_t i = 0; i < count; ++i) found[i] = {lab[i * 3], lab[i * 3 + 1], lab[i * 3 + 2]};
  return found;
}

void MasterSpace::to_codes(std::span<const float> lab, std::span<float> rgb) const {
  cmsDoTransform(to_code_.get(), lab.data(), rgb.data(),
                 static_cast<cmsUInt32Number>(lab.size() / 3));
  for (float& code : rgb) code = code > 0 ? std::min(code, 1.0f) : 0.0f;  // no number counts as 0
}

void MasterSpace::codes(std::span<const Lab> colours, std::span<float> rgb) const {
  std::vector<float> lab(colours.size() * 3), back(lab.size());
  for (size_t i = 0; i < colours.size(); ++i) put(colours[i], 1, &lab[i * 3]);
  // A space holds a colour where its held codes mean that colour again.
  const auto fits = [&](size_t i) {
    const float l = lab[i * 3] - back[i * 3], a = lab[i * 3 + 1] - back[i * 3 + 1],
                b = lab[i * 3 + 2] - back[i * 3 + 2];
    return l * l + a * a + b * b <= kInside * kInside;
  };
  const auto there_and_back = [&](std::span<float> codes) {
    to_codes(lab, codes);
    cmsDoTransform(to_colour_.get(), codes.data(), back.data(),
                   static_cast<cmsUInt32Number>(lab.size() / 3));
  };
  there_and_back(rgb);
  std::vector<Outside> outside;
  for (size_t i = 0; i < colours.size(); ++i) {
    if (!fits(i)) outside.push_back({i});
  }
  if (outside.empty()) return;
  lab.resize(outside.size() * 3);
  back.resize(lab.size());
  std::vector<float> codes(lab.size());
  for (int halving = 0; halving < kHalvings; ++halving) {
    for (size_t i = 0; i < outside.size(); ++i) {
      put(colours[outside[i].at], (outside[i].in + outside[i].out) / 2, &lab[i * 3]);
    }
    there_and_back(codes);
    for (size_t i = 0; i < outside.size(); ++i) {
      Outside& colour = outside[i];
      (fits(i) ? colour.in : colour.out) = (colour.in + colour.out) / 2;
    }
  }
  for (size_t i = 0; i < outside.size(); ++i) {
    put(colours[outside[i].at], outside[i].in, &lab[i * 3]);
  }
  to_codes(lab, codes);
  for (size_t i = 0; i < outside.size(); ++i) {
    std::copy_n(&codes[i * 3], 3, &rgb[outside[i].at * 3]);
  }
}

std::vector<uint16_t> MasterSpace::shaper() const {
  std::vector<float> l(kShaperLevels);
  for (size_t i = 0; i < l.size(); ++i) {
    const double y = linear(double(i) / double(kShaperLevels - 1));
    l[i] = static_cast<float>(lab_from_xyz({0, y, 0}).l);
  }
  return shaper_from(std::move(l));
}

double MasterSpace::linear(double code) const {
  const double at = std::clamp(code, 0.0, 1.0) * double(kSteps - 1);
  const size_t i = std::min(static_cast<size_t>(at), kSteps - 2);
  const double between = at - double(i);
  return linear_[i] + (double(linear_[i + 1]) - linear_[i]) * between;
}

}  // namespace proofleaf
