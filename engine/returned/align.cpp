#include "returned/align.h"

#include <algorithm>
#include <cmath>

#include "returned/refine_at.h"
#include "returned/solve_small.h"

namespace proofleaf::returned {
namespace {

constexpr float kOutside = -1000;  // an L* that is none
constexpr double kNoise = 2;       // [L*] contrast below it counts less and less
constexpr int kBlocks = 14;        // of a bend's grid, along the longer side

// The level of the photo whose pixels are about as large as those of a template of that size.
const Plane& level_for(const Pyramid& photo, const Homography& place, const Plane& shape) {
  const double photo_pixels = std::abs(area_of(place.corners())) * photo[0].width * photo[0].height;
  const double ratio = std::sqrt(photo_pixels / (double(shape.width) * shape.height));
  const auto level =
      static_cast<size_t>(std::max(0.0, std::floor(std::log2(std::max(1.0, ratio * 1.2)))));
  return photo[std::min(level, photo.size() - 1)];
}

// What stands out from its surroundings, in units of how much does nearby: light that falls off
// and the tone curve of a camera drop out. L* in; kOutside is left at 0.
Plane local_contrast(const Plane& l) {
  const double sigma = std::max(2.0, std::max(l.width, l.height) / 24.0);
  Plane held = l, weight(l.width, l.height, 1);
  for (size_t i = 0; i < held.values.size(); ++i) {
    if (held.values[i] == kOutside) held.values[i] = weight.values[i] = 0;
  }
  const Plane mean = blurred(held, sigma), share = blurred(weight, sigma);
  Plane off(l.width, l.height), square(l.width, l.height);
  for (size_t i = 0; i < off.values.size(); ++i) {
    if (weight.values[i] == 0 || share.values[i] < 0.05f) continue;
    off.values[i] = held.values[i] - mean.values[i] / share.values[i];
    square.values[i] = off.values[i] * off.values[i];
  }
  const Plane power = blurred(square, sigma);
  for (size_t i = 0; i < off.values.size(); ++i) {
    const double spread = power.values[i] / std::max(0.05f, share.values[i]) + kNoise * kNoise;
    off.values[i] = static_cast<float>(off.values[i] / std::sqrt(spread));
  }
  return off;
}

Plane seen(const Homography& place, const Bend& bend, const Pyramid& photo, const Plane& shape) {
  return flattened(level_for(photo, place, shape), place, bend, shape.width, shape.height,
                   kOutside);
}

double correlation(const Plane& one, const Plane& other) {
  double both = 0, first = 0, second = 0;
  for (size_t i = 0; i < one.values.size(); ++i) {
    both += double(one.values[i]) * other.values[i];
    first += double(one.values[i]) * one.values[i];
    second += double(other.values[i]) * other.values[i];
  }
  return first > 0 && second > 0 ? both / std::sqrt(first * second) : 0;
}

// One step of the inverse compositional method (Baker and Matthews, "Lucas-Kanade 20 years on",
// Int. J. Computer Vision 56 (2004), from memory) with eight parameters, on places from the
// front's middle: x, y -0.5..0.5. Differences beyond a standard deviation count less.
bool step(Homography& place, const Template& t, const Pyramid& photo, double* moved) {
  const Plane now = seen(place, {}, photo, t.contrast), contrast = local_contrast(now);
  std::array<double, 64> a{};
  std::array<double, 8> b{};
  const uint32_t w = now.width, h = now.height;
  for (uint32_t py = 1; py + 1 < h; ++py) {
    for (uint32_t px = 1; px + 1 < w; ++px) {
      if (now.at(px, py) == kOutside) continue;
      const double x = (px + 0.5) / w - 0.5, y = (py + 0.5) / h - 0.5;
      const double gx = double(t.across.at(px, py)) * w, gy = double(t.down.at(px, py)) * h;
      const double along = gx * x + gy * y;
      const std::array<double, 8> j{gx * x, gx * y, gx, gy * x, gy * y, gy, -x * along, -y * along};
      const double off = double(contrast.at(px, py)) - t.contrast.at(px, py);
      const double weight = 1 / (1 + off * off);
      for (size_t r = 0; r < 8; ++r) {
        b[r] += weight * j[r] * off;
        for (size_t c = r; c < 8; ++c) a[r * 8 + c] += weight * j[r] * j[c];
      }
    }
  }
  for (size_t r = 0; r < 8; ++r) {
    a[r * 8 + r] += 1e-6 * (1 + a[r * 8 + r]);
    for (size_t c = 0; c < r; ++c) a[r * 8 + c] = a[c * 8 + r];
  }
  if (!solve_small<8>(a, b)) return false;
  const Homography change({1 + b[0], b[1], b[2], b[3], 1 + b[4], b[5], b[6], b[7], 1});
  const auto back = change.inverse();
  if (!back) return false;
  const Homography to_middle({1, 0, -0.5, 0, 1, -0.5, 0, 0, 1}),
      from_middle({1, 0, 0.5, 0, 1, 0.5, 0, 0, 1});
  const Homography next = place.after(from_middle.after(back->after(to_middle)));
  if (!is_convex(next.corners())) return false;
  *moved = 0;
  const Corners before = place.corners(), after = next.corners();
  for (size_t i = 0; i < 4; ++i) {
    *moved = std::max(*moved, std::hypot(after[i].x - before[i].x, after[i].y - before[i].y));
  }
  place = next;
  return true;
}

}  // namespace

Template template_of(const Plane& promise_l, uint32_t longer) {
  const double scale = std::min(1.0, double(longer) / std::max(promise_l.width, promise_l.height));
  const auto side = [&](uint32_t pixels) {
    return std::max(8u, static_cast<uint32_t>(std::lround(pixels * scale)));
  };
  Template t;
  t.longer = longer;
  t.contrast = local_contrast(shrunk(promise_l, side(promise_l.width), side(promise_l.height)));
  const uint32_t w = t.contrast.width, h = t.contrast.height;
  t.across = t.down = Plane(w, h);
  for (uint32_t y = 1; y + 1 < h; ++y) {
    for (uint32_t x = 1; x + 1 < w; ++x) {
      t.across.at(x, y) = (t.contrast.at(x + 1, y) - t.contrast.at(x - 1, y)) / 2;
      t.down.at(x, y) = (t.contrast.at(x, y + 1) - t.contrast.at(x, y - 1)) / 2;
    }
  }
  return t;
}

double match_with(const Homography& place, const Pyramid& photo, const Template& t) {
  return correlation(local_contrast(seen(place, {}, photo, t.contrast)), t.contrast);
}

void refine_at(Homography& place, const Pyramid& photo, const Template& t, int turns) {
  for (int turn = 0; turn < turns; ++turn) {
    double moved = 0;
    if (!step(place, t, photo, &moved) || moved < 0.02 / t.longer) return;
  }
}

Plane flattened(const Plane& plane, const Homography& print_to_photo, const Bend& bend,
                uint32_t width, uint32_t height, float outside, double margin) {
  Plane flat(width, height, outside);
  for (uint32_t y = 0; y < height; ++y) {
    const double v = (y + 0.5) / height * (1 + 2 * margin) - margin;
    for (uint32_t x = 0; x < width; ++x) {
      const double u = (x + 0.5) / width * (1 + 2 * margin) - margin;
      Point place{u, v};
      if (!bend.u.empty()) {
        place.x += bend.u.sample(u, v);
        place.y += bend.v.sample(u, v);
      }
      const Point at = print_to_photo(place);
      if (at.x >= 0 && at.y >= 0 && at.x <= 1 && at.y <= 1) {
        flat.at(x, y) = plane.sample(at.x, at.y);
      }
    }
  }
  return flat;
}

double match_at(const Homography& place, const Pyramid& photo, const Plane& promise_l) {
  return match_with(place, photo, template_of(promise_l, kMatched));
}

Alignment refine(const Homography& start, const Pyramid& photo, const Plane& promise_l) {
  constexpr double kWander = 0.1;
  Homography place = start;
  for (const uint32_t longer : {96u, 192u, 384u, 768u}) {
    refine_at(place, photo, template_of(promise_l, longer), longer > 500 ? 8 : 14);
  }
  const Template whole = template_of(promise_l, kMatched);
  const double before = match_with(start, photo, whole), after = match_with(place, photo, whole);
  const Corners from = start.corners(), to = place.corners();
  const double size = std::sqrt(std::abs(area_of(from)));
  double far = 0;
  for (size_t i = 0; i < 4; ++i) {
    far = std::max(far, std::hypot(to[i].x - from[i].x, to[i].y - from[i].y));
  }
  if (!(after > before) || far > kWander * size) return {start, before};
  return {place, after};
}

Bend find_bend(const Homography& place, const Pyramid& photo, const Plane& promise_l) {
  constexpr uint32_t kLonger = 768;
  constexpr double kMost = 6,
                   kStill = 4;  // [pixels] of a shift; slopes that keep a flat block still
  const Template t = template_of(promise_l, kLonger);
  const uint32_t w = t.contrast.width, h = t.contrast.height;
  const double block = std::max(w, h) / double(kBlocks);
  const auto across = static_cast<uint32_t>(std::ceil(w / block)),
             down = static_cast<uint32_t>(std::ceil(h / block));
  Bend bend{Plane(across, down), Plane(across, down), 0};
  for (int turn = 0; turn < 3; ++turn) {
    const Plane now = seen(place, bend, photo, t.contrast), contrast = local_contrast(now);
    std::vector<std::array<double, 5>> sums(size_t{across} * down);
    for (uint32_t y = 1; y + 1 < h; ++y) {
      for (uint32_t x = 1; x + 1 < w; ++x) {
        if (now.at(x, y) == kOutside) continue;
        const double gx = t.across.at(x, y), gy = t.down.at(x, y);
        const double off = double(contrast.at(x, y)) - t.contrast.at(x, y);
        const double weight = 1 / (1 + off * off);
        auto& sum = sums[(y * down / h) * across + x * across / w];
        sum[0] += weight * gx * gx, sum[1] += weight * gx * gy, sum[2] += weight * gy * gy;
        sum[3] += weight * gx * off, sum[4] += weight * gy * off;
      }
    }
    Plane du(across, down), dv(across, down);
    for (size_t i = 0; i < sums.size(); ++i) {
      const auto& s = sums[i];
      const double xx = s[0] + kStill, yy = s[2] + kStill;
      const double det = xx * yy - s[1] * s[1];
      const double dx = (yy * s[3] - s[1] * s[4]) / det, dy = (xx * s[4] - s[1] * s[3]) / det;
      du.values[i] = static_cast<float>(std::clamp(dx, -kMost, kMost) / w);
      dv.values[i] = static_cast<float>(std::clamp(dy, -kMost, kMost) / h);
    }
    for (size_t i = 0; i < sums.size(); ++i) {
      bend.u.values[i] -= du.values[i];
      bend.v.values[i] -= dv.values[i];
    }
    bend.u = blurred(bend.u, 0.6);
    bend.v = blurred(bend.v, 0.6);
  }
  double sum = 0;
  for (size_t i = 0; i < bend.u.values.size(); ++i) {
    const double x = double(bend.u.values[i]) * w, y = double(bend.v.values[i]) * h;
    sum += x * x + y * y;
  }
  bend.rms = std::sqrt(sum / double(bend.u.values.size())) / std::max(w, h);
  return bend;
}

}  // namespace proofleaf::returned
