// The paper card: what a profile says of its paper, in numbers. Lightness, densities and the gamut
// are absolute (the paper's own white as measured); ramps, cast and round trip are relative to it.
#pragma once

#include "base/watch.h"
#include "paper/gamut.h"

namespace proofleaf {

// Steps of L* along 256 greys from white to black.
struct Ramp {
  uint32_t steps = 0;           // greys looked at
  uint32_t reversals = 0;       // a darker grey prints lighter than the one before, by over 0.05 L*
  double largest_reversal = 0;  // [L*]
  uint32_t jumps = 0;           // steps down of more than 1 L*, about one just noticeable step
  double largest_step = 0;      // [L*]
};

// B2A then A2B, the way there and back, in CIEDE2000.
struct RoundTrip {
  double mean = 0, p95 = 0, max = 0;
  uint32_t colours = 0;  // how many were tried
};

struct PaperCard {
  // ISO 5-3 visual density, D = -log10 Y. Approximation: Y is that of the profile's L*a*b* (CIE
  // 1931 observer under D50), not of the standard's own lamp and receiver.
  double white_density = 0, black_density = 0;
  double density_range = 0;   // black less white
  double contrast_ratio = 1;  // luminance of white to that of black
  double gamut_volume = 0;    // cubic dE*ab, see gamut_volume()
  GamutMesh gamut;
  Lab cast;  // the printed grey furthest from neutral, media-relative; its L* says where
  double cast_chroma = 0;  // C* of it
  Ramp printed_ramp;       // neutrals asked for by the relative colorimetric table
  Ramp device_ramp;        // equal R, G, B; the black ink of CMYK; the one channel of grey
  RoundTrip round_trip;
  std::vector<std::string> faults;  // plain sentences; empty where nothing was found
};

// CIE 15:2018 8.2.1 and ISO 5-3: -log10 of the luminance factor of an L* 0..100. An L* below 0.01
// is taken for 0.01, so that the answer is finite.
double density_of_lightness(double l);

// Round trip: colours of the device on an even grid away from its ends (CMYK: black up to half,
// within 95 % of the ink limit), so that they lie inside the gamut. Error: stopped, or tables
// that give no numbers.
Result<PaperCard> read_card(const Paper& paper, const Watch& watch);

// Plain sentences about what is wrong in the profile itself; the card's numbers must stand.
std::vector<std::string> find_faults(const Paper& paper, const PaperCard& card);

}  // namespace proofleaf
