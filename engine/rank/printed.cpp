#include "rank/printed.h"

#include <cmath>
#include <numbers>

#include "rank/lanes.h"

namespace proofleaf {
namespace {

constexpr double kLeastShare = 0.01;  // of the area, for skin and neutrals to be looked at

double hue_angle(const Lab& lab) { return std::atan2(lab.b, lab.a); }

// The samples on paper, beside their colours in the master.
template <class Use>
void each_sample(const Samples& samples, const Cube& cube, const Use& use) {
  run_lanes(cube, samples.rgb, [&](size_t first, std::span<const uint16_t> lanes) {
    for (size_t i = 0; i < lanes.size() / 4; ++i)
      use(samples.lab[first + i], lab_of(&lanes[i * 4]));
  });
}

// dE00 of a turn of hue alone: both colours at their mean lightness and mean chroma.
double hue_difference(const Lab& one, const Lab& two) {
  const double l = (one.l + two.l) / 2;
  const double chroma = std::sqrt(std::hypot(one.a, one.b) * std::hypot(two.a, two.b));
  auto turned = [&](const Lab& lab) {
    return Lab{l, chroma * std::cos(hue_angle(lab)), chroma * std::sin(hue_angle(lab))};
  };
  return delta_e_2000(turned(one), turned(two));
}

Variant::Hue hue_of(const Samples& accents, const Cube& cube) {
  Variant::Hue hue;
  const double count = double(accents.lab.size());
  each_sample(accents, cube, [&](const Lab& master, const Lab& paper) {
    double turn = std::abs(hue_angle(master) - hue_angle(paper)) * 180 / std::numbers::pi;
    if (turn > 180) turn = 360 - turn;
    hue.mean += turn / count;
    hue.max = std::max(hue.max, turn);
    hue.delta_e += hue_difference(master, paper) / count;
  });
  return hue;
}

Variant::Skin skin_of(const Samples& samples, const Cube& cube) {
  Variant::Skin skin;
  const double count = double(samples.lab.size());
  each_sample(samples, cube, [&](const Lab& master, const Lab& paper) {
    skin.delta_e += delta_e_2000(master, paper) / count;
    skin.picture += picture_difference(master, paper) / count;
  });
  return skin;
}

// The mean cast in each tenth of L*, so that the noise of single pixels is no cast.
Variant::Neutral cast_of(const Samples& neutrals, const Cube& cube) {
  struct Tenth {
    double count = 0, a = 0, b = 0;
  };
  std::array<Tenth, 10> tenths;
  each_sample(neutrals, cube, [&](const Lab& master, const Lab& paper) {
    Tenth& tenth = tenths[static_cast<size_t>(std::clamp(master.l / 10, 0.0, 9.0))];
    tenth.count += 1;
    tenth.a += paper.a - master.a;
    tenth.b += paper.b - master.b;
  });
  Variant::Neutral cast;
  const double all = double(neutrals.lab.size());
  for (const Tenth& tenth : tenths) {
    if (tenth.count == 0) continue;
    const Lab off{50, tenth.a / tenth.count, tenth.b / tenth.count};
    cast.delta_e += delta_e_2000({50, 0, 0}, off) * tenth.count / all;
    cast.a += tenth.a / all;
    cast.b += tenth.b / all;
  }
  return cast;
}

// Takes three quarters of the lightness term's square out of a CIEDE2000: kL = 2 for kL = 1.
float halved_lightness(float delta_e, float one, float two) {
  const float from_middle = (one + two) / 2 - 50, square = from_middle * from_middle;
  const float term = (two - one) / (1 + 0.015f * square / std::sqrt(20 + square));
  return std::sqrt(std::max(0.0f, delta_e * delta_e - 0.75f * term * term));
}

struct Spread {
  double mean = 0, p95 = 0, max = 0;
};

// Of counts by code_of_difference().
Spread spread_of(const std::vector<uint32_t>& counts) {
  uint64_t all = 0, below = 0;
  Spread spread;
  for (size_t code = 0; code < counts.size(); ++code) {
    all += counts[code];
    spread.mean += double(code) * counts[code];
  }
  spread.mean /= 512 * double(std::max<uint64_t>(all, 1));
  for (size_t code = 0; code < counts.size(); ++code) {
    if (counts[code] == 0) continue;
    spread.max = difference_of(static_cast<uint16_t>(code));
    if (below * 20 < all * 19) spread.p95 = spread.max;
    below += counts[code];
  }
  return spread;
}

}  // namespace

double picture_difference(const Lab& one, const Lab& two) {
  return halved_lightness(static_cast<float>(delta_e_2000(one, two)), static_cast<float>(one.l),
                          static_cast<float>(two.l));
}

Result<PaperColours> PaperColours::make(const Profile& master, const Paper& paper,
                                        PrintIntent print) {
  auto chain = ProofChain::make(master, paper, print, {});
  if (!chain) return chain.error();
  return PaperColours(chain.take(), to_lab(paper.profile, INTENT_RELATIVE_COLORIMETRIC), paper);
}

Result<std::vector<Lab>> PaperColours::colours(std::span<const float> rgb) const {
  const size_t count = rgb.size() / 3;
  std::vector<float> device(count * chain_->device_channels()), lab(count * 3);
  chain_->to_device(rgb, device);
  const float top = float_scale(paper_.profile.colour_space());
  for (float& value : device) value *= top;
  cmsDoTransform(to_colour_.get(), device.data(), lab.data(), static_cast<cmsUInt32Number>(count));
  std::vector<Lab> colours(count);
  for (size_t i = 0; i < count; ++i) {
    colours[i] = {lab[i * 3], lab[i * 3 + 1], lab[i * 3 + 2]};
    if (!std::isfinite(colours[i].l + colours[i].a + colours[i].b)) {
      return Error{"A table of {} gives no numbers.", paper_.name};
    }
  }
  return colours;
}

Result<std::vector<Lab>> printed_colours(const Profile& master, const PictureFacts& facts,
                                         const Paper& paper, PrintIntent print) {
  auto on_paper = PaperColours::make(master, paper, print);
  if (!on_paper) return on_paper.error();
  return on_paper.value().colours(node_rgb(facts));
}

Printed print_picture(const PictureFacts& facts, std::span<const Lab> colours) {
  Printed printed{lab_cube(facts, colours), {}, {}, {}};
  printed.tone.resize(facts.tone_lightness.size());
  run_lanes(printed.cube, facts.tone.rgb, [&](size_t first, std::span<const uint16_t> lanes) {
    float* out = &printed.tone[first];
    for (size_t i = 0; i < lanes.size() / 4; ++i) out[i] = quick_lightness(lanes[i * 4]);
  });
  printed.lightness.resize(facts.colour_lightness.size());
  printed.difference.resize(facts.colour_lightness.size());
  run_lanes(printed.cube, facts.colour.rgb, [&](size_t first, std::span<const uint16_t> lanes) {
    for (size_t i = 0; i < lanes.size() / 4; ++i) {
      printed.lightness[first + i] = quick_lightness(lanes[i * 4]);
      printed.difference[first + i] = lanes[i * 4 + 3];
    }
  });
  return printed;
}

void note_differences(const PictureFacts& facts, const Printed& printed, Variant& variant) {
  std::vector<uint32_t> differences(65536), pictured(65536);
  for (size_t i = 0; i < printed.difference.size(); ++i) {
    const float l = quick_lightness(facts.colour_lightness[i]);
    const float delta_e = static_cast<float>(printed.difference[i]) / 512;
    const float seen = halved_lightness(delta_e, l, printed.lightness[i]);
    ++differences[printed.difference[i]];
    ++pictured[static_cast<size_t>(seen * 512)];
  }
  const Spread plain = spread_of(differences), picture = spread_of(pictured);
  variant.mean = plain.mean;
  variant.p95 = plain.p95;
  variant.max = plain.max;
  variant.picture_mean = picture.mean;
  variant.picture_p95 = picture.p95;
}

void note_samples(const PictureFacts& facts, const Printed& printed, Variant& variant) {
  if (!facts.accents.lab.empty()) variant.hue = hue_of(facts.accents, printed.cube);
  if (facts.skin.share >= kLeastShare) variant.skin = skin_of(facts.skin, printed.cube);
  if (facts.neutrals.share >= kLeastShare) variant.neutral = cast_of(facts.neutrals, printed.cube);
}

}  // namespace proofleaf
