// An invented printer on an invented paper: four inks laid as dots, mixed as spectra.
#pragma once

#include <array>
#include <string>

#include "spectra.h"

namespace proofleaf::demo {

using Inks = std::array<double, 4>;  // coverage of C, M, Y, K, each 0..1

// What makes one paper and printer differ from another. All numbers are invented.
struct Recipe {
  std::string name;       // as shown, also the profile's description
  std::string file_name;  // of the profile
  bool cmyk = false;      // the profile's device space: CMYK, else RGB

  double paper = 0.9;        // reflectance of the bare sheet in the green and red, 0..1
  double warmth = 0;         // reflectance lost towards 400 nm, 0..1
  double rosiness = 0;       // reflectance gained (lost if below 0) around 620 nm
  double brightener = 0;     // light gained around 440 nm from fluorescence, share of reflectance
  double surface = 0.004;    // light returned by the surface above the ink: sets the black
  double strength = 1;       // density of the solid inks against the reference set
  double purity = 1;         // 1: clean absorption bands; lower: wider, greyer ones
  double yule_nielsen = 2;   // n of Yule and Nielsen: light spreading sideways in the sheet
  double dot_gain = 0.1;     // coverage gained by a 50 % dot
  double black_start = 0.4;  // neutral depth at which the black ink begins, 0..1
  double black_cmy = 0.7;    // mean coverage of C, M, Y under full black
  double ink_limit = 4;      // largest sum of the four coverages
};

// Yule-Nielsen modified spectral Neugebauer model (J. A. S. Viggiano, "Modeling the color of
// multi-colored halftones", TAGA 1990; from memory) with Demichel's weights for the 16 overprints.
class InkModel {
 public:
  explicit InkModel(const Recipe& recipe);
  // Tristimulus values of a patch under D50; inks each 0..1.
  Xyz patch(const Inks& inks) const;
  Xyz white() const { return white_; }
  // L*a*b* with the bare paper as white (the ICC's media-relative colorimetry).
  Lab relative(const Inks& inks) const;

 private:
  double gain_, n_;
  std::array<Spectrum, 16> roots_;  // overprint reflectance to the power 1/n; bit 0 is cyan
  Xyz white_;
};

}  // namespace proofleaf::demo
