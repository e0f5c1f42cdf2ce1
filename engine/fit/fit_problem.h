// What a correction brings and costs: a picture on one paper, printed one way, measured as the
// ranking measures it (rank/judge.h). Every comparison is between the paper and the uncorrected
// master.
#pragma once

#include <memory>

#include "fit/monochrome.h"
#include "rank/judge.h"

namespace proofleaf {

// One number of a correction that the fit may change.
struct FitParameter {
  double limit = 0;  // -limit..limit, in the correction's own units
  double step = 0;   // the first step tried; what counts as one step of size
  void (*set)(Correction& correction, size_t which, double value) = nullptr;
  size_t which = 0;  // band or point
};

// The price of a correction, in the score's points, so that the smallest set of changes wins. This
// project's own judgement, no source.
inline constexpr double kPricePerChange = 0.15;  // of each number that is not 0
inline constexpr double kPricePerStep = 0.03;    // of each step it stands from 0

class FitProblem {
 public:
  // facts: kept by the caller while the problem is in use. Error: the profiles cannot be joined, a
  // table gives no numbers, facts of no picture.
  static Result<FitProblem> make(const Profile& master, const PictureFacts& facts,
                                 const Paper& paper, PrintIntent print,
                                 const ScoreWeights& weights);
  FitProblem(FitProblem&&) noexcept;
  FitProblem& operator=(FitProblem&&) noexcept;
  ~FitProblem();

  // Shadows, highlights, contrast, the curve at L* 25, 50 and 75, saturation; the chroma of each
  // band of hue with 5 % or more of the picture in it; where 1 % or more is neutral, a* and b* of
  // the neutrals, all tones alike.
  const std::vector<FitParameter>& parameters() const;
  // Leaves only these of them, by number.
  void keep_only(std::span<const size_t> which);
  // values: one to a parameter, within their limits.
  Correction correction(std::span<const double> values) const;
  double price(std::span<const double> values) const;

  // The uncorrected print.
  const Variant& before() const;
  // A corrected print. losses.gamut is the uncorrected one's, and more where the correction pushes
  // more of the picture beyond the gamut. Error: a table gives no numbers.
  Result<Variant> measured(const Correction& correction) const;
  // The same of any map of the master's codes.
  Result<Variant> measured(const ColourMap& map) const;

 private:
  struct Parts;
  explicit FitProblem(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

// All of a variant's points; less is better.
double points_of(const Losses& losses);

}  // namespace proofleaf
