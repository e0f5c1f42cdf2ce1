#include <array>

#include "noise.h"
#include "scene.h"

namespace proofleaf::demo {
namespace {

struct Vec {
  float x = 0, y = 0, z = 0;
  Vec operator+(const Vec& o) const { return {x + o.x, y + o.y, z + o.z}; }
  Vec operator-(const Vec& o) const { return {x - o.x, y - o.y, z - o.z}; }
  Vec operator*(float k) const { return {x * k, y * k, z * k}; }
};
float dot(const Vec& a, const Vec& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
Vec unit(const Vec& v) { return v * (1.0f / std::sqrt(dot(v, v))); }

// A hall of 6 m: x from -3 (left) to 3, y up from the lower floor, z away from the eye. Stairs rise
// from z = 3 to a landing; an arcade stands on it before the back wall; the left wall has tall
// windows, high up, through which the sun comes.
constexpr float kHalf = 3.0f, kBack = 15.0f, kTop = 9.0f;
constexpr float kFirst = 3.4f, kGoing = 0.34f, kRise = 0.165f;
constexpr int kSteps = 14;
constexpr float kLanding = kFirst + kGoing * kSteps, kDeck = kRise * kSteps;
constexpr float kArcade = 10.6f, kPierHalf = 0.34f, kBay = 2.0f, kSpring = 2.3f + kDeck;
const Vec kSun = unit({-0.80f, 0.98f, 0.30f});  // towards the sun

// Is (z, y) in one of the windows of the left wall?
float window(float z, float y, float soft) {
  float open = 0;
  for (float middle : {5.0f, 7.7f, 12.6f}) {
    const float half = 0.62f, foot = 3.5f, spring = 5.9f, dz = std::fabs(z - middle);
    const float inside = y < spring ? half - dz : half - std::hypot(dz, y - spring);
    float pane = ease(-soft, soft, inside) * ease(-soft, soft, y - foot);
    pane *= ease(0.02f - soft, 0.02f + soft, dz);  // one upright and three cross bars
    for (float bar : {4.3f, 5.1f, 5.9f})
      pane *= ease(0.018f - soft, 0.018f + soft, std::fabs(y - bar));
    open = std::max(open, pane);
  }
  return open;
}

// Half-open arches of the arcade: above 0 in the opening, metres to the edge.
float opening(float x, float y) {
  const float local = x - kBay * std::round(x / kBay), half = 0.5f * kBay - kPierHalf;
  if (y > kSpring) return half - std::hypot(local, y - kSpring);
  return half - std::fabs(local);
}

float stair_height(float z) {
  if (z < kFirst) return 0;
  return kRise * std::min(static_cast<float>(kSteps), 1.0f + std::floor((z - kFirst) / kGoing));
}

// How much of the sun reaches a point, 0..1: through a window of the left wall, past the arcade.
float sunlit(const Vec& p, float soft) {
  const float t = (-kHalf - p.x) / kSun.x;
  if (t <= 0) return 1;
  const Vec wall = p + kSun * t;
  float light = window(wall.z, wall.y, soft + 0.012f * t);
  const float cross = (kArcade - p.z) / kSun.z;
  if (cross > 0 && cross < t) {
    const Vec q = p + kSun * cross;
    light *= ease(-0.03f, 0.03f, q.y < 6.9f ? opening(q.x, q.y) : -1.0f);
  }
  return light;
}

struct Surface {
  Vec at, normal;
  float distance = 1e9f;
  float tone = 0.5f;  // reflectance
  int kind = 0;       // 0 plaster, 1 stone step, 2 floor, 3 window, 4 rail
};

void meet(Surface& s, float t, const Vec& eye, const Vec& ray, const Vec& normal, float tone,
          int kind) {
  if (t > 1e-3f && t < s.distance) s = {eye + ray * t, normal, t, tone, kind};
}

Surface first_surface(const Vec& eye, const Vec& ray) {
  Surface s;
  if (ray.x < 0) meet(s, (-kHalf - eye.x) / ray.x, eye, ray, {1, 0, 0}, 0.62f, 0);
  if (ray.x > 0) meet(s, (kHalf - eye.x) / ray.x, eye, ray, {-1, 0, 0}, 0.62f, 0);
  meet(s, (kBack - eye.z) / ray.z, eye, ray, {0, 0, -1}, 0.58f, 0);
  // Barrel vault over the hall.
  if (ray.y > 0) {
    constexpr float spring = 5.6f;
    const float a = ray.x * ray.x + ray.y * ray.y;
    const float b = eye.x * ray.x + (eye.y - spring) * ray.y;
    const float c = eye.x * eye.x + (eye.y - spring) * (eye.y - spring) - kHalf * kHalf;
    const float root = b * b - a * c;
    if (root > 0) {
      const float t = (-b + std::sqrt(root)) / a;
      const Vec p = eye + ray * t;
      if (p.y > spring) meet(s, t, eye, ray, unit({-p.x, spring - p.y, 0}), 0.60f, 0);
    }
  }
  if (ray.y < 0) {
    const float t = -eye.y / ray.y;
    if (eye.z + ray.z * t < kFirst) meet(s, t, eye, ray, {0, 1, 0}, 0.40f, 2);
  }
  for (int i = 0; i < kSteps; ++i) {
    const float z = kFirst + kGoing * static_cast<float>(i), low = kRise * static_cast<float>(i);
    const float t = (z - eye.z) / ray.z, y = eye.y + ray.y * t;
    if (t > 0 && y >= low && y <= low + kRise) meet(s, t, eye, ray, {0, 0, -1}, 0.46f, 1);
    if (ray.y >= 0 || i + 1 == kSteps) continue;
    const float u = (low + kRise - eye.y) / ray.y, zt = eye.z + ray.z * u;
    if (u > 0 && zt >= z && zt <= z + kGoing) meet(s, u, eye, ray, {0, 1, 0}, 0.52f, 1);
  }
  if (ray.y < 0 && eye.y > kDeck) {
    const float t = (kDeck - eye.y) / ray.y;
    if (eye.z + ray.z * t >= kLanding - kGoing) meet(s, t, eye, ray, {0, 1, 0}, 0.40f, 2);
  }
  // The arcade: its face, then the inside of the piers and arches as a short tunnel.
  constexpr float thick = 0.55f;
  const float face = (kArcade - eye.z) / ray.z;
  if (face > 0 && face < s.distance) {
    const Vec p = eye + ray * face;
    if (p.y > kDeck && p.y < kTop && opening(p.x, p.y) < 0) {
      meet(s, face, eye, ray, {0, 0, -1}, 0.64f, 0);
    } else if (p.y > kDeck) {
      for (int i = 1; i <= 12; ++i) {
        const float t = face + thick / ray.z * static_cast<float>(i) / 12.0f;
        const Vec q = eye + ray * t;
        if (opening(q.x, q.y) > 0) continue;
        const float e = 0.01f;
        Vec n{opening(q.x + e, q.y) - opening(q.x - e, q.y),
              opening(q.x, q.y + e) - opening(q.x, q.y - e), 0};
        meet(s, t, eye, ray, unit(n), 0.60f, 0);
        break;
      }
    }
  }
  return s;
}

// Soft light without the sun: sky through the windows, more the nearer and the more it faces left
// and up; corners are darker.
float ambient(const Surface& s) {
  const Vec& p = s.at;
  float sum = 0.016f;
  for (float z : {5.0f, 7.7f, 12.6f}) {
    const Vec to{-kHalf + 0.05f - p.x, 4.7f - p.y, z - p.z};
    const float d2 = dot(to, to) + 0.8f;
    float behind = 1;
    if ((p.z < kArcade) != (z < kArcade)) behind = 0.16f;
    sum += behind * 1.9f * std::max(0.06f, dot(unit(to), s.normal)) / d2;
  }
  // Sun patches on the right wall and stairs throw light back.
  const Vec back{1.6f - p.x, 1.8f - p.y, 5.6f - p.z};
  sum += 1.0f * std::max(0.0f, dot(unit(back), s.normal)) / (dot(back, back) + 1.5f);
  const float floor = p.z < kFirst     ? 0.0f
                      : p.z < kLanding ? stair_height(p.z) - 0.5f * kRise
                                       : kDeck;
  float corner = 1.0f - 0.40f * std::exp(-(kHalf - std::fabs(p.x)) / 0.35f) *
                            (std::fabs(s.normal.x) < 0.5f ? 1.0f : 0.0f);
  if (s.normal.y < 0.5f && s.kind == 0)
    corner *= 1.0f - 0.45f * std::exp(-std::max(0.0f, p.y - floor) / 0.45f);
  if (s.kind == 1 && s.normal.y > 0.5f) {
    const float deep = (p.z - kFirst) / kGoing - std::floor((p.z - kFirst) / kGoing);
    corner *= 0.55f + 0.45f * (1.0f - deep * deep);
  }
  return sum * corner;
}

// The stuff itself: trowel marks, stains, worn stone, joints. `fine` is a pixel at that distance.
float texture(const Surface& s, float fine) {
  const Vec& p = s.at;
  float u = p.x, v = p.z;
  if (std::fabs(s.normal.x) > 0.5f) u = p.z, v = p.y;
  if (std::fabs(s.normal.z) > 0.5f) v = p.y;
  const float broad = fractal(u * 0.7f, v * 0.7f, fine * 0.7f, 61, 0.6f);
  const float rough = fractal(u * 11.0f, v * 11.0f, fine * 11.0f, 67, 0.7f);
  float k = 1.0f + 0.16f * broad + 0.15f * rough;
  if (s.kind == 0) {
    const float run = fractal(u * 5.0f, v * 0.55f, fine * 5.0f, 71, 0.55f, 6);  // rain stains
    k *= 1.0f - 0.20f * ease(0.15f, 0.8f, run) - 0.25f * ease(0.35f, 0.75f, broad + 0.3f * rough);
  }
  if (s.kind == 1)
    k *= 1.0f - 0.16f * ease(0.1f, 0.7f, fractal(u * 3.0f, v * 9.0f, fine * 9.0f, 73));
  if (s.kind == 2) {
    const float a = u / 0.6f, b = v / 0.6f, joint = 0.012f + fine;
    const float da = std::fabs(a - std::round(a)), db = std::fabs(b - std::round(b));
    k *= 0.80f + 0.35f * lottery(static_cast<int32_t>(std::floor(a + 0.5f)),
                                 static_cast<int32_t>(std::floor(b + 0.5f)), 79);
    k *= 1.0f - 0.5f * std::max(ease(joint, 0.0f, da), ease(joint, 0.0f, db));
  }
  return k;
}

// Handrail on the right: a line in space, seen dark or with a bright upper edge.
void rail(float& light, const Vec& eye, const Vec& ray, float pixel) {
  const float x = 2.35f, t = (x - eye.x) / ray.x;
  if (t <= 0) return;
  const Vec p = eye + ray * t;
  if (p.z < kFirst - 0.25f || p.z > kLanding) return;
  const float fine = pixel * t, foot = (p.z - kFirst) / kGoing * kRise;
  const float high = p.y - foot - 0.95f;
  const float bar = ease(0.030f + fine, 0.030f - fine, std::fabs(high));
  const float spaced = (p.z - kFirst) / (2.0f * kGoing);
  const float post = (p.y > foot && high < 0)
                         ? ease(0.012f + fine, 0.012f - fine,
                                2.0f * kGoing * std::fabs(spaced - std::round(spaced)))
                         : 0.0f;
  const float lit = sunlit(p, 0.02f);
  const float tone = 0.006f + 0.10f * lit + (0.22f * lit + 0.03f) * ease(0.005f, 0.03f, high);
  light = lerp(light, tone, std::max(bar, post));
}

// Light from the first surface along a ray.
float shade(const Vec& eye, const Vec& ray, const Surface& s, float pixel) {
  const float fine = pixel * s.distance;
  const float sun = std::max(0.0f, dot(s.normal, kSun)) * sunlit(s.at, 0.5f * fine + 0.01f);
  float light = s.tone * texture(s, fine) * (ambient(s) + 1.55f * sun);
  if (s.normal.x > 0.9f) {  // the left wall: the sky stands in its windows
    const float sky = 0.74f + 0.05f * (s.at.y - 3.5f) +
                      0.10f * fractal(s.at.z * 1.1f, s.at.y * 1.7f, fine * 1.7f, 3);
    light = lerp(light, sky, window(s.at.z, s.at.y, fine + 0.01f));
  }
  rail(light, eye, ray, pixel);
  return light;
}

bool same_surface(const Surface& a, const Surface& b) {
  return a.kind == b.kind && dot(a.normal, b.normal) > 0.98f &&
         std::fabs(a.distance - b.distance) < 0.02f * a.distance;
}

// Dust in the sun: lit air gathered along the way, from 2 m on.
float lit_air(const Place& at, const Vec& eye, const Vec& ray, float reach) {
  constexpr int samples = 56;
  const float smoke =
      0.75f + 0.45f * fractal(at.x * 4.0f, at.y * 4.0f, at.pixel * 4.0f, 91, 0.5f, 6);
  const float way = std::max(0.0f, std::min(reach, 19.0f) - 2.0f);
  float air = 0;
  for (int i = 0; i < samples; ++i)
    air += sunlit(eye + ray * (2.0f + way * (static_cast<float>(i) + 0.5f) / samples), 0.12f);
  return 0.030f * smoke * air / samples * way;
}

Vec ray_through(float x, float y) {
  return unit({(x - 0.375f) * 1.02f - 0.02f, (0.50f - y) * 1.02f + 0.16f, 1.0f});
}

}  // namespace

float stairwell(const Place& at) {
  const Vec eye{0.35f, 1.65f, -3.6f};
  const Vec ray = ray_through(at.x, at.y);
  const Surface s = first_surface(eye, ray);
  float light = shade(eye, ray, s, at.pixel);
  // A pixel that holds an edge is the mean of four more rays.
  constexpr std::array<std::array<float, 2>, 4> places{
      {{-0.38f, -0.13f}, {0.38f, 0.13f}, {0.13f, -0.38f}, {-0.13f, 0.38f}}};
  std::array<Surface, 4> around;
  bool edge = false;
  for (size_t k = 0; k < 4; ++k) {
    around[k] = first_surface(
        eye, ray_through(at.x + places[k][0] * at.pixel, at.y + places[k][1] * at.pixel));
    edge = edge || !same_surface(s, around[k]);
  }
  if (edge) {
    light = 0;
    for (size_t k = 0; k < 4; ++k) {
      const Vec r = ray_through(at.x + places[k][0] * at.pixel, at.y + places[k][1] * at.pixel);
      light += 0.25f * shade(eye, r, around[k], at.pixel);
    }
  }
  light = 0.0006f + 1.05f * (light + lit_air(at, eye, ray, s.distance));
  light = light * light / (light + 0.005f);  // a print's deep shadows: a gentle foot
  if (light < 0.7f) return light;
  const float over = (light - 0.7f) / 0.28f;  // a shoulder that stays just under white
  return 0.7f + 0.28f * over / std::sqrt(1.0f + over * over);
}

}  // namespace proofleaf::demo
