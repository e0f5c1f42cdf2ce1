// What the colours of a master mean, and its rows as three channels.
#include <array>

#include "colour/lab.h"
#include "colour/lcms.h"
#include "colour/profile.h"

namespace proofleaf {
namespace {

uint32_t icc_space(ColourModel model) {
  switch (model) {
    case ColourModel::grey:
      return cmsSigGrayData;
    case ColourModel::cmyk:
      return cmsSigCmykData;
    case ColourModel::rgb:
      break;
  }
  return cmsSigRgbData;
}

const char* model_word(uint32_t space) {
  if (space == cmsSigGrayData) return said("grey");
  if (space == cmsSigCmykData) return "CMYK";
  if (space == cmsSigRgbData) return "RGB";
  return said("another kind of colour");
}

// Why the profile called `name` cannot give the master's colours; empty when it can.
std::string unusable(const Profile& profile, const std::string& name, ColourModel model) {
  if (profile.colour_space() != icc_space(model)) {
    return said("{} is for {} while the picture is {}; it is left aside.", name,
                model_word(profile.colour_space()), model_word(icc_space(model)));
  }
  if (!to_lab(profile, INTENT_RELATIVE_COLORIMETRIC))
    return said("{} has no usable way from its numbers to colour; it is left aside.", name);
  return {};
}

// The grey profile's tone curve as luminance, whatever its connection space is.
Curve grey_curve(const Profile& profile) {
  constexpr size_t kSteps = 4096;
  const Transform transform = to_lab(profile, INTENT_RELATIVE_COLORIMETRIC);
  std::vector<float> grey(kSteps), lab(kSteps * 3);
  for (size_t i = 0; i < kSteps; ++i) grey[i] = static_cast<float>(i) / (kSteps - 1);
  cmsDoTransform(transform.get(), grey.data(), lab.data(), kSteps);
  for (size_t i = 0; i < kSteps; ++i) {
    grey[i] = static_cast<float>(xyz_from_lab({lab[i * 3], 0, 0}).y);
  }
  return Curve(cmsBuildTabulatedToneCurveFloat(nullptr, kSteps, grey.data()));
}

Result<Profile> grey_as_rgb(const Profile& grey) {
  // A curve that maps grey to luminance stands in the profile itself; keep it exactly.
  if (cmsGetPCS(grey.handle()) == cmsSigXYZData && cmsIsTag(grey.handle(), cmsSigGrayTRCTag)) {
    auto* own = static_cast<cmsToneCurve*>(cmsReadTag(grey.handle(), cmsSigGrayTRCTag));
    if (own != nullptr) {
      const Curve curve(cmsDupToneCurve(own));
      return neutral_rgb_profile(curve.get(), grey.title());
    }
  }
  const Curve curve = grey_curve(grey);
  return neutral_rgb_profile(curve.get(), grey.title());
}

Result<MasterColour> with_profile(const Profile& profile, ColourModel model, bool assumed) {
  MasterColour colour;
  colour.title = profile.title();
  colour.assumed = assumed;
  if (model == ColourModel::rgb) {
    colour.profile = profile;
    return colour;
  }
  auto carrier = model == ColourModel::grey ? grey_as_rgb(profile) : standard_profile("romm");
  if (!carrier) return carrier.error();
  colour.profile = carrier.take();
  if (model == ColourModel::cmyk) colour.source = profile;
  return colour;
}

std::string exif_space_id(ExifColourSpace space) {
  if (space == ExifColourSpace::srgb) return "srgb";
  if (space == ExifColourSpace::oprgb) return "oprgb";
  return {};
}

// One channel copied onto three.
class GreyRows final : public RowSource {
 public:
  explicit GreyRows(std::unique_ptr<RowSource> rows) : rows_(std::move(rows)) {}
  RowFormat format() const override {
    const RowFormat format = rows_->format();
    return {format.width, format.height, 3};
  }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    const size_t samples = rows_->format().row_samples() * count;
    grey_.resize(samples);
    if (auto got = rows_->read(first, count, grey_); !got) return got;
    for (size_t i = 0; i < samples; ++i) {
      into[i * 3] = into[i * 3 + 1] = into[i * 3 + 2] = grey_[i];
    }
    return done();
  }

 private:
  std::unique_ptr<RowSource> rows_;
  std::vector<uint16_t> grey_;
};

// Four inks carried over into the RGB carrier by LittleCMS in 16 bits.
class InkRows final : public RowSource {
 public:
  InkRows(std::unique_ptr<RowSource> rows, Transform transform, Profile ink, Profile carrier)
      : rows_(std::move(rows)),
        ink_(std::move(ink)),
        carrier_(std::move(carrier)),
        transform_(std::move(transform)) {}
  RowFormat format() const override {
    const RowFormat format = rows_->format();
    return {format.width, format.height, 3};
  }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    const RowFormat format = rows_->format();
    inks_.resize(format.row_samples() * count);
    if (auto got = rows_->read(first, count, inks_); !got) return got;
    cmsDoTransform(transform_.get(), inks_.data(), into.data(), format.width * count);
    return done();
  }

 private:
  std::unique_ptr<RowSource> rows_;
  Profile ink_, carrier_;
  Transform transform_;
  std::vector<uint16_t> inks_;
};

}  // namespace

Result<Profile> neutral_rgb_profile(cmsToneCurve* curve, const std::string& title) {
  // Equal channels are neutral whatever the primaries; those of IEC 61966-2-1 will do.
  const cmsCIExyY white{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE rgb{{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}};
  return rgb_profile(white, rgb, curve, title);
}

Result<MasterColour> master_colour(const MasterInfo& info, const std::string& name,
                                   const std::string& assume, const Profile& assume_profile) {
  listen_to_lcms();
  std::string note;
  if (!info.icc.empty()) {
    const std::string inside = said("The profile inside {}", name);
    auto own = Profile::open(info.icc, inside);
    note = own ? unusable(own.value(), inside, info.model) : own.error().message;
    if (note.empty()) return with_profile(own.value(), info.model, false);
  }
  auto chosen = [&]() -> Result<MasterColour> {
    if (assume_profile && unusable(assume_profile, name, info.model).empty()) {
      return with_profile(assume_profile, info.model, true);
    }
    if (info.model == ColourModel::cmyk) {
      return Error{
          "{} is a CMYK file without a usable profile, so its colours are not known; save it again "
          "with its profile embedded, or choose one to assume.",
          name};
    }
    const std::string stated = info.icc.empty() ? exif_space_id(info.exif_space) : std::string{};
    const bool assumed = stated.empty();
    auto space = standard_profile(!assumed ? stated : assume.empty() ? "srgb" : assume);
    if (!space) return space.error();
    // Grey without a profile has the chosen space's tone curve: the space itself carries it.
    MasterColour colour;
    colour.profile = space.take();
    colour.title = colour.profile.title();
    colour.assumed = assumed;
    return colour;
  }();
  if (chosen) chosen.value().note = note;
  return chosen;
}

Result<std::unique_ptr<RowSource>> as_rgb(std::unique_ptr<RowSource> rows, const MasterInfo& info,
                                          const MasterColour& colour) {
  switch (info.model) {
    case ColourModel::grey:
      return std::unique_ptr<RowSource>(std::make_unique<GreyRows>(std::move(rows)));
    case ColourModel::cmyk: {
      Transform transform(cmsCreateTransform(
          colour.source.handle(), TYPE_CMYK_16, colour.profile.handle(), TYPE_RGB_16,
          INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_HIGHRESPRECALC | cmsFLAGS_NOCACHE));
      if (!transform) return Error{"The file's CMYK profile cannot be used."};
      return std::unique_ptr<RowSource>(std::make_unique<InkRows>(
          std::move(rows), std::move(transform), colour.source, colour.profile));
    }
    case ColourModel::rgb:
      break;
  }
  return rows;
}

}  // namespace proofleaf
