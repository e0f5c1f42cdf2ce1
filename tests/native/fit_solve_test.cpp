// "Fit for me" against brute force, on papers and pictures whose losses are known.
#include <chrono>
#include <random>

#include "fit/solve.h"
#include "rank_papers.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

// Soft shapes of all tones and colours, with texture in the shadows.
TestPicture small_scene() {
  return picture_of("srgb", 48, 36, [](uint32_t x, uint32_t y) {
    const double light = 0.08 + 0.85 * x / 48 + 0.03 * std::sin(0.9 * x) * std::cos(0.7 * y);
    const double hue = 0.17 * y, chroma = 0.18 * light * (1 - 0.7 * light);
    return Pixel{light + chroma * std::cos(hue), light + chroma * std::cos(hue + 2.1),
                 light + chroma * std::cos(hue + 4.2)};
  });
}

FitProblem problem_of(const Profile& master, const PictureFacts& facts, const Paper& paper,
                      PrintIntent print) {
  auto problem = FitProblem::make(master, facts, paper, print, {});
  REQUIRE_MESSAGE(problem.ok(), (problem.ok() ? "" : problem.error().message));
  return problem.take();
}

double goal_of(const FitProblem& problem, std::span<const double> values) {
  auto found = problem.measured(problem.correction(values));
  REQUIRE(found);
  return points_of(found.value().losses) + problem.price(values);
}

// Every point of a grid of `side` values a parameter.
double brute_force(const FitProblem& problem, int side) {
  const auto& parameters = problem.parameters();
  double best = points_of(problem.before().losses);
  int all = 1;
  for (size_t i = 0; i < parameters.size(); ++i) all *= side;
  std::vector<double> values(parameters.size());
  for (int at = 0; at < all; ++at) {
    int rest = at;
    for (size_t i = 0; i < values.size(); ++i, rest /= side) {
      values[i] = parameters[i].limit * (2.0 * (rest % side) / (side - 1) - 1);
    }
    best = std::min(best, goal_of(problem, values));
  }
  return best;
}

constexpr size_t kLast = 1000;  // the last number of a problem, whatever it is: b* of the neutrals

// The fewest points lost that a much denser search of the same numbers finds, whatever its price:
// from several starts, random steps that grow smaller and are taken where they help.
double densely(const FitProblem& problem, uint32_t starts, int trials) {
  const auto& parameters = problem.parameters();
  double best = points_of(problem.before().losses);
  for (uint32_t start = 0; start < starts; ++start) {
    std::mt19937 random(start + 1);
    std::normal_distribution<double> normal;
    std::vector<double> values(parameters.size());
    auto lost = [&](const std::vector<double>& at) {
      auto found = problem.measured(problem.correction(at));
      REQUIRE(found);
      return points_of(found.value().losses);
    };
    if (start > 0) {
      for (size_t i = 0; i < values.size(); ++i) {
        values[i] = std::clamp(normal(random) / 4, -1.0, 1.0) * parameters[i].limit;
      }
    }
    double here = lost(values);
    for (int trial = 0; trial < trials; ++trial) {
      const double scale = 0.4 * std::pow(0.02, double(trial) / trials);
      std::vector<double> to = values;
      for (int change = 0; change < 2; ++change) {
        const size_t i = random() % to.size();
        const double limit = parameters[i].limit;
        to[i] = std::clamp(to[i] + scale * normal(random) * limit, -limit, limit);
      }
      const double there = lost(to);
      if (there >= here) continue;
      here = there;
      values = to;
    }
    best = std::min(best, here);
  }
  return best;
}

// Facts as small as the fit searches in.
PictureFacts small_of(const TestPicture& picture) {
  const PictureFacts facts = facts_of(picture);
  auto small = fit_facts(picture.master, facts);
  REQUIRE(small);
  return small.take();
}

Fit fit_of(const TestPicture& picture, const PictureFacts& facts, const Paper& paper,
           PrintIntent print) {
  auto fit = fit_for_paper(picture.master, facts, paper, print, {}, {});
  REQUIRE_MESSAGE(fit.ok(), (fit.ok() ? "" : fit.error().message));
  return fit.take();
}

}  // namespace

TEST_CASE("fit: a search reaches nine tenths of what brute force finds") {
  const TestPicture picture = small_scene();
  const PictureFacts facts = facts_of(picture);
  enum Number : size_t { shadows, highlights, contrast, dark_point, mid_point, light_point };
  struct Small {
    TestPaper paper;
    bool compensated;
    std::vector<size_t> which;
  };
  for (const Small& small : {Small{{20, 0, 0}, false, {shadows, contrast, dark_point}},
                             Small{{14, 0, 0}, false, {shadows, dark_point}},
                             Small{{8, 0, 6}, true, {mid_point, light_point, kLast}},
                             Small{{25, 0, 4}, false, {dark_point, contrast, kLast}}}) {
    FitProblem problem = problem_of(picture.master, facts, test_paper(small.paper),
                                    {Intent::relative, small.compensated});
    std::vector<size_t> which = small.which;
    for (size_t& one : which) one = std::min(one, problem.parameters().size() - 1);
    problem.keep_only(which);
    const double before = points_of(problem.before().losses);
    auto found = search(problem, kMostTrials, {});
    REQUIRE(found);
    CHECK(found.value().goal == doctest::Approx(goal_of(problem, found.value().values)));
    const double best = brute_force(problem, which.size() == 2 ? 17 : 9);
    MESSAGE("lost " << before << ", by grid " << best << ", by search " << found.value().goal
                    << " in " << found.value().trials << " trials");
    CHECK(best < before);
    CHECK(before - found.value().goal >= 0.9 * (before - best));
  }
}

TEST_CASE("fit: nothing is corrected where nothing gains") {
  const TestPicture picture = small_scene();
  const PictureFacts facts = facts_of(picture);
  const Fit fit = fit_of(picture, facts, space_paper("romm"), {});
  CHECK(fit.correction == Correction{});
  CHECK(fit.after.score == fit.before.score);
  CHECK(fit.worse.empty());
  CHECK(fit.sentence.find("No correction") == 0);
}

TEST_CASE("fit: a paper's cast is taken out again") {
  const TestPicture picture = small_scene();
  const PictureFacts facts = facts_of(picture);
  REQUIRE(facts.neutrals.share > 0.01);
  const Fit fit = fit_of(picture, facts, test_paper({0, 0, 4}), {Intent::relative, false});
  CHECK(fit.correction.neutral[1].b < -2);
  REQUIRE(fit.after.neutral.has_value());
  CHECK(fit.after.neutral->delta_e < 0.5 * fit.before.neutral->delta_e);
}

TEST_CASE("fit: the print before is the ranking's own") {
  const TestPicture picture = small_scene();
  const PictureFacts facts = facts_of(picture);
  const Paper paper = paper_at(kDemo + "papers/owlbrook-pearl.icc");
  const Judged judged = judged_on(picture, facts, paper).judged;
  for (const Variant& variant : judged.variants) {
    const FitProblem problem = problem_of(picture.master, facts, paper, variant.print);
    CHECK(problem.before().score == doctest::Approx(variant.score));
    CHECK(problem.before().mean == variant.mean);
    CHECK(problem.before().tone_share == variant.tone_share);
    CHECK(problem.before().losses.gamut == variant.losses.gamut);
  }
  // A map of the codes is measured as the correction it was made of.
  Correction c;
  c.shadows = 3;
  c.saturation = -10;
  auto measured = measure_correction(picture.master, facts, paper, {}, c, {}, {});
  REQUIRE(measured);
  const FitProblem problem = problem_of(picture.master, facts, paper, {});
  const auto same = problem.measured(c);
  REQUIRE(same);
  CHECK(measured.value().after.mean == doctest::Approx(same.value().mean).epsilon(0.01));
  CHECK(measured.value().before.mean == problem.before().mean);
  // Differences are those of the paper from the uncorrected master: a picture made paler is further
  // away, whatever the paper.
  Correction pale;
  pale.saturation = -60;
  auto paler = measure_correction(picture.master, facts, space_paper("srgb"), {}, pale, {}, {});
  REQUIRE(paler);
  CHECK(paler.value().before.mean < 0.1);
  CHECK(paler.value().after.mean > 3);
}

TEST_CASE("fit: a fit stops when asked") {
  const TestPicture picture = small_scene();
  const PictureFacts facts = facts_of(picture);
  int asked = 0;
  auto fit =
      fit_for_paper(picture.master, facts, test_paper({20, 0, 0}), {}, {}, [&](double share) {
        CHECK(share <= 1);
        return ++asked < 5;
      });
  REQUIRE_FALSE(fit.ok());
  CHECK(asked == 5);
}

TEST_CASE("fit: every measure that got worse has its sentence") {
  Variant before, after;
  before.skin = Variant::Skin{1, 1};
  after.skin = Variant::Skin{1.3, 1.2};
  before.tone[0].kept = 20;
  after.tone[0].kept = 18.5;
  before.mean = 3;
  after.mean = 2;
  before.p95 = 5;
  after.p95 = 5.02;  // does not show
  CHECK(made_worse(before, after) == std::vector<std::string>{"The shadows keep 1.5 steps fewer.",
                                                              "Skin drifts 0.3 ΔE00 more."});
  CHECK(made_worse(before, before).empty());
}

TEST_CASE("fit: over the demo set at least half of what can be had is had, and nothing gets lost") {
  // What can be had: points lost, less the fewest that densely() finds at no price. Over all papers
  // and intents, with three starts of 1500 trials each, the fit had 91 % of it, and half or more in
  // 16 of 24; where it had less, there were 1.8 points or fewer to be had, spread over many numbers
  // that are not worth their price.
  double had = 0, best = 0;
  for (const std::string name : {"saltings.png", "stairwell.png"}) {
    const TestPicture picture = picture_at(kDemo + name);
    const PictureFacts facts = facts_of(picture), small = small_of(picture);
    for (const std::string file : {"quillmoor-cotton-smooth", "owlbrook-pearl"}) {
      const Paper paper = paper_at(kDemo + "papers/" + file + ".icc");
      const auto start = std::chrono::steady_clock::now();
      const Fit fit = fit_of(picture, facts, paper, {});
      const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
      CHECK(fit.after.score >= fit.before.score);
      CHECK(check(fit.correction).ok());
      const FitProblem problem = problem_of(picture.master, small, paper, {});
      const double lost = points_of(problem.before().losses);
      const auto found = problem.measured(fit.correction);
      REQUIRE(found);
      const double one = lost - points_of(found.value().losses),
                   all = lost - densely(problem, 1, 800);
      MESSAGE(name << " on " << file << ": score " << fit.before.score << " to " << fit.after.score
                   << ", " << one << " of " << all << " points had, " << took.count() << " s");
      had += one;
      best += all;
    }
  }
  CHECK(had >= 0.5 * best);
}
