#include "noise.h"
#include "saltings.h"

namespace proofleaf::demo {
namespace {

void lay(Piece& p, const Light& light, float cover) {
  if (cover <= 0) return;
  p.light = blend(p.light, light, cover);
  p.cover = p.cover + cover * (1.0f - p.cover);
}

// 1 inside lo..hi, 0 outside, soft over `fine`.
float band(float v, float lo, float hi, float fine) {
  return ease(lo - fine, lo + fine, v) * ease(hi + fine, hi - fine, v);
}

float line(float u, float v, float u0, float v0, float u1, float v1, float half, float fine) {
  const float du = u1 - u0, dv = v1 - v0;
  const float t = clamp01(((u - u0) * du + (v - v0) * dv) / (du * du + dv * dv));
  const float d = std::hypot(u - u0 - t * du, v - v0 - t * dv);
  // Thinner than a pixel: fainter instead, so that a line keeps its weight.
  const float seen = std::max(half, fine * 0.5f);
  return ease(seen + fine * 0.5f, seen - fine * 0.5f, d) * std::min(1.0f, half / seen);
}

}  // namespace

Piece boat(float u, float v, float fine) {
  static const Light red = lch(43, 88, 38), red_dark = lch(14, 38, 34), teal = lch(56, 46, 196),
                     cream = lch(86, 14, 88), wood = lch(40, 40, 62), dark = lch(9, 8, 300),
                     lamp = lch(93, 50, 84), amber = lch(72, 88, 70),
                     cabin_shade = lch(52, 10, 285);
  Piece p;
  if (u < -1.3f || u > 1.25f || v < -0.02f || v > 1.5f) return p;
  const float sheer = 0.20f + 0.13f * (u - 0.15f) * (u - 0.15f) +
                      (u < -0.3f ? 0.12f * (u + 0.3f) * (u + 0.3f) : 0.0f);
  // Rigging and mast first: they stand behind the rail.
  lay(p, dark, line(u, v, -0.22f, 0.2f, -0.20f, 1.36f, 0.011f, fine));
  for (float end : {-1.13f, 1.0f})
    lay(p, dark, 0.8f * line(u, v, -0.20f, 1.3f, end, end < 0 ? 0.5f : 0.3f, 0.0028f, fine));
  lay(p, wood, line(u, v, -0.21f, 0.62f, 0.66f, 0.74f, 0.012f, fine));
  lay(p, cream * 0.45f,
      line(u, v, -0.16f, 0.655f, 0.62f, 0.765f, 0.020f + 0.008f * noise(u * 9.0f, 1, 5), fine));
  // Cabin with two lit windows.
  const float wall = band(u, -0.02f - 0.05f * v, 0.60f, fine) * band(v, sheer - 0.1f, 0.47f, fine);
  lay(p,
      blend(cabin_shade * 0.55f, cream * 0.62f, ease(0.1f, 0.62f, u)) *
          (1.0f + 0.1f * noise(u * 40.0f, v * 8.0f, 9)),
      wall);
  lay(p, teal * 0.35f, band(u, -0.07f, 0.65f, fine) * band(v, 0.455f, 0.485f, fine));
  for (float w : {0.10f, 0.36f}) {
    const float pane = band(u, w, w + 0.15f, fine) * band(v, 0.31f, 0.42f, fine);
    lay(p, blend(lamp, amber, 0.8f - 0.6f * bump(u, w + 0.08f, 0.06f)), pane);
  }
  // Hull: raked bow, planks, rail, boot stripe.
  const float bow = -0.86f - 0.62f * v, stern = 0.96f + 0.16f * v;
  const float hull = band(u, bow, stern, fine) * band(v, -0.05f, sheer, fine);
  if (hull > 0) {
    const float along = ease(-1.0f, 0.9f, u), share = v / sheer;
    Light side = blend(red_dark, red, clamp01(0.06f + 0.66f * along * along + 0.22f * share));
    const float plank = share * 6.0f - std::floor(share * 6.0f);
    side =
        side * (1.0f - 0.22f * bump(plank, 0.0f, 0.10f) + 0.06f * noise(u * 14.0f, v * 60.0f, 77));
    const float weather = fractal(u * 6.0f, v * 30.0f, fine * 30.0f, 901, 0.6f);
    side = blend(side, wood * 0.5f, 0.35f * ease(0.35f, 0.8f, weather));
    side = blend(side, dark, ease(0.035f + fine, 0.035f - fine, v));
    side = blend(side, cream * (0.25f + 0.5f * along), band(v, 0.035f, 0.052f, fine));
    side = blend(side, teal * (0.15f + 0.65f * along), band(share, 0.80f, 0.93f, fine * 5));
    side = blend(side, wood * (0.6f + 0.6f * along), ease(0.93f - fine, 0.93f + fine, share));
    lay(p, side, hull);
  }
  return p;
}

Light boat_glow(float u, float v) {
  static const Light warm = lch(84, 74, 76), white = lch(97, 22, 88);
  const float mast = std::hypot(u + 0.20f, v - 1.38f);
  const float panes = std::hypot(0.8f * (u - 0.3f), v - 0.365f);
  return warm * (0.50f * std::exp(-mast / 0.05f) + 0.14f * std::exp(-panes / 0.16f)) +
         white * (1.1f * ease(0.022f, 0.010f, mast));
}

Piece reeds(const Place& at) {
  static const Light shadow = lch(7, 7, 110), stem = lch(22, 24, 82), lit = lch(62, 52, 74),
                     plume = lch(46, 34, 62), deep = lch(3.5, 4, 280);
  Piece p;
  const float side = std::max(ease(0.88f, 1.30f, at.x), 0.62f * ease(0.24f, -0.06f, at.x));
  // Back rows first; each row is a grid of columns with one reed in each.
  for (int row = 0; row < 7; ++row) {
    const auto seed = static_cast<uint32_t>(500 + row * 17);
    const float spacing = 0.0085f + 0.0016f * static_cast<float>(row);
    const float foot = 0.90f + 0.035f * static_cast<float>(row);
    const float tallest = (0.10f + 0.46f * side) * (0.82f + 0.06f * static_cast<float>(row));
    if (side <= 0.01f || at.y < foot - tallest * 1.15f) continue;
    const auto column = static_cast<int32_t>(std::floor(at.x / spacing));
    for (int32_t i = column - 9; i <= column + 9; ++i) {
      if (lottery(i, 1, seed) > 0.25f + 0.75f * side) continue;
      const float height = tallest * (0.45f + 0.55f * lottery(i, 2, seed));
      const float h = (foot - at.y) / height;  // 0 at the foot, 1 at the tip
      if (h < -0.3f || h > 1.0f) continue;
      const float lean = (lottery(i, 3, seed) - 0.62f) * 0.22f * height / 0.4f;
      const float mid = (static_cast<float>(i) + lottery(i, 4, seed)) * spacing + lean * h * h;
      const float away = at.x - mid;
      float half = (0.0011f + 0.0007f * lottery(i, 5, seed)) * (1.0f - 0.75f * std::max(h, 0.0f));
      const bool plumed = lottery(i, 6, seed) > 0.45f;
      float cover = 0;
      Light body = blend(shadow, stem, clamp01(1.1f * h * (0.4f + lottery(i, 7, seed))));
      if (plumed && h > 0.80f) {
        const float q = (h - 0.80f) / 0.20f;
        const float hair = fractal(away * 420.0f + at.y * 160.0f, at.y * 150.0f, at.pixel * 420.0f,
                                   seed + 2, 0.75f, 6);
        const float fluff = 0.0080f * std::min(1.0f, height / 0.26f) * std::sqrt(q * (1.0f - q)) *
                            (0.95f + 0.55f * hair);
        cover = ease(fluff + at.pixel, fluff - at.pixel, std::fabs(away - 0.003f * q));
        body = blend(blend(stem, plume, 0.8f), lit, ease(-0.002f, 0.006f, -away + 0.002f) * 0.65f) *
               (0.75f + 0.75f * hair * (1.0f - 0.4f * q));
      } else {
        const float seen = std::max(half, 0.5f * at.pixel);
        cover = ease(seen + 0.6f * at.pixel, seen - 0.6f * at.pixel, std::fabs(away)) *
                std::min(1.0f, half / seen);
        body = blend(body, lit, 0.55f * ease(0.2f, 0.9f, h) * ease(0.0f, -half, away) * side);
      }
      lay(p, body, cover * ease(-0.3f, -0.08f, h));
      // A leaf bending off one side.
      const float root = 0.25f + 0.4f * lottery(i, 8, seed), up = h - root;
      if (up > 0 && up < 0.22f) {
        const float hand = lottery(i, 9, seed) > 0.5f ? 1.0f : -1.0f;
        const float leaf = mid + hand * (0.16f * up - 0.22f * up * up) * height / 0.35f * 1.2f;
        half = 0.0022f * (1.0f - up / 0.22f);
        lay(p, blend(shadow, stem, clamp01(h + 0.2f * hand)),
            ease(half + at.pixel, half - at.pixel, std::fabs(at.x - leaf)) * 0.95f);
      }
    }
    // The tangle at the foot.
    const float tangle = fractal(at.x * 60.0f, at.y * 14.0f, at.pixel * 60.0f, seed + 9, 0.6f);
    lay(p, blend(deep, shadow, clamp01(0.5f + 0.8f * tangle)),
        side * ease(foot - 0.06f, foot + 0.02f, at.y + 0.03f * tangle));
  }
  return p;
}

namespace {

// One row of grass: a blade in each narrow column, bending over as it rises.
void blades(Piece& p, const Place& at, float base, float size, float bank, uint32_t seed) {
  static const std::array<Light, 4> greens{lch(16, 18, 118), lch(30, 36, 116), lch(45, 46, 106),
                                           lch(62, 52, 88)};
  const float spacing = size * 0.55f;
  const auto column = static_cast<int32_t>(std::floor(at.x / spacing));
  for (int32_t i = column - 7; i <= column + 7; ++i) {
    if (lottery(i, 1, seed) > bank * 1.1f) continue;
    const float foot = base + size * 3.0f * (lottery(i, 7, seed) - 0.5f);
    const float height = size * (2.5f + 5.5f * lottery(i, 2, seed) * lottery(i, 3, seed));
    const float h = (foot - at.y) / height;
    if (h < 0.0f || h > 1.0f) continue;
    const float bend = (lottery(i, 4, seed) - 0.42f) * 0.75f * height;
    const float mid = (static_cast<float>(i) + lottery(i, 5, seed)) * spacing + bend * h * h;
    const float half = size * 0.11f * (1.0f - std::max(h, 0.0f)),
                seen = std::max(half, 0.5f * at.pixel);
    const float cover =
        ease(seen + 0.5f * at.pixel, seen - 0.5f * at.pixel, std::fabs(at.x - mid)) *
        std::min(1.0f, half / seen) * ease(0.0f, 0.35f, h);
    const auto pick = static_cast<size_t>(lottery(i, 6, seed) * 3.0f);
    const Light body =
        blend(greens[0], greens[std::min<size_t>(pick + 1, 3)], clamp01(0.1f + 0.95f * h)) *
        (0.7f + 0.6f * ease(-half, half, at.x - mid));
    lay(p, body, cover);
  }
}

}  // namespace

Piece flowers(const Place& at) {
  static const std::array<Light, 5> petals{lch(52, 66, 316), lch(60, 58, 322), lch(44, 72, 312),
                                           lch(78, 98, 84), lch(56, 90, 44)};
  static const Light leaf = lch(30, 38, 125), leaf_lit = lch(56, 56, 112);
  Piece p;
  const float bank = ease(0.74f, 0.30f, at.x) * ease(0.66f, 0.80f, at.y);
  if (bank <= 0) return p;
  for (int row = 0; row < 22; ++row) {
    const auto seed = static_cast<uint32_t>(700 + row * 29);
    const float near = static_cast<float>(row) / 21.0f;
    const float size = 0.0027f + 0.0098f * near * near;
    const float base =
        0.70f + 0.33f * near + 0.012f * std::sin(at.x * 9.0f + static_cast<float>(row));
    if (at.y > base - 9.0f * size && at.y < base + 2.0f * size) {
      for (uint32_t layer = 0; layer < 3; ++layer)
        blades(p, at, base, size, bank, seed + 100 + layer);
    }
    const float spacing = size * 2.1f;
    const auto column = static_cast<int32_t>(std::floor(at.x / spacing));
    for (int32_t i = column - 2; i <= column + 2; ++i) {
      const float patch = noise(static_cast<float>(i) * spacing * 5.0f, near * 5.0f, 31);
      if (lottery(i, 1, seed) > bank * (0.30f + 0.75f * patch)) continue;
      const float mid = (static_cast<float>(i) + lottery(i, 2, seed)) * spacing;
      const float head = base - size * (2.2f + 3.0f * lottery(i, 3, seed));
      const float stalk = ease(0.0006f + 0.6f * at.pixel, 0.0002f,
                               std::fabs(at.x - mid - 0.2f * size * std::sin(at.y * 90.0f)));
      if (at.y > head && at.y < base + size)
        lay(p, blend(leaf, leaf_lit, lottery(i, 4, seed)), 0.8f * stalk);
      const float pick = lottery(i, 5, seed);
      const Light petal = petals[pick < 0.42f   ? 0
                                 : pick < 0.68f ? 1
                                 : pick < 0.86f ? 2
                                 : pick < 0.95f ? 3
                                                : 4];
      for (int32_t k = 0; k < 7; ++k) {  // a head is a few blossoms
        const float bx = mid + size * 1.25f * (lottery(i, 20 + k, seed) - 0.5f);
        const float by = head + size * 1.3f * (lottery(i, 30 + k, seed) - 0.5f);
        const float full = size * (0.30f + 0.24f * lottery(i, 40 + k, seed));
        const float dx = at.x - bx, dy = 1.45f * (at.y - by), d = std::hypot(dx, dy);
        if (d > full + at.pixel) continue;
        const float turn = std::atan2(dy, dx) * 5.0f + 6.0f * lottery(i, 50 + k, seed);
        const float r = full * (0.74f + 0.26f * std::cos(turn));
        const float shine = (0.62f + 0.70f * ease(-full, full, dx - dy)) *
                            (0.72f + 0.28f * std::cos(turn)) * (0.65f + 0.75f * d / full);
        const float frill = 1.0f + 0.25f * noise(at.x / size * 5.0f, at.y / size * 5.0f, seed);
        lay(p, petal * (shine * frill), ease(r + 0.5f * at.pixel, r - 0.7f * at.pixel, d));
      }
    }
  }
  return p;
}

}  // namespace proofleaf::demo
