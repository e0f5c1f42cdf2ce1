// How a piece of a print looks to an eye at reading distance, and at its true size on a screen.
//
// The eye's contrast sensitivity is that of J. L. Mannos and D. J. Sakrison, "The effects of a
// visual fidelity criterion on the encoding of images", IEEE Trans. Inf. Theory 20 (1974), from
// memory:
//
//   A(f) = 2.6 (0.0192 + 0.114 f) exp(-(0.114 f)^1.1)        f in cycles per degree
//
// It is greatest just below 8 cycles per degree. The eye adapts to what is coarser than that, so
// only what is finer is taken away here: by A(f) / A(peak). The curve is luminance's and is used
// for all three channels; fine colour alone is seen less still.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/result.h"

namespace proofleaf::print {

inline constexpr double kPeakSensitivity = 7.891;  // [cycles per degree], where A has no slope
inline constexpr uint32_t kLargestSeen = 1024;     // [pixels] a side

// A(f). cycles_per_degree: 0 or more.
double contrast_sensitivity(double cycles_per_degree);
// What is left of a wave of that frequency, 0..1.
double share_seen(double cycles_per_degree);
// Pixels of a print that lie within one degree, straight ahead: distance * tan(1 degree) * ppi.
// ppi: pixels per inch, above 0; distance_mm: above 0.
double pixels_per_degree(double ppi, double distance_mm);

// A piece as it is seen from that distance. light: linear, three channels a pixel, row by row.
// Past its edges the piece goes on mirrored. Error: a side of 0 or above kLargestSeen, a length
// that does not fit, a ppi or a distance of 0 or less.
Result<std::vector<float>> seen_from(std::span<const float> light, uint32_t width, uint32_t height,
                                     double ppi, double distance_mm);

// The same piece on other pixels: each is the mean of what lies under it. light: as above; to_*: 1
// or more. Error: as above.
Result<std::vector<float>> on_pixels(std::span<const float> light, uint32_t width, uint32_t height,
                                     uint32_t to_width, uint32_t to_height);

}  // namespace proofleaf::print
