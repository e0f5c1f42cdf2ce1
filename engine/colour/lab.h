// CIE colour values and the difference a person sees between two of them.
//
//   XYZ  relative to D50, Y = 1 for the perfect white (ICC.1:2022, PCS white 0.9642 1.0000 0.8249)
//   Lab  CIE 1976 L*a*b* under D50: L* 0..100 for real surfaces, a* b* about -128..127
#pragma once

#include <array>

namespace proofleaf {

struct XYZ {
  double x = 0, y = 0, z = 0;
};

struct Lab {
  double l = 0, a = 0, b = 0;
};

// The PCS illuminant, ICC.1:2022 clause 7.2.16.
inline constexpr XYZ kD50{0.9642, 1.0, 0.8249};

// CIE 15:2018 8.2.1; any finite value in, the linear piece goes on below zero.
Lab lab_from_xyz(const XYZ& xyz, const XYZ& white = kD50);
XYZ xyz_from_lab(const Lab& lab, const XYZ& white = kD50);

// CIEDE2000 with kL = kC = kH = 1; 0 for equal colours, about 1 for just noticeable.
// Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula", Color Res. Appl. 30 (2005).
double delta_e_2000(const Lab& one, const Lab& two);

}  // namespace proofleaf
