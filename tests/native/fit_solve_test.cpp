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
  return picture_of("srgb", 96, 72, [](uint32_t x, uint32_t y) {
    const double light = 0.08 + 0.85 * x / 96 + 0.03 * std::sin(0.9 * x) * std::cos(0.7 * y);
    const double hue = 0.09 * y, chroma = 0.18 * light * (1 - 0.7 * light);
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

Fit fit_of(const TestPicture& picture, const PictureFacts& facts, const Paper& paper,
           PrintIntent print) {
  auto fit = fit_for_paper(picture.master, facts, paper, print, {}, {});
  REQUIRE_MESSAGE(fit.ok(), (fit.ok() ? "" : fit.error().message));
  return fit.take();
}

}  // namespace

TEST_CASE("fit: a search reaches what brute force finds") {
  const TestPicture picture = small_scene();
  const PictureFacts facts = facts_of(picture);
  struct Small {
    TestPaper paper;
    bool compensated;
    std::vector<size_t> which;
  };
  for (const Small& small : {Small{{14, 0, 0}, true, {0, 2, 4}}, Small{{14, 0, 0}, false, {0, 3}},
                             Small{{20, 0, 0}, true, {1, 2, 6}}}) {
    FitProblem problem =
        problem_of(picture.master, facts, test_paper(small.paper),
                   {Intent::relative, small.compensated});
    problem.keep_only(small.which);
    const double before = points_of(problem.before().losses);
    auto found = search(problem, kMostTrials, {});
    REQUIRE(found);
    CHECK(found.value().goal == doctest::Approx(goal_of(problem, found.value().values)));
    const double best = brute_force(problem, 17);
    MESSAGE("lost " << before << ", by grid " << best << ", by search " << found.value().goal
                    << " in " << found.value().trials << " trials");
    CHECK(best < before);
    CHECK(before - found.value().goal >= 0.9 * (before - best));
  }
}

TEST_CASE("fit: experiment on the demo set") {
  for (const char* name : {"saltings.png", "stairwell.png"}) {
    const TestPicture picture = picture_at(kDemo + name);
    const PictureFacts facts = facts_of(picture);
    for (const char* file : {"quillmoor-cotton-smooth", "tarnsea-baryta", "owlbrook-pearl", "plainside-office"}) {
      const Paper paper = paper_at(kDemo + "papers/" + file + ".icc");
      for (const PrintIntent print : intents_worth_trying(paper)) {
      const auto start = std::chrono::steady_clock::now();
      const Fit fit = fit_of(picture, facts, paper, print);
      const double seconds =
          std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
      std::string text;
      const Losses&b=fit.before.losses,&a=fit.after.losses;
      for (auto [n,x,y]: {std::tuple{"colour",b.colour,a.colour},{"gamut",b.gamut,a.gamut},{"tone",b.tone,a.tone},{"hue",b.hue,a.hue},{"skin",b.skin,a.skin},{"neutral",b.neutral,a.neutral}}) text += std::string(n)+" "+std::to_string(x)+"->"+std::to_string(y)+" ";
      const Correction& c=fit.correction;
      text += "\n sh "+std::to_string(c.shadows)+" hi "+std::to_string(c.highlights)+" con "+std::to_string(c.contrast)+" sat "+std::to_string(c.saturation);
      for (auto& p: c.curve) text += " pt "+std::to_string(p.in)+":"+std::to_string(p.out);
      for (size_t i=0;i<8;++i) text += std::string(" ")+kHueBandNames[i].name+" "+std::to_string(c.bands[i].chroma);
      text += " a "+std::to_string(c.neutral[1].a)+" b "+std::to_string(c.neutral[1].b)+"\n";
      for (auto& w: fit.worse) text += "  "+w+"\n";
      MESSAGE(name << " " << file << " " << int(print.intent) << print.black_point_compensation << ": " << points_of(b) << " -> " << points_of(a) << ", " << fit.trials << " trials, " << seconds << " s\n" << text);
      }
    }
  }
}
