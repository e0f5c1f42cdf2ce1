#include "rank/compare.h"

#include <cmath>

namespace proofleaf {
namespace {

// "keeps 11 more shadow steps": the zone whose steps differ most that way; else by share.
std::string tone_words(const Variant& one, const Variant& other, bool more) {
  size_t widest = 0;
  double most = 0;
  for (size_t zone = 0; zone < kZones; ++zone) {
    const double difference = (one.tone[zone].kept - other.tone[zone].kept) * (more ? 1 : -1);
    if (difference > most) {
      most = difference;
      widest = zone;
    }
  }
  const double steps = std::round(most);
  if (steps < 1) {
    return said("keeps {} % of the local contrast against {} %",
                spoken_number(100 * one.tone_share, 0), spoken_number(100 * other.tone_share, 0));
  }
  constexpr std::array<std::array<const char*, 2>, kZones> kMore{
      {{phrase("keeps {} more shadow step"), phrase("keeps {} more shadow steps")},
       {phrase("keeps {} more midtone step"), phrase("keeps {} more midtone steps")},
       {phrase("keeps {} more highlight step"), phrase("keeps {} more highlight steps")}}};
  constexpr std::array<std::array<const char*, 2>, kZones> kFewer{
      {{phrase("keeps {} fewer shadow step"), phrase("keeps {} fewer shadow steps")},
       {phrase("keeps {} fewer midtone step"), phrase("keeps {} fewer midtone steps")},
       {phrase("keeps {} fewer highlight step"), phrase("keeps {} fewer highlight steps")}}};
  return said((more ? kMore : kFewer)[widest][steps == 1 ? 0 : 1], spoken_number(steps, 0));
}

std::string against(const char* what, double one, double other) {
  return said(what, spoken_number(one, 1), spoken_number(other, 1));
}

std::string hue_words(const Variant& one, const Variant& other) {
  auto turn = [](const Variant& v) {
    return spoken_number(v.hue.value_or(Variant::Hue{}).mean, 0);
  };
  return said("turns the hue of the accents by {}° against {}°", turn(one), turn(other));
}

}  // namespace

std::string telling_difference(const Compared& one, const Compared& other, bool more) {
  const Variant &a = one.variant, &b = other.variant;
  const Losses &p = a.losses, &q = b.losses;
  const std::array<double, 6> gains{q.colour - p.colour, q.gamut - p.gamut, q.tone - p.tone,
                                    q.hue - p.hue,       q.skin - p.skin,   q.neutral - p.neutral};
  size_t largest = 0;
  const double sign = more ? 1 : -1;
  for (size_t i = 1; i < gains.size(); ++i) {
    if (sign * gains[i] > sign * gains[largest]) largest = i;
  }
  if (sign * gains[largest] < 0.5) return {};
  switch (largest) {
    case 0:
      return against(more ? phrase("is on the whole closer to the master (ΔE00 {} against {})")
                          : phrase("is on the whole further from the master (ΔE00 {} against {})"),
                     a.mean, b.mean);
    case 1:
      return said("has {} % of the picture beyond its gamut against {} %",
                  spoken_number(100 * one.off_gamut, 0), spoken_number(100 * other.off_gamut, 0));
    case 2:
      return tone_words(a, b, more);
    case 3:
      return hue_words(a, b);
    case 4:
      return against(more ? phrase("holds skin closer to the master (ΔE00 {} against {})")
                          : phrase("holds skin further from the master (ΔE00 {} against {})"),
                     a.skin.value_or(Variant::Skin{}).delta_e,
                     b.skin.value_or(Variant::Skin{}).delta_e);
    default:
      return against(more ? phrase("holds neutrals closer to neutral (ΔE00 {} against {})")
                          : phrase("holds neutrals further from neutral (ΔE00 {} against {})"),
                     a.neutral.value_or(Variant::Neutral{}).delta_e,
                     b.neutral.value_or(Variant::Neutral{}).delta_e);
  }
}

}  // namespace proofleaf
