#include "fit/fit_problem.h"

#include <algorithm>
#include <cmath>

#include "rank/lanes.h"
#include "rank/printed.h"

namespace proofleaf {
namespace {

constexpr double kUsedBand = 0.05, kUsedNeutrals = 0.01;  // of the picture's area
constexpr double kColoured = 12;                          // C* from which a hue is seen as one

void set_point(Correction& correction, size_t which, double value) {
  if (value == 0) return;
  const double in = 25.0 * double(which + 1);
  auto& curve = correction.curve;
  const auto after = std::find_if(curve.begin(), curve.end(),
                                  [&](const TonePoint& point) { return point.in > in; });
  curve.insert(after, {in, in + value});
}

std::vector<FitParameter> tone_parameters() {
  std::vector<FitParameter> list{
      {7, 2, [](Correction& c, size_t, double value) { c.shadows = value; }},
      {7, 2, [](Correction& c, size_t, double value) { c.highlights = value; }},
      {60, 16, [](Correction& c, size_t, double value) { c.contrast = value; }}};
  for (size_t point = 0; point < 3; ++point) list.push_back({8, 2, set_point, point});
  return list;
}

// A node of the facts that pixels of `colour` are nearest to, and their share of the picture.
struct Used {
  size_t at;
  double share;
};
std::vector<Used> used_nodes(const PictureFacts& facts) {
  std::vector<uint32_t> counts(size_t{facts.grid} * facts.grid * facts.grid);
  const auto along = [&](uint16_t code) {
    return (size_t{facts.shaper[code]} * (facts.grid - 1) + 32768) >> 16;
  };
  const auto& rgb = facts.colour.rgb;
  for (size_t i = 0; i < rgb.size(); i += 3) {
    ++counts[(along(rgb[i]) * facts.grid + along(rgb[i + 1])) * facts.grid + along(rgb[i + 2])];
  }
  std::vector<Used> used;
  for (size_t at = 0; at < facts.nodes.size(); ++at) {
    const uint32_t count = counts[facts.nodes[at]];
    if (count > 0) used.push_back({at, 3.0 * count / double(rgb.size())});
  }
  return used;
}

std::vector<FitParameter> parameters_for(const PictureFacts& facts,
                                         const std::vector<Used>& nodes) {
  std::vector<FitParameter> list = tone_parameters();
  list.push_back({32, 8, [](Correction& c, size_t, double value) { c.saturation = value; }});
  std::array<double, kHueBands> used{};
  for (const Used& node : nodes) {
    const Lab& colour = facts.colours[node.at];
    if (std::hypot(colour.a, colour.b) < kColoured) continue;
    const BandsOfHue hue = bands_of_hue(colour.a, colour.b);
    used[hue.first] += node.share * hue.first_weight;
    used[hue.second] += node.share * (1 - hue.first_weight);
  }
  for (size_t band = 0; band < kHueBands; ++band) {
    if (used[band] < kUsedBand) continue;
    list.push_back(
        {32, 8, [](Correction& c, size_t which, double value) { c.bands[which].chroma = value; },
         band});
  }
  if (facts.neutrals.share < kUsedNeutrals) return list;
  list.push_back({6, 1, [](Correction& c, size_t, double value) {
                    for (NeutralShift& shift : c.neutral) shift.a = value;
                  }});
  list.push_back({6, 1, [](Correction& c, size_t, double value) {
                    for (NeutralShift& shift : c.neutral) shift.b = value;
                  }});
  return list;
}

}  // namespace

struct FitProblem::Parts {
  const PictureFacts& facts;
  ScoreWeights weights;
  std::shared_ptr<const MasterSpace> space;
  PaperColours printed, nearest;
  std::vector<float> rgb;  // of the nodes
  MasterTone tone;
  std::vector<Used> used;
  std::vector<FitParameter> parameters;
  double off_gamut = 0;  // share of the area, of the uncorrected picture
  double beyond = 0;     // as beyond_gamut()
  Variant before;

  // Share of the picture beyond the gamut, by node; rising from 2 to 4 dE00 rather than at once,
  // so that small steps of a correction make small steps here.
  Result<double> beyond_gamut(const std::vector<float>& codes) const {
    std::vector<float> some;
    for (const Used& node : used) {
      some.insert(some.end(), &codes[node.at * 3], &codes[node.at * 3] + 3);
    }
    auto found = nearest.colours(some);
    if (!found) return found.error();
    const std::vector<Lab> wanted = space->colours(some);
    double sum = 0;
    for (size_t i = 0; i < wanted.size(); ++i) {
      const double off = delta_e_2000(wanted[i], found.value()[i]);
      sum += used[i].share * std::clamp((off - kOffGamut + 1) / 2, 0.0, 1.0);
    }
    return sum;
  }

  Status find_before() {
    auto colours = nearest.colours(rgb);
    if (!colours) return colours.error();
    off_gamut = off_gamut_area(print_picture(facts, colours.value()));
    auto share = beyond_gamut(rgb);
    if (!share) return share.error();
    beyond = share.value();
    auto found = measured(rgb);
    if (!found) return found.error();
    before = found.take();
    return done();
  }

  Result<Variant> measured(const std::vector<float>& codes) const {
    auto colours = printed.colours(codes);
    if (!colours) return colours.error();
    auto share = beyond_gamut(codes);
    if (!share) return share.error();
    const Printed print = print_picture(facts, colours.value());
    Variant variant;
    variant.print = before.print;
    note_differences(facts, print, variant);
    note_samples(facts, print, variant);
    note_tone(tone, print, variant);
    variant.losses =
        losses_of(variant, off_gamut + std::max(0.0, share.value() - beyond), facts, weights);
    variant.score = variant.losses.score();
    return variant;
  }
};

FitProblem::FitProblem(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
FitProblem::FitProblem(FitProblem&&) noexcept = default;
FitProblem& FitProblem::operator=(FitProblem&&) noexcept = default;
FitProblem::~FitProblem() = default;

Result<FitProblem> FitProblem::make(const Profile& master, const PictureFacts& facts,
                                    const Paper& paper, PrintIntent print,
                                    const ScoreWeights& weights) {
  if (facts.nodes.empty() || facts.colour_lightness.empty()) {
    return Error{"There is no picture to correct."};
  }
  auto space = MasterSpace::make(master);
  if (!space) return space.error();
  auto printed = PaperColours::make(master, paper, print);
  if (!printed) return printed.error();
  auto nearest = PaperColours::make(master, paper, {Intent::relative, false});
  if (!nearest) return nearest.error();
  auto parts = std::unique_ptr<Parts>(new Parts{facts,
                                                weights,
                                                space.take(),
                                                printed.take(),
                                                nearest.take(),
                                                node_rgb(facts),
                                                master_tone(facts),
                                                used_nodes(facts),
                                                {},
                                                0,
                                                0,
                                                {}});
  parts->parameters = parameters_for(facts, parts->used);
  parts->before.print = print;
  if (auto found = parts->find_before(); !found) return found.error();
  return FitProblem(std::move(parts));
}

const std::vector<FitParameter>& FitProblem::parameters() const { return parts_->parameters; }

void FitProblem::keep_only(std::span<const size_t> which) {
  std::vector<FitParameter> kept;
  for (const size_t i : which) kept.push_back(parts_->parameters[i]);
  parts_->parameters = std::move(kept);
}

const Variant& FitProblem::before() const { return parts_->before; }

Correction FitProblem::correction(std::span<const double> values) const {
  Correction correction;
  for (size_t i = 0; i < values.size(); ++i) {
    const FitParameter& parameter = parts_->parameters[i];
    parameter.set(correction, parameter.which, values[i]);
  }
  return correction;
}

double FitProblem::price(std::span<const double> values) const {
  double price = 0;
  for (size_t i = 0; i < values.size(); ++i) {
    if (values[i] == 0) continue;
    price += kPricePerChange + kPricePerStep * std::abs(values[i]) / parts_->parameters[i].step;
  }
  return price;
}

Result<Variant> FitProblem::measured(const Correction& correction) const {
  if (auto sound = check(correction); !sound) return sound.error();
  std::vector<float> codes = parts_->rgb;
  std::vector<Lab> changed;
  std::vector<size_t> at;
  const LabCorrection correct(correction);
  for (size_t i = 0; i < parts_->facts.colours.size(); ++i) {
    const Lab &from = parts_->facts.colours[i], to = correct(from);
    if (to.l == from.l && to.a == from.a && to.b == from.b) continue;
    changed.push_back(to);
    at.push_back(i);
  }
  std::vector<float> found(changed.size() * 3);
  parts_->space->codes(changed, found);
  for (size_t i = 0; i < at.size(); ++i) std::copy_n(&found[i * 3], 3, &codes[at[i] * 3]);
  return parts_->measured(codes);
}

Result<Variant> FitProblem::measured(const ColourMap& map) const {
  std::vector<float> codes = parts_->rgb;
  map.apply(codes);
  return parts_->measured(codes);
}

double points_of(const Losses& losses) {
  return losses.colour + losses.gamut + losses.tone + losses.hue + losses.skin + losses.neutral;
}

}  // namespace proofleaf
