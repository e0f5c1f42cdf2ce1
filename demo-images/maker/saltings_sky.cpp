#include "noise.h"
#include "saltings.h"

namespace proofleaf::demo {
namespace {

struct Stop {
  float height;  // 0 at the horizon, 1 at the top edge
  Light light;
};

Light gradient(float t) {
  static const std::array<Stop, 7> stops{{{0.00f, lch(84, 44, 66)},
                                          {0.10f, lch(80, 42, 58)},
                                          {0.24f, lch(71, 34, 38)},
                                          {0.42f, lch(60, 27, 345)},
                                          {0.62f, lch(50, 30, 295)},
                                          {0.82f, lch(40, 36, 276)},
                                          {1.00f, lch(31, 39, 271)}}};
  for (size_t i = 1; i < stops.size(); ++i)
    if (t <= stops[i].height || i + 1 == stops.size())
      return blend(
          stops[i - 1].light, stops[i].light,
          ease(stops[i - 1].height, stops[i].height, t) * 0.5f +
              0.5f * clamp01((t - stops[i - 1].height) / (stops[i].height - stops[i - 1].height)));
  return stops[0].light;
}

float cloud_body(float x, float y, float pixel) {
  const float bend = 0.06f * fractal(x * 2.1f, y * 3.0f, pixel * 3.0f, 301, 0.5f, 4);
  const float broad = fractal(x * 1.15f + bend, (y + bend) * 5.2f, pixel * 5.2f, 311, 0.52f);
  const float thin =
      fractal(x * 2.6f + y * 2.0f, (y + 0.4f * bend) * 19.0f, pixel * 19.0f, 331, 0.5f);
  return broad + 0.35f * thin;
}

Light clouds(Light sky, float x, float y, float pixel) {
  static const Light shade = lch(46, 17, 312), lit = lch(79, 56, 48), ember = lch(60, 68, 36),
                     pale = lch(93, 22, 78);
  const float t = (kHorizon - y) / kHorizon;
  const float body = cloud_body(x, y, pixel);
  const float bias = -0.06f + 0.26f * bump(t, 0.66f, 0.24f) + 0.14f * bump(t, 0.22f, 0.10f);
  const float thick = ease(0.0f, 0.75f, body + bias);
  // Lit from below and from the sun's side: compare with the cloud a little nearer to the sun.
  const float toward = cloud_body(x + 0.018f * (kSunX - x), y + 0.022f, pixel);
  const float rim = ease(-0.15f, 0.5f, body - toward);
  const float near = std::exp(-std::hypot(x - kSunX, 1.5f * (y - kSunY)) / 0.42f);
  Light face = blend(blend(shade, ember, 0.25f + 0.6f * rim), lit, clamp01(rim * (0.35f + near)));
  face = blend(face, pale, clamp01(near * near * 1.3f));
  return blend(sky, face, thick * (0.55f + 0.35f * (1.0f - near)));
}

Light sun(float x, float y) {
  static const Light core = lch(99, 10, 92), gold = lch(88, 62, 78), rose = lch(70, 46, 50);
  const float d = std::hypot(x - kSunX, 1.08f * (y - kSunY));
  const float disc = ease(0.023f, 0.018f, d);
  return core * (0.75f * disc + 0.42f * std::exp(-d / 0.035f)) +
         gold * (0.40f * std::exp(-d / 0.12f)) + rose * (0.16f * std::exp(-d / 0.38f));
}

struct Ridge {
  float foot, height, frequency;
  uint32_t seed;
  float haze;  // share of haze before it
  float trees;
};

}  // namespace

Light sky_and_hills(float x, float y, float pixel) {
  static const std::array<Ridge, 4> ridges{{{0.402f, 0.050f, 2.3f, 41, 0.86f, 0.0f},
                                            {0.417f, 0.040f, 3.4f, 53, 0.68f, 0.03f},
                                            {0.431f, 0.026f, 5.5f, 67, 0.46f, 0.06f},
                                            {0.4395f, 0.010f, 9.0f, 79, 0.14f, 0.20f}}};
  static const Light wood = lch(17, 13, 285), meadow = lch(34, 22, 95),
                     haze_cold = lch(62, 20, 330), haze_warm = lch(86, 40, 68);
  const float t = (kHorizon - y) / kHorizon;
  Light c = gradient(t);
  c = clouds(c, x, y, pixel);
  c = c + sun(x, y);
  const float near_sun = std::exp(-std::fabs(x - kSunX) / 0.30f);
  for (const Ridge& r : ridges) {
    // Well above the highest this ridge can reach: nothing to draw.
    if (y < r.foot - 1.5f * r.height - 0.16f * r.trees) continue;
    const float f = r.frequency;
    float top =
        r.foot - r.height * (0.35f + 0.75f * fractal(x * f, 3.0f, pixel * f, r.seed, 0.42f, 6));
    if (r.trees > 0)
      top -= r.trees * 0.055f *
             std::max(0.0f, 0.25f + fractal(x * 60.0f, 1.0f, pixel * 60.0f, r.seed + 3, 0.72f) +
                                0.4f * noise(x * 9.0f, 4.0f, r.seed));
    const float cover = ease(-1.0f, 1.0f, (y - top) / pixel);
    if (cover <= 0) continue;
    const float grain = fractal(x * 30.0f, y * 90.0f, pixel * 90.0f, r.seed + 5, 0.6f);
    const float field = ease(0.1f, 0.5f, fractal(x * 7.0f, y * 40.0f, pixel * 40.0f, r.seed + 9));
    Light hill = blend(wood, meadow, clamp01(0.45f * field + 0.28f * grain));
    const float mist = clamp01(r.haze + 0.35f * near_sun + 0.25f * ease(top, r.foot + 0.01f, y));
    hill =
        blend(hill, blend(haze_cold, haze_warm, clamp01(1.25f * near_sun)), std::min(mist, 0.97f));
    hill = hill + sun(x, y) * (0.55f * r.haze);
    c = blend(c, hill, cover);
  }
  return c;
}

}  // namespace proofleaf::demo
