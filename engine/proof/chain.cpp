#include "proof/chain.h"

#include <algorithm>
#include <cmath>

#include "colour/lcms.h"
#include "proof/view.h"

namespace proofleaf {
namespace {

XYZ to_xyz(const cmsCIEXYZ& xyz) { return {xyz.X, xyz.Y, xyz.Z}; }
Lab lab_at(const float* lab) { return {lab[0], lab[1], lab[2]}; }

// Absolute XYZ of the paper's white as LittleCMS' absolute intent sees it.
XYZ media_white(const Paper& paper) { return xyz_from_lab(paper.white); }

// Colours on the paper as its reading says they come out, each media-relative to its own white.
class AsRead {
 public:
  AsRead(PaperReading reading, const XYZ& white) : reading_(std::move(reading)), media_(white) {
    if (!reading_.offsets.empty())
      white_ = xyz_from_lab(reading_.seen(lab_from_xyz(white), 0));
    else
      white_ = white;
  }
  const XYZ& white() const { return white_; }
  XYZ of(const XYZ& on_paper) const {
    if (reading_.offsets.empty()) return on_paper;
    const Lab relative = lab_from_xyz(on_paper);
    const XYZ absolute = ratio(on_paper, media_, kD50);
    const Lab seen = reading_.seen(lab_from_xyz(absolute), std::hypot(relative.a, relative.b));
    return ratio(xyz_from_lab(seen), kD50, white_);
  }

 private:
  // ICC.1:2022 6.3.2.2, and back.
  static XYZ ratio(const XYZ& xyz, const XYZ& times, const XYZ& over) {
    return {xyz.x * times.x / over.x, xyz.y * times.y / over.y, xyz.z * times.z / over.z};
  }

  PaperReading reading_;
  XYZ media_, white_;
};

// Colours as a correction leaves them; without one they are looked at where they stand.
class Corrected {
 public:
  Corrected(const ColourMap* map, std::span<const float> rgb) : rgb_(rgb) {
    if (map == nullptr) return;
    own_.assign(rgb.begin(), rgb.end());
    map->apply(own_);
    rgb_ = own_;
  }
  std::span<const float> rgb() const { return rgb_; }

 private:
  std::vector<float> own_;
  std::span<const float> rgb_;
};

class LcmsChain final : public ProofChain {
 public:
  LcmsChain(const Profile& master, const Paper& paper, View view, ScreenEncoder screen,
            std::shared_ptr<const ColourMap> before, AsRead read)
      : master_(master),
        paper_(paper),
        view_(view),
        screen_(screen),
        before_(std::move(before)),
        read_(std::move(read)) {}

  Status open(PrintIntent print) {
    const auto intent = static_cast<cmsUInt32Number>(print.intent);
    const bool bpc = print.black_point_compensation && print.intent != Intent::absolute;
    to_device_ = join(intent, bpc);
    to_nearest_ = join(INTENT_RELATIVE_COLORIMETRIC, false);
    to_colour_ = to_lab(paper_.profile, INTENT_RELATIVE_COLORIMETRIC);
    master_lab_ = to_lab(master_, INTENT_RELATIVE_COLORIMETRIC);
    if (to_device_ && to_nearest_ && to_colour_ && master_lab_) return done();
    return Error{"The master's profile and {} cannot be joined ({}).", paper_.name,
                 take_lcms_words()};
  }

  uint32_t device_channels() const override { return paper_.profile.channels(); }
  bool stepped() const override {
    return device_channels() == 4 || paper_.profile.has_byte_tables();
  }

  void to_device(std::span<const float> rgb, std::span<float> device) const override {
    const Corrected corrected(before_.get(), rgb);
    devices(corrected.rgb(), device);
  }

  void to_screen(std::span<const float> rgb, std::span<float> screen) const override {
    const Corrected corrected(before_.get(), rgb);
    shown(colours(to_device_, corrected.rgb()), screen);
  }

  void lightness(std::span<const float> levels, std::span<float> l) const override {
    std::vector<float> rgb;
    for (float level : levels) rgb.insert(rgb.end(), 3, level);
    const std::vector<float> lab = master_colours(rgb);
    for (size_t i = 0; i < l.size(); ++i) l[i] = lab[i * 3];
  }

  void off_gamut(std::span<const float> rgb, std::span<float> delta_e) const override {
    const Corrected corrected(before_.get(), rgb);
    beyond(corrected.rgb(), master_colours(corrected.rgb()), delta_e);
  }

  void points(std::span<const float> rgb, std::span<ProofPoint> out) const override {
    const uint32_t channels = device_channels();
    const Corrected corrected(before_.get(), rgb);
    std::vector<float> device(out.size() * channels), screen(rgb.size()), off(out.size());
    devices(corrected.rgb(), device);
    const auto master = master_colours(rgb), wanted = master_colours(corrected.rgb());
    const auto printed = colours(to_device_, corrected.rgb());
    shown(printed, screen);
    beyond(corrected.rgb(), wanted, off);
    for (size_t i = 0; i < out.size(); ++i) {
      ProofPoint& point = out[i];
      point.master = lab_at(&master[i * 3]);
      point.corrected = lab_at(&wanted[i * 3]);
      point.on_paper = lab_from_xyz(as_shown(&printed[i * 3]));
      for (uint32_t c = 0; c < channels; ++c) point.device[c] = device[i * channels + c];
      for (size_t c = 0; c < 3; ++c) point.screen[c] = screen[i * 3 + c];
      point.delta_e = delta_e_2000(point.master, point.on_paper);
      point.off_gamut = off[i];
      judge(point);
    }
  }

 private:
  cmsUInt32Number device_format() const { return float_format(paper_.profile.colour_space()); }

  Transform join(cmsUInt32Number intent, bool bpc) const {
    cmsHPROFILE profiles[2] = {master_.handle(), paper_.profile.handle()};
    cmsBool compensate[2] = {bpc, bpc};
    cmsUInt32Number intents[2] = {intent, intent};
    cmsFloat64Number adaptation[2] = {1, 1};
    return Transform(cmsCreateExtendedTransform(nullptr, 2, profiles, compensate, intents,
                                                adaptation, nullptr, 0, TYPE_RGB_FLT,
                                                device_format(), kExact));
  }

  // From here on rgb is corrected already.

  void devices(std::span<const float> rgb, std::span<float> device) const {
    const auto count = static_cast<cmsUInt32Number>(rgb.size() / 3);
    cmsDoTransform(to_device_.get(), rgb.data(), device.data(), count);
    const float scale = float_scale(paper_.profile.colour_space());
    for (float& value : device) value = std::clamp(value / scale, 0.0f, 1.0f);
  }

  std::vector<float> master_colours(std::span<const float> rgb) const {
    std::vector<float> lab(rgb.size());
    cmsDoTransform(master_lab_.get(), rgb.data(), lab.data(),
                   static_cast<cmsUInt32Number>(rgb.size() / 3));
    return lab;
  }

  XYZ as_shown(const float* on_paper) const {
    return view_.shown(read_.of(xyz_from_lab(lab_at(on_paper))));
  }

  // L*a*b* on paper -> encoded screen RGB.
  void shown(const std::vector<float>& lab, std::span<float> screen) const {
    for (size_t i = 0; i < screen.size(); i += 3) {
      const auto encoded = screen_.encode(as_shown(&lab[i]));
      for (size_t c = 0; c < 3; ++c) screen[i + c] = static_cast<float>(encoded[c]);
    }
  }

  // From the wanted L*a*b* to the nearest the paper has.
  void beyond(std::span<const float> rgb, const std::vector<float>& wanted,
              std::span<float> delta_e) const {
    const auto nearest = colours(to_nearest_, rgb);
    for (size_t i = 0; i < delta_e.size(); ++i) {
      delta_e[i] =
          static_cast<float>(delta_e_2000(lab_at(&wanted[i * 3]), lab_at(&nearest[i * 3])));
    }
  }

  // Master RGB -> paper by `way` -> media-relative L*a*b* on the paper.
  std::vector<float> colours(const Transform& way, std::span<const float> rgb) const {
    const size_t count = rgb.size() / 3;
    std::vector<float> device(count * device_channels()), lab(count * 3);
    cmsDoTransform(way.get(), rgb.data(), device.data(), static_cast<cmsUInt32Number>(count));
    const float top = float_scale(paper_.profile.colour_space());
    for (float& value : device) value = std::clamp(value, 0.0f, top);
    cmsDoTransform(to_colour_.get(), device.data(), lab.data(),
                   static_cast<cmsUInt32Number>(count));
    return lab;
  }

  // What stopped this colour: an ink at its end, or the sum of the inks.
  void judge(ProofPoint& point) const {
    constexpr double kAtEnd = 0.002;   // of a channel's range
    constexpr double kJustSeen = 1.0;  // dE00, below it nothing was lost
    if (paper_.model == ColourModel::cmyk) {
      for (double ink : point.device) point.ink += 100 * ink;
      point.ink_limited = paper_.ink_limit > 0 && point.ink >= paper_.ink_limit - 2;
    }
    const auto end = point.device.begin() + device_channels();
    point.clipped = point.off_gamut > kJustSeen &&
                    std::any_of(point.device.begin(), end,
                                [](double v) { return v <= kAtEnd || v >= 1 - kAtEnd; });
  }

  Profile master_;
  Paper paper_;
  View view_;
  ScreenEncoder screen_;
  std::shared_ptr<const ColourMap> before_;
  AsRead read_;
  Transform to_device_, to_nearest_, to_colour_, master_lab_;
};

}  // namespace

Result<std::shared_ptr<ProofChain>> ProofChain::make(const Profile& master, const Paper& paper,
                                                     PrintIntent print, ProofView view,
                                                     std::shared_ptr<const ColourMap> before,
                                                     const PaperReading& reading) {
  listen_to_lcms();
  auto screen = ScreenEncoder::make(view.screen);
  if (!screen) return screen.error();
  cmsCIEXYZ black{};
  cmsDetectBlackPoint(&black, paper.profile.handle(), INTENT_RELATIVE_COLORIMETRIC, 0);
  const AsRead read(reading, media_white(paper));
  auto chain =
      std::make_shared<LcmsChain>(master, paper, View(view, read.white(), read.of(to_xyz(black))),
                                  screen.take(), std::move(before), read);
  if (auto opened = chain->open(print); !opened) return opened.error();
  return std::shared_ptr<ProofChain>(chain);
}

ProofPoint ProofChain::point(float r, float g, float b) const {
  const std::array<float, 3> rgb{r, g, b};
  ProofPoint point;
  points(rgb, std::span(&point, 1));
  return point;
}

}  // namespace proofleaf
