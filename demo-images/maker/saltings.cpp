#include "saltings.h"

#include "noise.h"

namespace proofleaf::demo {
namespace {

// How the ground lies under a place below the horizon.
struct Ground {
  float near;    // 0 at the horizon, 1 at the picture's foot
  float scale;   // picture units per unit of ground: small far away
  float gx, gz;  // on the ground, one unit is about the width of the creek's mouth
  float pixel;   // the coarser side of a pixel on the ground
};

Ground ground_at(const Place& at) {
  Ground g{};
  g.near = clamp01((at.y - kHorizon) / (1.0f - kHorizon));
  g.scale = g.near + 0.012f;
  g.gx = (at.x - 0.667f) / g.scale;
  g.gz = 1.0f / g.scale;
  g.pixel = at.pixel / g.scale * std::max(1.0f, 0.35f / g.scale);
  return g;
}

// Signed distance to the water's edge in ground units, above 0 on the water.
float creek(const Place& at, const Ground& g) {
  const float s = g.near;
  const float middle =
      0.80f + 0.19f * std::sin(7.4f * std::sqrt(s) + 0.4f) * std::sqrt(s) - 0.07f * s;
  const float half = 0.035f + 0.40f * std::pow(s, 1.15f) + 0.9f * bump(s, 0.0f, 0.075f) +
                     0.10f * bump(s, 0.38f, 0.12f);
  const float ragged = 0.16f * fractal(g.gx * 1.6f, g.gz * 2.6f, g.pixel * 2.6f, 121, 0.55f);
  return (half - std::fabs(at.x - middle)) / g.scale + ragged;
}

// Standing growth: noise `tall` times as high as wide, `many` to the picture's height at its foot,
// at two sizes a factor of two apart that fade into each other, so that it stays upright while it
// shrinks with distance. About -1..1.
float growth(const Place& at, const Ground& g, float many, float tall, uint32_t kind) {
  const float octave = std::log2(many / (0.06f + g.near)), whole = std::floor(octave);
  const float sway = 0.010f * noise(at.x * 14.0f, at.y * 26.0f, kind) * (0.2f + g.near);
  float sum = 0;
  for (int k = 0; k < 2; ++k) {
    const float part = k == 0 ? 1.0f - (octave - whole) : octave - whole;
    float f = std::exp2(whole + static_cast<float>(k)), strength = 1;
    const auto seed = kind + static_cast<uint32_t>(10 * (static_cast<int>(whole) + k));
    for (uint32_t i = 0; i < 5 && at.pixel * f < 0.5f; ++i, f *= 2.1f, strength *= 0.7f)
      sum += part * strength * clamp01(2.0f - 4.0f * at.pixel * f) *
             noise((at.x + sway) * f, at.y * f / tall + 0.37f * static_cast<float>(i), seed + i);
  }
  return sum;
}

Light marsh(const Place& at, const Ground& g, float shore) {
  static const Light gold = lch(64, 54, 82), olive = lch(31, 27, 112), green = lch(43, 40, 116),
                     rust = lch(36, 44, 46), lavender = lch(48, 34, 315), mud = lch(20, 12, 62),
                     wet = lch(52, 26, 52), shade = lch(9, 8, 120);
  const float broad = fractal(g.gx * 0.9f, g.gz * 1.3f, g.pixel * 1.3f, 131, 0.55f);
  const float tuft = growth(at, g, 15.0f, 0.75f, 1400);
  const float blade = growth(at, g, 70.0f, 3.2f, 1000);
  Light c = blend(olive, green, ease(-0.4f, 0.6f, tuft + 0.3f * broad));
  c = blend(c, gold,
            ease(-0.35f, 0.9f, broad + 0.6f * tuft + 0.5f * blade) * (0.95f - 0.35f * g.near));
  c = blend(
      c, rust,
      0.65f * ease(0.15f, 0.7f, fractal(g.gx * 1.7f + 9.0f, g.gz * 2.0f, g.pixel * 2.0f, 161)));
  c = blend(
      c, lavender,
      0.55f * ease(0.2f, 0.75f,
                   fractal(g.gx * 2.3f - 4.0f, g.gz * 2.6f, g.pixel * 2.6f, 171) + 0.25f * tuft));
  const float dark = ease(0.15f, -0.75f, 0.7f * blade + 0.8f * tuft);
  c = blend(c, shade, clamp01(dark * (0.45f + 0.45f * g.near)));
  // Low light rakes across: tops bright towards the sun, the near bank mostly in shadow.
  const float rake = std::exp(-std::fabs(at.x - kSunX) / 0.55f);
  c = c * (0.62f + 0.75f * rake * (1.0f - 0.6f * g.near) + 0.30f * std::max(0.0f, tuft));
  c = c * lerp(1.0f, 0.40f, ease(0.35f, 1.0f, g.near));
  // The bank: mud with a wet gleam just above the water.
  const float edge = ease(-0.22f, -0.02f, shore + 0.05f * tuft);
  const float clod = fractal(g.gx * 13.0f, g.gz * 17.0f, g.pixel * 17.0f, 175, 0.7f);
  const float gleam =
      ease(0.15f, 0.8f, clod + 0.5f * ease(-0.07f, 0.0f, shore)) * (0.25f + 0.5f * rake);
  c = blend(c, blend(mud * (1.0f + 0.5f * clod), wet, gleam) * lerp(0.9f, 0.6f, g.near), edge);
  // Haze lies over the far flats.
  static const Light cold = lch(63, 20, 335), warm = lch(87, 40, 70);
  const float mist = 0.80f * std::exp(-g.near / 0.07f);
  return blend(c, blend(cold, warm, clamp01(1.3f * rake * rake)), mist);
}

Light water(const Place& at, const Ground& g, float shore) {
  static const Light deep = lch(20, 24, 235), clear = lch(60, 52, 190), sand = lch(66, 30, 84),
                     glint = lch(98, 20, 86), warm = lch(88, 60, 74);
  // Ripples: long across, short towards us, finer with distance.
  const float calm =
      0.35f + 0.65f * ease(-0.3f, 0.5f, fractal(g.gx * 0.8f, g.gz * 1.1f, g.pixel * 1.1f, 181));
  const float wave =
      fractal(at.x * 7.0f / (0.15f + g.near), g.gz * 26.0f, g.pixel * 26.0f, 191, 0.55f);
  const float small =
      fractal(at.x * 22.0f / (0.15f + g.near), g.gz * 70.0f, g.pixel * 70.0f, 197, 0.55f);
  const float tilt = calm * (0.7f * wave + 0.45f * small);
  const float away = at.y - kHorizon;
  const float up = kHorizon - away * (0.80f + 0.10f * tilt) + 0.020f * tilt * (0.3f + g.near);
  const float across = at.x + 0.012f * tilt * (0.25f + g.near);
  Light mirror = sky_and_hills(across, std::clamp(up, 0.0f, kHorizon - 0.0005f), at.pixel * 1.5f);
  mirror = mirror * 0.90f;
  // The boat stands on its own picture.
  float boat_here = 0;
  const float u = (across - kBoatX) / kBoatSize,
              v = (at.y - kBoatY) / kBoatSize +
                  0.09f * tilt * (0.4f + 2.0f * std::max(0.0f, at.y - kBoatY) / kBoatSize);
  if (v > -0.02f) {
    const Piece hull = boat(u + 0.05f * tilt, v * 1.04f, at.pixel / kBoatSize * 2.0f);
    mirror = blend(mirror, hull.light * 0.72f, hull.cover * 0.94f);
    boat_here = hull.cover;
    mirror = mirror + boat_glow(u + 0.06f * tilt, v) * (0.5f + 0.4f * tilt);
  }
  // Near us the eye looks down into it (Schlick's shape of Fresnel's law; common practice).
  const float look = clamp01(0.18f + g.near * 0.80f);
  const float reflect = std::max(0.20f + 0.80f * std::pow(1.0f - look, 1.7f), 0.8f * boat_here);
  const float depth = clamp01(shore * 0.75f - 0.02f);
  const float net = 1.0f - std::fabs(fractal(g.gx * 7.0f + 0.4f * tilt, g.gz * 12.0f,
                                             g.pixel * 12.0f, 211, 0.5f, 4));
  Light body = blend(sand * (0.65f + 0.55f * std::pow(net, 5.0f)),
                     clear * (0.72f + 0.42f * std::pow(net, 6.0f)), ease(0.0f, 0.30f, depth));
  body = blend(body, deep, ease(0.22f, 0.95f, depth));
  Light c = blend(body * 0.60f, mirror, clamp01(reflect + 0.10f * tilt));
  // The sun's path.
  const float path =
      std::exp(-std::fabs(at.x - kSunX) / (0.030f + 0.11f * g.near)) * std::exp(-g.near / 0.42f);
  const float spark = ease(0.22f, 0.75f, tilt + 0.45f * path);
  c = c + warm * (0.22f * path) + glint * (1.15f * spark * path);
  return c;
}

// Straight up to 0.72, then bending so that haze and sparks stay below white.
float shoulder(float v) {
  if (v <= 0.72f) return std::max(v, 0.0f);
  const float u = (v - 0.72f) / 0.27f;
  return 0.72f + 0.27f * u / std::sqrt(1.0f + u * u);
}

}  // namespace

Light saltings(const Place& at) {
  Light c;
  float shore = 1;
  if (at.y < kHorizon) {
    c = sky_and_hills(at.x, at.y, at.pixel);
  } else {
    const Ground g = ground_at(at);
    shore = creek(at, g);
    const float wet = ease(-0.5f, 0.5f, shore * g.scale / at.pixel);
    if (wet < 1) c = marsh(at, g, shore);
    if (wet > 0) c = blend(c, water(at, g, shore), wet);
  }
  const float u = (at.x - kBoatX) / kBoatSize, v = (kBoatY - at.y) / kBoatSize;
  const Piece hull = boat(u, v, 0.6f * at.pixel / kBoatSize);
  c = blend(c, hull.light, hull.cover);
  c = c + boat_glow(u, v);
  const float land = ease(0.02f, -0.22f, shore);
  const Piece bank = land > 0 ? flowers(at) : Piece{};
  c = blend(c, bank.light, bank.cover * land);
  const Piece front = reeds(at);
  c = blend(c, front.light, front.cover);
  return {shoulder(c.r), shoulder(c.g), shoulder(c.b)};
}

}  // namespace proofleaf::demo
