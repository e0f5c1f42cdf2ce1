#include "paper/card.h"

#include <algorithm>
#include <cmath>

#include "paper/ways.h"

namespace proofleaf {
namespace {

constexpr uint32_t kGreys = 256;
constexpr double kReversal = 0.05, kJump = 1.0;  // [L*]

// The paper's own tables, both ways, media-relative.
class Tables {
 public:
  explicit Tables(const Profile& profile)
      : channels_(profile.channels()),
        top_(float_scale(profile.colour_space())),
        to_device_(from_lab(profile)),
        to_colour_(to_lab(profile, INTENT_RELATIVE_COLORIMETRIC)) {}
  bool open() const { return to_device_ && to_colour_; }
  uint32_t channels() const { return channels_; }
  float top() const { return top_; }

  std::vector<Lab> colours(const std::vector<float>& device) const {
    const size_t count = device.size() / channels_;
    std::vector<float> lab(count * 3);
    cmsDoTransform(to_colour_.get(), device.data(), lab.data(),
                   static_cast<cmsUInt32Number>(count));
    std::vector<Lab> colours(count);
    for (size_t i = 0; i < count; ++i) colours[i] = {lab[i * 3], lab[i * 3 + 1], lab[i * 3 + 2]};
    return colours;
  }

  // What the paper makes of colours asked for.
  std::vector<Lab> printed(const std::vector<Lab>& wanted) const {
    std::vector<float> lab;
    lab.reserve(wanted.size() * 3);
    for (const Lab& colour : wanted) {
      for (double value : {colour.l, colour.a, colour.b}) lab.push_back(static_cast<float>(value));
    }
    std::vector<float> device(wanted.size() * channels_);
    cmsDoTransform(to_device_.get(), lab.data(), device.data(),
                   static_cast<cmsUInt32Number>(wanted.size()));
    for (float& value : device) value = std::clamp(value, 0.0f, top_);
    return colours(device);
  }

 private:
  uint32_t channels_;
  float top_;
  Transform to_device_, to_colour_;
};

// Neutrals from white down to the paper's own black.
std::vector<Lab> asked_greys(const Paper& paper) {
  const XYZ white = xyz_from_lab(paper.white), black = xyz_from_lab(paper.black);
  const double darkest = lab_from_xyz({0, black.y / white.y, 0}).l;
  std::vector<Lab> greys(kGreys);
  for (uint32_t i = 0; i < kGreys; ++i) {
    greys[i].l = 100 - (100 - std::max(0.0, darkest)) * i / (kGreys - 1);
  }
  return greys;
}

std::vector<float> device_greys(const Paper& paper, const Tables& tables) {
  const bool inks = paper.model == ColourModel::cmyk;
  std::vector<float> device(kGreys * tables.channels());
  for (uint32_t i = 0; i < kGreys; ++i) {
    const float dark = tables.top() * static_cast<float>(i) / (kGreys - 1);
    float* colour = &device[i * tables.channels()];
    if (inks) {
      colour[3] = dark;
    } else {
      std::fill_n(colour, tables.channels(), tables.top() - dark);
    }
  }
  return device;
}

Ramp ramp_of(const std::vector<Lab>& greys) {
  Ramp ramp;
  ramp.steps = static_cast<uint32_t>(greys.size());
  for (size_t i = 1; i < greys.size(); ++i) {
    const double down = greys[i - 1].l - greys[i].l;
    ramp.reversals += down < -kReversal;
    ramp.jumps += down > kJump;
    ramp.largest_reversal = std::max(ramp.largest_reversal, -down);
    ramp.largest_step = std::max(ramp.largest_step, down);
  }
  return ramp;
}

void note_cast(const std::vector<Lab>& greys, PaperCard& card) {
  for (const Lab& grey : greys) {
    const double chroma = std::hypot(grey.a, grey.b);
    if (chroma <= card.cast_chroma) continue;
    card.cast_chroma = chroma;
    card.cast = grey;
  }
}

// Device colours well inside the gamut.
std::vector<float> inner_colours(const Paper& paper, const Tables& tables) {
  const bool inks = paper.model == ColourModel::cmyk;
  const uint32_t channels = tables.channels();
  const uint32_t side = channels == 1 ? 256 : inks ? 7 : 10, blacks = inks ? 3 : 1;
  const uint32_t coloured = inks ? 3 : channels;
  const double limit = paper.ink_limit > 0 ? 0.95 * paper.ink_limit / 100 : 4;
  auto count = blacks;
  for (uint32_t c = 0; c < coloured; ++c) count *= side;
  std::vector<float> device;
  for (uint32_t i = 0; i < count; ++i) {
    std::array<double, 4> colour{};
    uint32_t rest = i;
    for (uint32_t c = 0; c < coloured; ++c, rest /= side) colour[c] = (rest % side + 0.5) / side;
    if (inks) colour[3] = 0.25 * rest;
    if (inks && colour[0] + colour[1] + colour[2] + colour[3] > limit) continue;
    for (uint32_t c = 0; c < channels; ++c) {
      device.push_back(tables.top() * static_cast<float>(colour[c]));
    }
  }
  return device;
}

RoundTrip round_trip(const Paper& paper, const Tables& tables) {
  const std::vector<Lab> wanted = tables.colours(inner_colours(paper, tables));
  const std::vector<Lab> printed = tables.printed(wanted);
  std::vector<double> off(wanted.size());
  RoundTrip trip;
  trip.colours = static_cast<uint32_t>(wanted.size());
  for (size_t i = 0; i < off.size(); ++i) {
    off[i] = delta_e_2000(wanted[i], printed[i]);
    trip.mean += off[i] / double(off.size());
  }
  if (off.empty()) return trip;
  std::sort(off.begin(), off.end());
  trip.p95 = off[(off.size() - 1) * 95 / 100];
  trip.max = off.back();
  return trip;
}

void note_densities(const Paper& paper, PaperCard& card) {
  card.white_density = density_of_lightness(paper.white.l);
  card.black_density = density_of_lightness(paper.black.l);
  card.density_range = card.black_density - card.white_density;
  card.contrast_ratio = std::pow(10.0, card.density_range);
}

bool all_numbers(const PaperCard& card) {
  return std::isfinite(card.density_range + card.gamut_volume + card.cast_chroma + card.cast.l +
                       card.printed_ramp.largest_step + card.device_ramp.largest_step +
                       card.round_trip.mean + card.round_trip.max);
}

}  // namespace

double density_of_lightness(double l) {
  return -std::log10(xyz_from_lab({std::max(l, 0.01), 0, 0}).y);
}

Result<PaperCard> read_card(const Paper& paper, const Watch& watch) {
  const Tables tables(paper.profile);
  if (!tables.open()) return Error{"One of the tables of {} is damaged.", paper.name};
  PaperCard card;
  note_densities(paper, card);
  auto gamut = gamut_mesh(paper);
  if (!gamut) return gamut.error();
  card.gamut = gamut.take();
  card.gamut_volume = gamut_volume(card.gamut);
  if (!keep_going(watch, 0.5)) return stopped();
  const std::vector<Lab> greys = tables.printed(asked_greys(paper));
  note_cast(greys, card);
  card.printed_ramp = ramp_of(greys);
  card.device_ramp = ramp_of(tables.colours(device_greys(paper, tables)));
  card.round_trip = round_trip(paper, tables);
  if (!all_numbers(card)) return Error{"A table of {} gives no numbers.", paper.name};
  card.faults = find_faults(paper, card);
  if (!keep_going(watch, 1)) return stopped();
  return card;
}

}  // namespace proofleaf
