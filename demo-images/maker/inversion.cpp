#include "inversion.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace proofleaf::demo {
namespace {

constexpr size_t kSide = 41;   // nodes a side of the cube
constexpr size_t kCoarse = 4;  // every fourth node is tried as a start

size_t node(size_t r, size_t g, size_t b) { return (r * kSide + g) * kSide + b; }
Lab mix(const Lab& p, const Lab& q, double u) {
  return {p.l + u * (q.l - p.l), p.a + u * (q.a - p.a), p.b + u * (q.b - p.b)};
}
Lab minus(const Lab& p, const Lab& q) { return {p.l - q.l, p.a - q.a, p.b - q.b}; }

// Solves the n x n system m x = v (n up to 3) by elimination with pivoting; false if singular.
bool solve(std::array<std::array<double, 3>, 3> m, std::array<double, 3>& v, size_t n) {
  for (size_t c = 0; c < n; ++c) {
    size_t pivot = c;
    for (size_t r = c + 1; r < n; ++r)
      if (std::fabs(m[r][c]) > std::fabs(m[pivot][c])) pivot = r;
    if (std::fabs(m[pivot][c]) < 1e-12) return false;
    std::swap(m[c], m[pivot]);
    std::swap(v[c], v[pivot]);
    for (size_t r = c + 1; r < n; ++r) {
      const double k = m[r][c] / m[c][c];
      for (size_t j = c; j < n; ++j) m[r][j] -= k * m[c][j];
      v[r] -= k * v[c];
    }
  }
  for (size_t c = n; c-- > 0;) {
    for (size_t j = c + 1; j < n; ++j) v[c] -= m[c][j] * v[j];
    v[c] /= m[c][c];
  }
  return true;
}

}  // namespace

// Distances are measured in the frame of the wanted colour: along L*, along its chroma and across.
struct DeviceCube::Weights {
  explicit Weights(const Lab& want) {
    const double c = std::hypot(want.a, want.b), far = c * c / (c * c + 15.0 * 15.0);
    ca = c > 1e-6 ? want.a / c : 1.0;
    cb = c > 1e-6 ? want.b / c : 0.0;
    chroma = std::sqrt(1.0 - 0.45 * far);
    hue = std::sqrt(1.0 + 1.6 * far);
  }
  std::array<double, 3> operator()(const Lab& d) const {
    return {d.l, chroma * (d.a * ca + d.b * cb), hue * (d.b * ca - d.a * cb)};
  }
  double squared(const Lab& d) const {
    const auto e = (*this)(d);
    return e[0] * e[0] + e[1] * e[1] + e[2] * e[2];
  }
  double ca, cb, chroma, hue;
};

DeviceCube::DeviceCube(const Forward& forward) : nodes_(kSide * kSide * kSide) {
  constexpr double step = 1.0 / (kSide - 1);
  for (size_t r = 0; r < kSide; ++r)
    for (size_t g = 0; g < kSide; ++g)
      for (size_t b = 0; b < kSide; ++b)
        nodes_[node(r, g, b)] =
            forward({static_cast<double>(r) * step, static_cast<double>(g) * step,
                     static_cast<double>(b) * step});
}

// Value and slopes (per unit of device value) of the trilinear cell that holds rgb.
double DeviceCube::gradient(const Rgb& rgb, Lab& value, std::array<Lab, 3>& slopes) const {
  std::array<size_t, 3> i;
  Rgb u;
  for (size_t k = 0; k < 3; ++k) {
    const double x = std::clamp(rgb[k], 0.0, 1.0) * (kSide - 1);
    i[k] = std::min(static_cast<size_t>(x), kSide - 2);
    u[k] = x - static_cast<double>(i[k]);
  }
  std::array<Lab, 8> v;
  for (size_t c = 0; c < 8; ++c)
    v[c] = nodes_[node(i[0] + (c >> 2), i[1] + (c >> 1 & 1), i[2] + (c & 1))];
  const auto face = [&](size_t axis, size_t side) {
    const size_t p = axis == 0 ? 1 : 0, q = axis == 2 ? 1 : 2;  // the two other axes
    const auto corner = [&](size_t sp, size_t sq) {
      std::array<size_t, 3> s{};
      s[axis] = side;
      s[p] = sp;
      s[q] = sq;
      return v[s[0] * 4 + s[1] * 2 + s[2]];
    };
    return mix(mix(corner(0, 0), corner(0, 1), u[q]), mix(corner(1, 0), corner(1, 1), u[q]), u[p]);
  };
  for (size_t axis = 0; axis < 3; ++axis) {
    const Lab low = face(axis, 0), high = face(axis, 1);
    slopes[axis] = minus(high, low);
    for (double* s : {&slopes[axis].l, &slopes[axis].a, &slopes[axis].b}) *s *= kSide - 1;
    if (axis == 0) value = mix(low, high, u[0]);
  }
  return value.l;
}

Lab DeviceCube::at(const Rgb& rgb) const {
  Lab value;
  std::array<Lab, 3> slopes;
  gradient(rgb, value, slopes);
  return value;
}

// Levenberg's damped least squares inside the box [0,1]^3; axes pressed against a wall are held.
DeviceCube::Answer DeviceCube::descend(const Lab& want, const Weights& w, Rgb rgb) const {
  double damping = 1.0;
  Lab value;
  std::array<Lab, 3> slopes;
  gradient(rgb, value, slopes);
  double error = w.squared(minus(value, want));
  for (int round = 0; round < 60 && error > 1e-10 && damping < 1e9; ++round) {
    const auto e = w(minus(value, want));
    std::array<std::array<double, 3>, 3> j;
    std::array<double, 3> g;
    for (size_t k = 0; k < 3; ++k) {
      j[k] = w(slopes[k]);
      g[k] = j[k][0] * e[0] + j[k][1] * e[1] + j[k][2] * e[2];
    }
    std::array<size_t, 3> open{};
    size_t n = 0;
    for (size_t k = 0; k < 3; ++k)
      if (!(rgb[k] <= 0.0 && g[k] > 0) && !(rgb[k] >= 1.0 && g[k] < 0)) open[n++] = k;
    if (n == 0) break;
    std::array<std::array<double, 3>, 3> m{};
    std::array<double, 3> step{};
    for (size_t p = 0; p < n; ++p) {
      for (size_t q = 0; q < n; ++q) {
        const auto &a = j[open[p]], &b = j[open[q]];
        m[p][q] = a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + (p == q ? damping : 0.0);
      }
      step[p] = -g[open[p]];
    }
    if (!solve(m, step, n)) break;
    Rgb next = rgb;
    double moved = 0;
    for (size_t p = 0; p < n; ++p) {
      next[open[p]] = std::clamp(rgb[open[p]] + step[p], 0.0, 1.0);
      moved = std::max(moved, std::fabs(next[open[p]] - rgb[open[p]]));
    }
    Lab there;
    std::array<Lab, 3> there_slopes;
    gradient(next, there, there_slopes);
    const double now = w.squared(minus(there, want));
    if (now < error) {
      const bool settled = error - now < 1e-9 * error && moved < 1e-6;
      rgb = next;
      value = there;
      slopes = there_slopes;
      error = now;
      damping = std::max(damping * 0.2, 1e-3);
      if (settled) break;
    } else {
      if (moved < 1e-8) break;
      damping *= 6.0;
    }
  }
  return {rgb, std::sqrt(error)};
}

DeviceCube::Answer DeviceCube::nearest(const Lab& want) const {
  const Weights w(want);
  std::array<std::pair<double, Rgb>, 2> starts;
  starts.fill({std::numeric_limits<double>::max(), Rgb{0.5, 0.5, 0.5}});
  constexpr double step = 1.0 / (kSide - 1);
  for (size_t r = 0; r < kSide; r += kCoarse)
    for (size_t g = 0; g < kSide; g += kCoarse)
      for (size_t b = 0; b < kSide; b += kCoarse) {
        const double d = w.squared(minus(nodes_[node(r, g, b)], want));
        if (d >= starts[1].first) continue;
        starts[1] = {d, Rgb{static_cast<double>(r) * step, static_cast<double>(g) * step,
                            static_cast<double>(b) * step}};
        if (starts[1].first < starts[0].first) std::swap(starts[0], starts[1]);
      }
  Answer best = descend(want, w, starts[0].second);
  if (best.distance > 1e-3) {
    const Answer other = descend(want, w, starts[1].second);
    if (other.distance < best.distance) best = other;
  }
  return best;
}

double DeviceCube::most_chroma(double l, double hue) const {
  double low = 0, high = 150;
  for (int i = 0; i < 9; ++i) {
    const double c = 0.5 * (low + high);
    (nearest({l, c * std::cos(hue), c * std::sin(hue)}).distance < 0.5 ? low : high) = c;
  }
  return low;
}

}  // namespace proofleaf::demo
