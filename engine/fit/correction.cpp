#include "fit/correction.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <optional>

#include "fit/fields.h"
#include "fit/smooth.h"

namespace proofleaf {
namespace {

constexpr double kFade = 20;  // C* at which a cast is down to 1/e
constexpr double kEnds = 8;   // L* over which it fades at both ends
constexpr double kShadowTone = 20, kMidTone = 50, kHighlightTone = 80;  // [L*]

// 1 at a third of the way, 0 with a slope at 0, 0 without one from 1 on.
double hump(double t) { return t > 0 && t < 1 ? 6.75 * t * (1 - t) * (1 - t) : 0; }

std::vector<TonePoint> with_ends(std::vector<TonePoint> points) {
  if (points.empty() || points.front().in > 0) points.insert(points.begin(), {0, 0});
  if (points.back().in < 100) points.push_back({100, 100});
  return points;
}

Status check_curve(const std::vector<TonePoint>& curve) {
  if (curve.size() > kMostTonePoints) {
    return Error{"The correction's curve has more than {} points.", kMostTonePoints};
  }
  TonePoint last{-1, 0};
  for (const TonePoint& point : curve) {
    for (const double value : {point.in, point.out}) {
      if (!(value >= 0 && value <= 100)) return out_of_range(phrase("correction"), "curve", 0, 100);
    }
    if (point.in <= last.in || point.out < last.out) {
      return Error{
          "The points of the correction's curve must go from dark to light and never "
          "fall."};
    }
    last = point;
  }
  return done();
}

class CorrectionMap final : public ColourMap {
 public:
  CorrectionMap(std::shared_ptr<const MasterSpace> space, const Correction& correction,
                const Monochrome& monochrome)
      : space_(std::move(space)),
        correction_(correction),
        monochrome_(monochrome),
        identity_(!monochrome.on && without_local(correction) == Correction{}) {}

  bool changes() const override { return !identity_; }

  void apply(std::span<float> rgb) const override {
    if (identity_) return;
    constexpr size_t kPiece = size_t{4096} * 3;
    for (size_t first = 0; first < rgb.size(); first += kPiece) {
      apply_piece(rgb.subspan(first, std::min(kPiece, rgb.size() - first)));
    }
  }

 private:
  static Correction without_local(Correction correction) {
    correction.local_contrast = 0;
    return correction;
  }

  void apply_piece(std::span<float> rgb) const {
    constexpr double kSame = 1e-4;  // [L*a*b*]
    const std::vector<Lab> colours = space_->colours(rgb);
    std::vector<Lab> changed;
    std::vector<size_t> at;
    for (size_t i = 0; i < colours.size(); ++i) {
      const Lab &from = colours[i], to = corrected(from, &rgb[i * 3]);
      const double most =
          std::max({std::abs(to.l - from.l), std::abs(to.a - from.a), std::abs(to.b - from.b)});
      if (most < kSame) continue;
      changed.push_back(to);
      at.push_back(i);
    }
    std::vector<float> codes(changed.size() * 3);
    space_->codes(changed, codes);
    for (size_t i = 0; i < at.size(); ++i) std::copy_n(&codes[i * 3], 3, &rgb[at[i] * 3]);
  }

  Lab corrected(const Lab& colour, const float* rgb) const {
    if (!monochrome_.on) return correction_(colour);
    const Lab grey = correction_({mixed_lightness(monochrome_, *space_, rgb, colour), 0, 0});
    const Lab tone = toned(monochrome_, grey.l);
    return {grey.l, grey.a + tone.a, grey.b + tone.b};
  }

  std::shared_ptr<const MasterSpace> space_;
  LabCorrection correction_;
  Monochrome monochrome_;
  bool identity_;
};

}  // namespace

Error out_of_range(const std::string& whose, const std::string& what, double low, double high) {
  const auto plain = [](double number) {
    char text[32];
    std::snprintf(text, sizeof text, "%g", number);
    return spoken_digits(text);
  };
  return Error{"The {}'s {} must be a number between {} and {}.", said(whose.c_str()), what,
               plain(low), plain(high)};
}

Status check(const Correction& correction) {
  std::optional<Error> error;
  each_correction_number(correction,
                         [&](const std::string& what, double value, double low, double high) {
                           if (!error && !(value >= low && value <= high))
                             error = out_of_range(phrase("correction"), what, low, high);
                         });
  if (error) return *error;
  return check_curve(correction.curve);
}

LabCorrection::LabCorrection(const Correction& correction)
    : correction_(correction),
      with_curve_(!correction.curve.empty()),
      with_balance_(correction.neutral != Correction{}.neutral),
      with_chroma_(correction.saturation != 0),
      with_turn_(false),
      curve_(with_ends(correction.curve)) {
  for (const HueBand& band : correction.bands) {
    with_chroma_ = with_chroma_ || band.chroma != 0;
    with_turn_ = with_turn_ || band.turn != 0;
  }
}

double LabCorrection::tone(double l) const {
  double tone = std::clamp(l, 0.0, 100.0);
  tone += correction_.shadows * hump(tone / 50) + correction_.highlights * hump((100 - tone) / 50);
  // Steepest at the middle; its slope is nowhere below 0 within the range of `contrast`.
  const double t = tone / 100;
  tone += correction_.contrast * t * (1 - t) * (2 * t - 1);
  return with_curve_ ? curve_(tone) : tone;
}

Lab LabCorrection::balanced(const Lab& colour) const {
  const double square = colour.a * colour.a + colour.b * colour.b;
  const double share = std::exp(-square / (kFade * kFade)) * smooth_step(colour.l / kEnds) *
                       smooth_step((100 - colour.l) / kEnds);
  const double above_shadows = smooth_step((colour.l - kShadowTone) / (kMidTone - kShadowTone)),
               highlights = smooth_step((colour.l - kMidTone) / (kHighlightTone - kMidTone));
  const std::array<double, 3> weights{1 - above_shadows, above_shadows - highlights, highlights};
  Lab moved = colour;
  for (size_t i = 0; i < weights.size(); ++i) {
    moved.a += share * weights[i] * correction_.neutral[i].a;
    moved.b += share * weights[i] * correction_.neutral[i].b;
  }
  return moved;
}

Lab LabCorrection::operator()(const Lab& colour) const {
  Lab to = with_balance_ ? balanced(colour) : colour;
  if (with_chroma_ || with_turn_) {
    const BandsOfHue hue = bands_of_hue(to.a, to.b);
    const auto& bands = correction_.bands;
    const double band = at_hue(hue, [&](size_t i) { return bands[i].chroma; });
    const double factor = (1 + correction_.saturation / 100) * (1 + band / 100);
    const double turn =
        at_hue(hue, [&](size_t i) { return bands[i].turn; }) * std::numbers::pi / 180;
    to = {to.l, factor * (to.a * std::cos(turn) - to.b * std::sin(turn)),
          factor * (to.a * std::sin(turn) + to.b * std::cos(turn))};
  }
  to.l = tone(to.l);
  return to;
}

Result<std::shared_ptr<const ColourMap>> correction_map(const Profile& master,
                                                        const Correction& correction,
                                                        const Monochrome& monochrome) {
  if (auto sound = check(correction); !sound) return sound.error();
  if (auto sound = check(monochrome); !sound) return sound.error();
  auto space = MasterSpace::make(master);
  if (!space) return space.error();
  return std::shared_ptr<const ColourMap>(
      std::make_shared<CorrectionMap>(space.take(), correction, monochrome));
}

}  // namespace proofleaf
