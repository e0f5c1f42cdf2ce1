#include "fit/solve.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "raster/picture_rows.h"

namespace proofleaf {
namespace {

constexpr double kSmallestStep = 0.25;  // of the first
constexpr double kGain = 0.002;         // [points] what counts as one
constexpr double kFirstPrice = 0.02;    // share of the price asked at first

class Search {
 public:
  Search(const FitProblem& problem, int most, const Watch& watch)
      : problem_(problem), most_(most), watch_(watch), values_(problem.parameters().size()) {
    goal_ = lost_ = points_of(problem.before().losses);
    // Ways up and down that are tried first: the one that helped last.
    sign_.assign(values_.size(), 1);
  }

  Result<FitSearch> run() {
    asked_ = kFirstPrice;
    limit_ = most_ * 3 / 4;
    step_on(1);
    asked_ = 1;
    limit_ = most_;
    goal_ = lost_ + problem_.price(values_);
    take_back();
    step_on(0.5);
    take_back();
    if (error_) return *error_;
    return FitSearch{values_, goal_, trials_};
  }

 private:
  bool over() const { return error_ || trials_ >= limit_; }

  // Steps of this share of the first, and smaller ones, until none helps.
  void step_on(double share) {
    while (share >= kSmallestStep && !over()) {
      const std::vector<double> start = values_;
      if (pass(share)) {
        leap(start);
      } else {
        share /= 2;
      }
    }
  }

  // One step of each number; true where something was gained.
  bool pass(double share) {
    bool gained = false;
    for (size_t i = 0; i < values_.size() && !over(); ++i) {
      const double step = problem_.parameters()[i].step * share;
      if (moved(i, sign_[i] * step)) {
        gained = true;
      } else if (moved(i, -sign_[i] * step)) {
        gained = true;
        sign_[i] = -sign_[i];
      }
    }
    return gained;
  }

  bool moved(size_t i, double by) {
    std::vector<double> to = values_;
    const double limit = problem_.parameters()[i].limit;
    to[i] = std::clamp(to[i] + by, -limit, limit);
    return try_out(to);
  }

  // Once more all that a pass has changed.
  void leap(const std::vector<double>& start) {
    std::vector<double> to = values_;
    int changed = 0;
    for (size_t i = 0; i < to.size(); ++i) {
      const double limit = problem_.parameters()[i].limit;
      changed += values_[i] != start[i];
      to[i] = std::clamp(2 * values_[i] - start[i], -limit, limit);
    }
    if (changed > 1) try_out(to);
  }

  // The change that is least worth its price, as long as there is one that is not worth it.
  void take_back() {
    for (bool found = true; found && !over();) {
      found = false;
      std::vector<double> best = values_;
      double lowest = goal_, lost = lost_;
      for (size_t i = 0; i < values_.size() && !over(); ++i) {
        if (values_[i] == 0) continue;
        std::vector<double> to = values_;
        to[i] = 0;
        const auto trial = tried(to);
        if (!trial || trial->goal > lowest) continue;
        lowest = trial->goal;
        lost = trial->lost;
        best = to;
        found = true;
      }
      if (found) take(best, {lost, lowest});
    }
  }

  struct Trial {
    double lost, goal;
  };
  std::optional<Trial> tried(const std::vector<double>& to) {
    ++trials_;
    if (!keep_going(watch_, double(trials_) / most_)) error_ = stopped();
    if (error_) return std::nullopt;
    auto found = problem_.measured(problem_.correction(to));
    if (!found) {
      error_ = found.error();
      return std::nullopt;
    }
    const double lost = points_of(found.value().losses);
    return Trial{lost, lost + asked_ * problem_.price(to)};
  }
  void take(const std::vector<double>& to, const Trial& trial) {
    values_ = to;
    lost_ = trial.lost;
    goal_ = trial.goal;
  }
  bool try_out(const std::vector<double>& to) {
    if (over() || to == values_) return false;
    const auto trial = tried(to);
    if (!trial || trial->goal > goal_ - kGain) return false;
    take(to, *trial);
    return true;
  }

  const FitProblem& problem_;
  int most_;
  const Watch& watch_;
  std::vector<double> values_, sign_;
  double asked_ = 1;  // share of the price
  double lost_ = 0, goal_ = 0;
  int trials_ = 0, limit_ = 0;
  std::optional<Error> error_;
};

}  // namespace

Result<PictureFacts> fit_facts(const Profile& master, const PictureFacts& facts) {
  const Picture& tone = facts.tone;
  PictureRows rows(tone.rgb, tone.width, tone.height);
  auto small = shrink(rows, shrink_factor(tone.width, tone.height, kMostFitPixels), {});
  if (!small) return small.error();
  return find_facts(master, small.value().rgb, small.value().width, small.value().height, {});
}

Result<FitSearch> search(const FitProblem& problem, int most_trials, const Watch& watch) {
  return Search(problem, most_trials, watch).run();
}

Result<Fit> fit_for_paper(const Profile& master, const PictureFacts& facts, const Paper& paper,
                          PrintIntent print, const ScoreWeights& weights, const Watch& watch) {
  auto whole = FitProblem::make(master, facts, paper, print, weights);
  if (!whole) return whole.error();
  auto smaller = fit_facts(master, facts);
  if (!smaller) return smaller.error();
  auto problem = FitProblem::make(master, smaller.value(), paper, print, weights);
  if (!problem) return problem.error();
  auto found = search(problem.value(), kMostTrials, watch);
  if (!found) return found.error();
  Fit fit;
  fit.before = fit.after = whole.value().before();
  fit.trials = found.value().trials;
  std::vector<double> values = found.value().values;
  const auto& parameters = problem.value().parameters();
  // What helps the small picture a little may hurt the whole one: half of it may still help.
  for (int halving = 0; halving < 3 && problem.value().price(values) > 0; ++halving) {
    const Correction correction = problem.value().correction(values);
    auto after = whole.value().measured(correction);
    if (!after) return after.error();
    const double goal = points_of(after.value().losses) + problem.value().price(values);
    if (goal < points_of(fit.before.losses)) {
      fit.correction = correction;
      fit.after = after.take();
      break;
    }
    for (size_t i = 0; i < values.size(); ++i) {
      const double grain = parameters[i].step / 8;
      values[i] = std::round(values[i] / 2 / grain) * grain;
    }
  }
  fit.worse = made_worse(fit.before, fit.after);
  fit.sentence = fit.correction == Correction{}
                     ? said("No correction brings this print closer to the master than it is.")
                     : said("The score rises from {} to {}.", spoken_number(fit.before.score, 1),
                            spoken_number(fit.after.score, 1));
  return fit;
}

std::vector<std::string> made_worse(const Variant& before, const Variant& after) {
  std::vector<std::string> worse;
  // The sentence where `more` shows in the last of so many decimals.
  const auto note = [&](double more, int decimals, const char* sentence) {
    const std::string text = spoken_number(more, decimals);
    if (more <= 0 || text.find_first_not_of("0.,") == std::string::npos) return false;
    worse.push_back(said(sentence, text));
    return true;
  };
  const bool mean =
      note(after.mean - before.mean, 1, phrase("The picture as a whole drifts {} ΔE00 more."));
  if (!mean) {
    note(after.picture_mean - before.picture_mean, 1,
         phrase("The picture as a whole looks {} ΔE00 further off, lightness counting half."));
  }
  const bool p95 =
      note(after.p95 - before.p95, 1, phrase("The 95th percentile drifts {} ΔE00 more."));
  if (!p95) {
    note(after.picture_p95 - before.picture_p95, 1,
         phrase("The 95th percentile looks {} ΔE00 further off, lightness counting half."));
  }
  note(after.max - before.max, 1, phrase("The worst place drifts {} ΔE00 more."));
  constexpr std::array<const char*, kZones> kKept{phrase("The shadows keep {} steps fewer."),
                                                  phrase("The midtones keep {} steps fewer."),
                                                  phrase("The highlights keep {} steps fewer.")};
  constexpr std::array<const char*, kZones> kClosed{
      phrase("Of the detail in the shadows {} % more closes up."),
      phrase("Of the detail in the midtones {} % more closes up."),
      phrase("Of the detail in the highlights {} % more closes up.")};
  for (size_t zone = 0; zone < kZones; ++zone) {
    note(before.tone[zone].kept - after.tone[zone].kept, 1, kKept[zone]);
    note(100 * (after.tone[zone].gone - before.tone[zone].gone), 1, kClosed[zone]);
  }
  note(100 * (before.tone_share - after.tone_share), 1,
       phrase("Of the local contrast {} % less is kept."));
  note(100 * (after.tone_gone - before.tone_gone), 1, phrase("Of all detail {} % more closes up."));
  if (before.hue && after.hue) {
    note(after.hue->mean - before.hue->mean, 1, phrase("The hue of the accents turns {}° more."));
    note(after.hue->max - before.hue->max, 0,
         phrase("The hue of the worst accent turns {}° more."));
  }
  if (before.skin && after.skin) {
    note(after.skin->delta_e - before.skin->delta_e, 1, phrase("Skin drifts {} ΔE00 more."));
  }
  if (before.neutral && after.neutral) {
    note(after.neutral->delta_e - before.neutral->delta_e, 1,
         phrase("Neutrals drift {} ΔE00 more."));
  }
  note(after.losses.gamut - before.losses.gamut, 1,
       phrase("Colours pushed beyond the gamut cost {} points more."));
  return worse;
}

Result<BeforeAfter> measure_correction(const Profile& master, const PictureFacts& facts,
                                       const Paper& paper, PrintIntent print,
                                       const Correction& correction, const Monochrome& monochrome,
                                       const ScoreWeights& weights) {
  auto map = correction_map(master, correction, monochrome);
  if (!map) return map.error();
  auto problem = FitProblem::make(master, facts, paper, print, weights);
  if (!problem) return problem.error();
  auto after = problem.value().measured(*map.value());
  if (!after) return after.error();
  return BeforeAfter{problem.value().before(), after.take()};
}

}  // namespace proofleaf
