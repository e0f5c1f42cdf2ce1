// Colours to paint with: linear light in the ROMM RGB primaries.
#pragma once

#include <array>

#include "base/bytes.h"

namespace proofleaf::demo {

struct Light {
  float r = 0, g = 0, b = 0;  // linear, 1 is the brightest white the picture holds

  Light operator+(const Light& o) const { return {r + o.r, g + o.g, b + o.b}; }
  Light operator*(float k) const { return {r * k, g * k, b * k}; }
  Light operator*(const Light& o) const { return {r * o.r, g * o.g, b * o.b}; }
};
inline Light blend(const Light& under, const Light& over, float cover) {
  return under * (1.0f - cover) + over * cover;
}

// A colour by CIE lightness, chroma and hue angle [degrees] under D50.
Light lch(double lightness, double chroma, double hue);

// ISO 22028-2 ROMM RGB encoding of one linear component, 0..1 in and out: gamma 1.8 with a straight
// foot below 1/512. Values outside are cut.
float romm_encode(float linear);

// ICC profiles for the scenes, with a fixed date: ROMM RGB, and grey with gamma 2.2.
// Error: the profile library refused a step.
Result<Bytes> romm_profile();
Result<Bytes> grey_profile();

}  // namespace proofleaf::demo
