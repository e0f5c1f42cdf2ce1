// From the colour a paper gives to the colour a screen shows: proof maths in XYZ, D50.
#pragma once

#include <array>

#include "proof/chain.h"

namespace proofleaf {

// Linear light to code by the curve of IEC 61966-2-1, mirrored below zero, and back. All screens
// here have that curve.
double srgb_encode(double linear);
double srgb_decode(double encoded);

// How a paper's media-relative colours are shown. White: ICC absolute scaling by the media white
// (ICC.1:2022 6.3.2.2). Black: the linear XYZ scaling of ISO 18619 from the paper's black to none.
class View {
 public:
  // black: the media-relative XYZ of the paper's darkest neutral; white: its absolute white.
  View(const ProofView& view, const XYZ& white, const XYZ& black);
  // Media-relative XYZ on the paper -> XYZ as shown, D50.
  XYZ shown(const XYZ& on_paper) const;

 private:
  std::array<double, 3> scale_{}, offset_{};
};

// A matrix-and-curve screen, from the standard space's own profile.
class ScreenEncoder {
 public:
  static Result<ScreenEncoder> make(Screen screen);
  // sRGB from numbers instead, where LittleCMS is not at hand: the primaries of IEC 61966-2-1
  // brought to D50 by the Bradford matrix of ICC.1:2022 annex E (values from memory).
  static ScreenEncoder srgb();
  // XYZ D50 -> encoded RGB, may pass 0..1. Curve: IEC 61966-2-1, mirrored below zero.
  std::array<double, 3> encode(const XYZ& xyz) const;
  // Encoded RGB 0..1 -> XYZ D50.
  XYZ decode(const std::array<double, 3>& rgb) const;

 private:
  std::array<std::array<double, 3>, 3> to_rgb_{}, to_xyz_{};
};

}  // namespace proofleaf
