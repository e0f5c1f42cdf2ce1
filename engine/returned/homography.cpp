#include "returned/homography.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "returned/solve_small.h"

namespace proofleaf::returned {
namespace {

constexpr std::array<Point, 4> kUnit{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};

double cross(const Point& a, const Point& b, const Point& c) {
  return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
}

// (width / height)^2 for one focal length [of the longer side].
double ratio_squared(const std::array<double, 3>& one, const std::array<double, 3>& two, double f) {
  const auto length = [&](const std::array<double, 3>& h) {
    return (h[0] * h[0] + h[1] * h[1]) / (f * f) + h[2] * h[2];
  };
  const double below = length(two);
  return below > 0 ? length(one) / below : 1;
}

}  // namespace

std::optional<Homography> Homography::to(const Corners& corners) {
  for (size_t i = 0; i < 4; ++i) {
    const double turn = cross(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]);
    if (!(std::abs(turn) > 1e-9)) return std::nullopt;
  }
  std::array<double, 64> a{};
  std::array<double, 8> b{};
  for (size_t i = 0; i < 4; ++i) {
    const auto [u, v] = kUnit[i];
    const auto [x, y] = corners[i];
    const std::array<double, 8> first{u, v, 1, 0, 0, 0, -u * x, -v * x},
        second{0, 0, 0, u, v, 1, -u * y, -v * y};
    std::copy(first.begin(), first.end(), &a[i * 16]);
    std::copy(second.begin(), second.end(), &a[i * 16 + 8]);
    b[i * 2] = x;
    b[i * 2 + 1] = y;
  }
  if (!solve_small<8>(a, b)) return std::nullopt;
  return Homography({b[0], b[1], b[2], b[3], b[4], b[5], b[6], b[7], 1});
}

Point Homography::operator()(const Point& p) const {
  const double w = h_[6] * p.x + h_[7] * p.y + h_[8];
  return {(h_[0] * p.x + h_[1] * p.y + h_[2]) / w, (h_[3] * p.x + h_[4] * p.y + h_[5]) / w};
}

Homography Homography::after(const Homography& first) const {
  std::array<double, 9> out{};
  for (size_t r = 0; r < 3; ++r) {
    for (size_t c = 0; c < 3; ++c) {
      for (size_t k = 0; k < 3; ++k) out[r * 3 + c] += h_[r * 3 + k] * first.h_[k * 3 + c];
    }
  }
  return Homography(out);
}

std::optional<Homography> Homography::inverse() const {
  const auto& m = h_;
  std::array<double, 9> out{
      m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
      m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
      m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]};
  const double det = m[0] * out[0] + m[1] * out[3] + m[2] * out[6];
  if (!std::isfinite(det) || std::abs(det) < 1e-14) return std::nullopt;
  for (double& value : out) value /= det;
  return Homography(out);
}

Corners Homography::corners() const {
  Corners found;
  for (size_t i = 0; i < 4; ++i) found[i] = (*this)(kUnit[i]);
  return found;
}

bool is_convex(const Corners& c) {
  int left = 0, right = 0;
  for (size_t i = 0; i < 4; ++i) {
    const double turn = cross(c[i], c[(i + 1) % 4], c[(i + 2) % 4]);
    if (!std::isfinite(turn)) return false;
    if (std::abs(turn) < 1e-9) return false;
    turn > 0 ? ++left : ++right;
  }
  return left == 0 || right == 0;
}

double area_of(const Corners& c) {
  double sum = 0;
  for (size_t i = 0; i < 4; ++i) {
    const Point &a = c[i], &b = c[(i + 1) % 4];
    sum += a.x * b.y - b.x * a.y;
  }
  return sum / 2;
}

Point middle_lengths(const Homography& print_to_photo, double width, double height) {
  const auto length = [&](const Point& from, const Point& to) {
    const Point a = print_to_photo(from), b = print_to_photo(to);
    return std::hypot((b.x - a.x) * width, (b.y - a.y) * height);
  };
  return {length({0, 0.5}, {1, 0.5}), length({0.5, 0}, {0.5, 1})};
}

ShapeSeen shape_seen(const Homography& print_to_photo, double photo_ratio, bool flat) {
  const auto& h = print_to_photo.rows();
  // Columns in units of the photo's longer side, from its middle.
  const double wide = photo_ratio >= 1 ? 1 : photo_ratio,
               high = photo_ratio >= 1 ? 1 / photo_ratio : 1;
  const auto column = [&](size_t c) -> std::array<double, 3> {
    return {(h[c] - h[6 + c] / 2) * wide, (h[3 + c] - h[6 + c] / 2) * high, h[6 + c]};
  };
  const auto one = column(0), two = column(1);
  if (flat) {  // seen from infinitely far
    const Point middles = middle_lengths(print_to_photo, wide, high);
    return {middles.y > 0 ? middles.x / middles.y : 1, 0};
  }
  double least = kShortest, most = kLongest;
  const double u = one[0] * two[0] + one[1] * two[1], v = one[2] * two[2];
  constexpr double kLeans = 0.01;  // of 1 / f^2, else noise decides
  if (std::abs(v) > kLeans * std::abs(h[8]) && -u / v > 0) {
    const double f = std::sqrt(-u / v);
    if (f >= kShortest && f <= kLongest) {
      least = std::max(least, f * 0.8);
      most = std::min(most, f * 1.25);
    }
  }
  double low = 1e9, high_ratio = 0;
  for (int i = 0; i <= 8; ++i) {
    const double ratio =
        std::sqrt(ratio_squared(one, two, least * std::pow(most / least, i / 8.0)));
    low = std::min(low, ratio);
    high_ratio = std::max(high_ratio, ratio);
  }
  const double middle = (low + high_ratio) / 2;
  return {middle, middle > 0 ? (high_ratio - low) / 2 / middle : 0};
}

}  // namespace proofleaf::returned
