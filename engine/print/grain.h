// Grain made for the paper: the same look at every size of print, since it is told in millimetres.
//
// White noise that belongs to each place of the print (a hash of its column, row and the seed) is
// passed through a Gaussian, which gives what a granular film shows: fluctuations that fall with
// the diameter of the spot they are measured through (E. W. H. Selwyn, "A theory of graininess",
// Photogr. J. 75, 1935) up to the grain's own size. It is added to the lightness, after sharpening.
#pragma once

#include "print/light.h"
#include "print/ranges.h"
#include "raster/rows.h"

namespace proofleaf::print {

struct Grain {
  bool on = false;
  // 0.02..2: across a grain, between the places where the noise's correlation with its middle has
  // fallen to half. Half of its power lies below kGrainCutOff / size cycles per mm.
  double size_mm = 0.12;
  // 0..10 [L*], root mean square at L* 15, 50 and 85, smooth between. Less near black and white,
  // where one side would be cut off and the mean would move.
  double shadows = 0.8, mids = 1.2, highlights = 0.6;
  uint32_t seed = 1;  // 0..4294967295
};
inline constexpr Range kGrainSizeMm{"size_mm", 0.02, 2, "mm"};
inline constexpr Range kShadows{"shadows", 0, 10, "L*"};
inline constexpr Range kMids{"mids", 0, 10, "L*"};
inline constexpr Range kHighlights{"highlights", 0, 10, "L*"};
inline constexpr Range kSeed{"seed", 0, 4294967295.0, ""};
Status check(const Grain& grain);

// The frequency [cycles per size] at which the noise's power has fallen to half: 2 ln 2 / pi, the
// product of a Gaussian's widths at half height in place and in frequency.
inline constexpr double kGrainCutOff = 0.4413;

// The root mean square [L*] the grain has on a tone of this L*.
double grain_amount(const Grain& grain, double lightness);

// rows: the print's own, in the numbers `light` is of; ppi: theirs on paper, 36..2400. Handed back
// as they are where the grain is off. Holds a few rows for each row a grain is high. Error: a
// setting out of its range.
Result<std::unique_ptr<RowSource>> grained(std::unique_ptr<RowSource> rows, const Light& light,
                                           double ppi, const Grain& grain);

}  // namespace proofleaf::print
