// Sharpening for the paper, at the print's own scale.
//
// A high-pass, the lightness less its Gaussian mean, is added to the lightness:
//
//   L' = L + amount * class * detail * core(detail) * mask
//
// core leaves out details below the threshold, mask those parts whose details are small all round,
// both softly. L' never leaves what L* is around it by more than the halo bound. Only lightness
// changes: a pixel's linear light is scaled, so that no coloured fringes arise.
#pragma once

#include "print/light.h"
#include "print/ranges.h"
#include "raster/rows.h"

namespace proofleaf::print {

// Surfaces by their names of general use. Matte papers and canvas spread ink and light and swallow
// fine contrast, so that they bear and need more; factors below are common practice, no source.
enum class PaperClass { gloss, baryta, matte, canvas };

struct Sharpening {
  bool on = true;
  double amount = 0.8;  // 0..3, share of the detail that is added, on gloss
  double radius_mm =
      0.17;  // 0.02..1, of the Gaussian; two pixels at 300 ppi (common practice, no source)
  double threshold = 0.3;  // 0..10 [L*], half of a detail of this size is left out
  double mask = 0.8;       // 0..10 [L*], parts whose details are smaller than this stay as they are
  double halo = 4;         // 0..20 [L*], beyond the lightest and darkest around
};
inline constexpr Range kAmount{"amount", 0, 3, ""};
inline constexpr Range kRadiusMm{"radius_mm", 0.02, 1, "mm"};
inline constexpr Range kThreshold{"threshold", 0, 10, "L*"};
inline constexpr Range kMask{"mask", 0, 10, "L*"};
inline constexpr Range kHalo{"halo", 0, 20, "L*"};
Status check(const Sharpening& sharpening);

// Two pixels of the print (common practice, no source), within the radius' range [mm].
double usual_radius_mm(double ppi);

// Gloss 1, baryta 1.15, matte 1.5, canvas 1.8.
double paper_factor(PaperClass paper);

// The mask [0..1] of a part whose details have a given root mean square [L*]: 0 up to the setting,
// 1 from 2.5 times of it, smooth between.
float mask_of(float rms, float setting);

// rows: three channels in the numbers `light` is of; ppi: theirs on paper, 36..2400. Handed back as
// they are where nothing is to be done. Holds about 9 standard deviations' worth of rows of
// lightness and as many of the picture. Error: a setting out of its range.
Result<std::unique_ptr<RowSource>> sharpened(std::unique_ptr<RowSource> rows, const Light& light,
                                             double ppi, const Sharpening& sharpening,
                                             PaperClass paper);

}  // namespace proofleaf::print
