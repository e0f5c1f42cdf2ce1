#include "noise.h"

#include <array>

namespace proofleaf::demo {
namespace {

uint32_t scramble(int32_t x, int32_t y, uint32_t seed) {
  uint32_t h = seed * 0x9E3779B9u ^ static_cast<uint32_t>(x) * 0x85EBCA6Bu ^
               static_cast<uint32_t>(y) * 0xC2B2AE35u;
  h ^= h >> 15;
  h *= 0x2C1B3C6Du;
  h ^= h >> 12;
  h *= 0x297A2D39u;
  return h ^ h >> 15;
}

float slope(uint32_t h, float x, float y) {
  static constexpr std::array<std::array<float, 2>, 8> directions{{{1, 0},
                                                                   {0.7071f, 0.7071f},
                                                                   {0, 1},
                                                                   {-0.7071f, 0.7071f},
                                                                   {-1, 0},
                                                                   {-0.7071f, -0.7071f},
                                                                   {0, -1},
                                                                   {0.7071f, -0.7071f}}};
  const auto& d = directions[h >> 13 & 7u];
  return d[0] * x + d[1] * y;
}

float fade(float t) { return t * t * t * (t * (t * 6.0f - 15.0f) + 10.0f); }

}  // namespace

float lottery(int32_t x, int32_t y, uint32_t seed) {
  return static_cast<float>(scramble(x, y, seed) >> 8) / 16777215.0f;
}

float noise(float x, float y, uint32_t seed) {
  const float fx = std::floor(x), fy = std::floor(y);
  const auto ix = static_cast<int32_t>(fx), iy = static_cast<int32_t>(fy);
  const float u = x - fx, v = y - fy;
  const float a = slope(scramble(ix, iy, seed), u, v);
  const float b = slope(scramble(ix + 1, iy, seed), u - 1, v);
  const float c = slope(scramble(ix, iy + 1, seed), u, v - 1);
  const float d = slope(scramble(ix + 1, iy + 1, seed), u - 1, v - 1);
  const float s = fade(u), t = fade(v);
  return 1.4f * lerp(lerp(a, b, s), lerp(c, d, s), t);
}

float fractal(float x, float y, float pixel, uint32_t seed, float keep, int most) {
  float sum = 0, strength = 1, whole = 0;
  for (int i = 0; i < most; ++i) {
    const float visible = clamp01(2.0f - 4.0f * pixel);  // full at 4 pixels a feature, none at 2
    if (visible > 0)
      sum += strength * visible * noise(x, y, seed + static_cast<uint32_t>(i) * 101u);
    whole += strength;
    // Turned a little at each octave, so that the lattices do not line up.
    const float nx = 1.6f * x - 1.2f * y, ny = 1.2f * x + 1.6f * y;
    x = nx + 17.3f;
    y = ny - 9.1f;
    pixel *= 2.0f;
    strength *= keep;
    if (pixel >= 0.5f || strength < 0.015f) break;
  }
  return sum / std::sqrt(whole);
}

}  // namespace proofleaf::demo
