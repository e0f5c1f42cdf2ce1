// Noise that knows how fine a pixel is, and small helpers for painting with it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace proofleaf::demo {

// A well-mixed number in 0..1 for a lattice cell; the same for the same arguments, everywhere.
float lottery(int32_t x, int32_t y, uint32_t seed);

// Gradient noise after K. Perlin, "Improving Noise" (SIGGRAPH 2002; from memory): smooth, about
// -1..1, zero at whole numbers, one feature per unit.
float noise(float x, float y, uint32_t seed);

// Octaves of noise, each twice as fine and `keep` times as strong, about -1..1. `pixel` is the size
// of a pixel in the same units: octaves finer than two pixels fade out, so nothing aliases and a
// larger picture shows finer detail in the same places.
float fractal(float x, float y, float pixel, uint32_t seed, float keep = 0.5f, int most = 14);

inline float clamp01(float v) { return std::clamp(v, 0.0f, 1.0f); }
inline float lerp(float a, float b, float t) { return a + (b - a) * t; }
// 0 below a, 1 above b, smooth between; a > b turns it round.
inline float ease(float a, float b, float v) {
  const float t = clamp01((v - a) / (b - a));
  return t * t * (3.0f - 2.0f * t);
}
inline float bump(float v, float centre, float width) {
  const float u = (v - centre) / width;
  return std::exp(-u * u);
}

}  // namespace proofleaf::demo
