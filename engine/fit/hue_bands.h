// Eight neighbouring bands of CIELAB hue angle that add up to one at every hue.
#pragma once

#include <array>
#include <cstddef>

#include "base/language.h"

namespace proofleaf {

inline constexpr size_t kHueBands = 8;

// Middles by hue angle h_ab [degrees], rising. Where a colour name sits on the circle is this
// project's own choice; no source.
struct HueBandName {
  const char* name;
  double middle;
};
inline constexpr std::array<HueBandName, kHueBands> kHueBandNames{{{phrase("red"), 25},
                                                                   {phrase("orange"), 60},
                                                                   {phrase("yellow"), 95},
                                                                   {phrase("green"), 145},
                                                                   {phrase("cyan"), 200},
                                                                   {phrase("blue"), 270},
                                                                   {phrase("violet"), 310},
                                                                   {phrase("magenta"), 345}}};

// The two bands a hue lies between; second weighs 1 - first_weight.
struct BandsOfHue {
  size_t first = 0, second = 0;
  double first_weight = 1;  // 0..1, a raised cosine between the two middles
};
// a, b: a colour's a* and b*; a neutral has the hue 0.
BandsOfHue bands_of_hue(double a, double b);

// Values of the bands at that hue.
template <class Value>
double at_hue(const BandsOfHue& at, const Value& value) {
  return at.first_weight * value(at.first) + (1 - at.first_weight) * value(at.second);
}

}  // namespace proofleaf
