// How a screen's channel answers to its codes, found from comparisons by eye.
//
//   code   0..1, as drawn (8-bit code / 255)
//   light  0..1 of the channel's full light, with the screen's black taken off
//
// The proof is drawn for the curve of IEC 61966-2-1, S(code). A screen's own curve is kept as an
// exponent laid over it, light = S(code)^k(code): k = 1 is a screen just as the proof takes it for.
#pragma once

#include <array>

#include "base/result.h"
#include "screen/plan.h"

namespace proofleaf::screen {

// Solids found equal to the patterns of kTonePlan, codes 1..254; 0: not answered.
using ToneAnswers = std::array<int, kToneSteps>;

// The 8-bit code that gives that light, 0..1, by IEC 61966-2-1.
int standard_code(double light);

bool all_answered(const ToneAnswers& answers);

class Response {
 public:
  // As the standard says, known from nothing.
  Response() = default;
  // Error: an answer is missing, or they contradict each other (more light wants a higher code), or
  // they ask for an exponent no screen has.
  static Result<Response> from(const ToneAnswers& answers);

  // The e in light = code^e that fits the answers best, and its standard deviation. 0 where there
  // are none.
  double exponent() const { return exponent_; }
  double uncertainty() const { return uncertainty_; }
  // Whether the answers are those of one k, within what an eye can tell.
  bool one_curve() const { return one_curve_; }

  double light(double code) const;
  // The code S would need for that light: what the screen shows in place of `code`, 0..1 each.
  double shown(double code) const;

 private:
  struct Knot {
    double code = 0, k = 1;
  };
  double k_at(double code) const;

  std::array<Knot, kToneSteps> knots_{};  // rising; below the first, k falls back to 1 at black
  double exponent_ = 0, uncertainty_ = 0;
  bool one_curve_ = true, known_ = false;
};

}  // namespace proofleaf::screen
