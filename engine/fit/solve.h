// "Fit for me": the smallest correction found that brings a print back towards its master.
//
// What is made small is
//
//   points lost (rank/judge.h: difference, gamut, tone, hue, skin, neutrals; paper against the
//   uncorrected master) + price (fit_problem.h: each number changed, and how far)
//
// by a pattern search (Hooke and Jeeves, "Direct search solution of numerical and statistical
// problems", J. ACM 8, 1961): each number by itself a step up or down, a leap along the way that
// helped, steps halved where nothing helps, to a quarter. Numbers that help only together would
// never pay for the first of them, so the search first asks a fiftieth of the price, then takes
// back, the least worth first, what is not worth all of it, and steps again at the whole price. The
// search runs in a smaller picture of at most kMostFitPixels; what it finds is taken only where it
// gains in the whole picture of the facts as well.
#pragma once

#include <string>

#include "fit/fit_problem.h"

namespace proofleaf {

inline constexpr uint64_t kMostFitPixels = 40'000;
inline constexpr int kMostTrials = 400;

// The facts of a smaller picture, in which the search is quick. Error: the profile cannot be used.
Result<PictureFacts> fit_facts(const Profile& master, const PictureFacts& facts);

// One search. Values, one to a parameter, all within limits.
struct FitSearch {
  std::vector<double> values;
  double goal = 0;  // points lost + price
  int trials = 0;   // corrections measured
};
// Error: stopped, or a table gives no numbers.
Result<FitSearch> search(const FitProblem& problem, int most_trials, const Watch& watch);

struct Fit {
  Correction correction;  // Correction{} where nothing gains
  Variant before, after;  // over the whole picture of the facts
  int trials = 0;
  std::string sentence;            // what it gains
  std::vector<std::string> worse;  // one sentence to each measure that got worse, if any did
};

// facts: found with the profile `master`. The score after is never below the one before. Error: the
// profiles cannot be joined or used, a table gives no numbers, stopped.
Result<Fit> fit_for_paper(const Profile& master, const PictureFacts& facts, const Paper& paper,
                          PrintIntent print, const ScoreWeights& weights, const Watch& watch);

// A sentence to each measure of `after` that is worse than in `before` by what its last shown
// digit shows, e.g. "Skin drifts 0.3 ΔE00 more."
std::vector<std::string> made_worse(const Variant& before, const Variant& after);

// How a picture fares under any correction and monochrome, measured as above: with the first of the
// two Variants the uncorrected one. Error: as fit_for_paper(), or check()'s.
struct BeforeAfter {
  Variant before, after;
};
Result<BeforeAfter> measure_correction(const Profile& master, const PictureFacts& facts,
                                       const Paper& paper, PrintIntent print,
                                       const Correction& correction, const Monochrome& monochrome,
                                       const ScoreWeights& weights);

}  // namespace proofleaf
