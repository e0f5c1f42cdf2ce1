#include "returned/plane.h"

#include <algorithm>
#include <cmath>

namespace proofleaf::returned {
namespace {

// A mean of 2 * reach + 1 values along a line of `count` that lie `step` apart.
void box_along(const float* in, float* out, size_t count, size_t step, int64_t reach) {
  const auto last = static_cast<int64_t>(count) - 1;
  const auto value = [&](int64_t i) {
    return double(in[size_t(std::clamp<int64_t>(i, 0, last)) * step]);
  };
  double sum = 0;
  for (int64_t i = -reach; i <= reach; ++i) sum += value(i);
  const double weight = 1.0 / double(2 * reach + 1);
  for (int64_t i = 0; i <= last; ++i) {
    out[size_t(i) * step] = static_cast<float>(sum * weight);
    sum += value(i + reach + 1) - value(i - reach);
  }
}

// Down all columns at once, which keeps to the order of memory.
void box_down(const Plane& in, Plane& out, int64_t reach) {
  const auto last = static_cast<int64_t>(in.height) - 1;
  const auto row = [&](int64_t y) {
    return &in.values[size_t(std::clamp<int64_t>(y, 0, last)) * in.width];
  };
  std::vector<double> sums(in.width);
  for (int64_t y = -reach; y <= reach; ++y) {
    for (uint32_t x = 0; x < in.width; ++x) sums[x] += row(y)[x];
  }
  const double weight = 1.0 / double(2 * reach + 1);
  for (int64_t y = 0; y <= last; ++y) {
    float* into = &out.values[size_t(y) * in.width];
    const float *next = row(y + reach + 1), *gone = row(y - reach);
    for (uint32_t x = 0; x < in.width; ++x) {
      into[x] = static_cast<float>(sums[x] * weight);
      sums[x] += double(next[x]) - double(gone[x]);
    }
  }
}

}  // namespace

float Plane::sample(double u, double v) const {
  const double x = std::clamp(u * width - 0.5, 0.0, double(width - 1));
  const double y = std::clamp(v * height - 0.5, 0.0, double(height - 1));
  const auto left = static_cast<uint32_t>(x), top = static_cast<uint32_t>(y);
  const uint32_t right = std::min(left + 1, width - 1), bottom = std::min(top + 1, height - 1);
  const auto fx = static_cast<float>(x - left), fy = static_cast<float>(y - top);
  const float above = at(left, top) + fx * (at(right, top) - at(left, top));
  const float below = at(left, bottom) + fx * (at(right, bottom) - at(left, bottom));
  return above + fy * (below - above);
}

Plane blurred(const Plane& plane, double sigma) {
  if (sigma < 0.5 || plane.empty()) return plane;
  // A box of side n has the variance (n^2 - 1) / 12; three of them make sigma^2.
  const auto reach = std::max<int64_t>(1, std::lround((std::sqrt(4 * sigma * sigma + 1) - 1) / 2));
  Plane one = plane, two(plane.width, plane.height);
  for (int turn = 0; turn < 3; ++turn) {
    for (uint32_t y = 0; y < plane.height; ++y) {
      const size_t from = size_t{y} * plane.width;
      box_along(&one.values[from], &two.values[from], plane.width, 1, reach);
    }
    box_down(two, one, reach);
  }
  return one;
}

Plane halved(const Plane& plane) {
  return shrunk(plane, (plane.width + 1) / 2, (plane.height + 1) / 2);
}

Pyramid pyramid_of(Plane plane) {
  constexpr uint32_t kLeast = 32;
  Pyramid levels;
  levels.push_back(std::move(plane));
  while (std::min(levels.back().width, levels.back().height) >= 2 * kLeast) {
    levels.push_back(halved(levels.back()));
  }
  return levels;
}

Plane shrunk(const Plane& plane, uint32_t width, uint32_t height) {
  width = std::clamp(width, 1u, std::max(1u, plane.width));
  height = std::clamp(height, 1u, std::max(1u, plane.height));
  Plane small(width, height);
  for (uint32_t y = 0; y < height; ++y) {
    const auto top = static_cast<uint32_t>(uint64_t{y} * plane.height / height);
    const auto bottom = static_cast<uint32_t>(uint64_t{y + 1} * plane.height / height);
    for (uint32_t x = 0; x < width; ++x) {
      const auto left = static_cast<uint32_t>(uint64_t{x} * plane.width / width);
      const auto right = static_cast<uint32_t>(uint64_t{x + 1} * plane.width / width);
      double sum = 0;
      for (uint32_t py = top; py < bottom; ++py) {
        for (uint32_t px = left; px < right; ++px) sum += plane.at(px, py);
      }
      small.at(x, y) = static_cast<float>(sum / (double(bottom - top) * (right - left)));
    }
  }
  return small;
}

double median_of(std::vector<float>& values) {
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace proofleaf::returned
