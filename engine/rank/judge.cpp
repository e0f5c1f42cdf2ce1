#include "rank/judge.h"

#include <algorithm>
#include <cmath>

#include "rank/lanes.h"
#include "rank/printed.h"

namespace proofleaf {
namespace {

// Share of the picture whose media-relative L* is more than one step below the paper's black.
double too_dark(const PictureFacts& facts, const Paper& paper) {
  const double y = xyz_from_lab(paper.black).y / xyz_from_lab(paper.white).y;
  const double darkest = lab_from_xyz({0, y, 0}).l - 1;
  const auto below = std::count_if(facts.colour_lightness.begin(), facts.colour_lightness.end(),
                                   [&](uint16_t code) { return lightness_of(code) < darkest; });
  return double(below) / double(facts.colour_lightness.size());
}

bool plain_relative(PrintIntent print) {
  return print.intent == Intent::relative && !print.black_point_compensation;
}

double in_proportion(double area, double full) { return std::min(1.0, area / full); }

}  // namespace

MasterTone master_tone(const PictureFacts& facts) {
  const std::vector<float> lightness = lightness_values(facts.tone_lightness);
  return {tone_ranges(lightness), ToneBands(lightness, facts.tone.width, facts.tone.height)};
}

void note_tone(const MasterTone& master, const Printed& printed, Variant& variant) {
  const ToneShares shares = tone_kept(master.bands, printed.tone);
  variant.tone_share = shares.all_kept;
  variant.tone_gone = shares.all_gone;
  for (size_t zone = 0; zone < kZones; ++zone) {
    const ToneRange& range = master.ranges[zone];
    variant.tone[zone] = {range.steps, range.steps * shares.kept[zone], shares.kept[zone],
                          shares.gone[zone], range.share};
  }
}

double Losses::score() const {
  return 100 * std::exp(-(colour + gamut + tone + hue + skin + neutral) / 100);
}

Losses losses_of(const Variant& variant, double off_gamut, const PictureFacts& facts,
                 const ScoreWeights& weights) {
  Losses losses;
  losses.colour = weights.mean * variant.picture_mean + weights.p95 * variant.picture_p95;
  losses.gamut = weights.gamut * off_gamut;
  double worst = 0;
  for (const ZoneTone& zone : variant.tone) {
    worst = std::max(worst, (1 - zone.share) * in_proportion(zone.area, weights.zone_area));
  }
  losses.tone = weights.tone * (1 - variant.tone_share) + weights.gone * variant.tone_gone +
                weights.worst_zone * worst;
  if (variant.hue) {
    losses.hue = weights.hue * variant.hue->delta_e *
                 in_proportion(facts.accents.share, weights.accent_area);
  }
  if (variant.skin) {
    losses.skin =
        weights.skin * variant.skin->picture * in_proportion(facts.skin.share, weights.skin_area);
  }
  if (variant.neutral) {
    losses.neutral = weights.neutral * variant.neutral->delta_e *
                     in_proportion(facts.neutrals.share, weights.neutral_area);
  }
  return losses;
}

std::vector<PrintIntent> intents_worth_trying(const Paper& paper) {
  std::vector<PrintIntent> intents{{Intent::relative, true}, {Intent::relative, false}};
  if (paper.own_table[0] && paper.own_table[1]) {
    intents.insert(intents.begin(), {Intent::perceptual, true});
  }
  return intents;
}

Result<Judgement> judge(const Profile& master, const PictureFacts& facts, const MasterTone& tone,
                        const Paper& paper, const ScoreWeights& weights, const Watch& watch) {
  if (facts.nodes.empty() || facts.colour_lightness.empty())
    return Error{"There is no picture to judge."};
  Judgement judgement;
  Judged& judged = judgement.judged;
  judged.paper = paper.name;
  judged.model = paper.model;
  judged.too_dark = too_dark(facts, paper);
  const auto intents = intents_worth_trying(paper);
  std::vector<Printed> prints;
  std::vector<std::vector<Lab>> colours;
  double area = 0;
  for (const PrintIntent print : intents) {
    if (!keep_going(watch, double(prints.size()) / double(intents.size() + 1))) return stopped();
    auto found = printed_colours(master, facts, paper, print);
    if (!found) return found.error();
    colours.push_back(found.take());
    prints.push_back(print_picture(facts, colours.back()));
    Variant& variant = judged.variants.emplace_back();
    variant.print = print;
    note_differences(facts, prints.back(), variant);
    note_samples(facts, prints.back(), variant);
    note_tone(tone, prints.back(), variant);
    if (plain_relative(print)) {
      area = off_gamut_area(prints.back());
      note_off_gamut(facts, prints.back(), judged, judgement.pictures);
    }
  }
  for (size_t i = 0; i < judged.variants.size(); ++i) {
    Variant& variant = judged.variants[i];
    variant.losses = losses_of(variant, area, facts, weights);
    variant.score = variant.losses.score();
    if (variant.score > judged.best().score) judged.best_at = i;
  }
  draw_difference(facts, prints[judged.best_at], judgement.pictures);
  draw_thumbnail(facts, colours[judged.best_at], paper, judgement.pictures);
  put_into_words(judged);
  return judgement;
}

}  // namespace proofleaf
