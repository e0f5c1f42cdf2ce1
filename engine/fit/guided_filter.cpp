#include "fit/guided_filter.h"

#include <algorithm>

namespace proofleaf {
namespace {

// Means along lines of `length` values `step` apart; windows are cut off at the ends.
void box_line(const double* from, double* to, size_t length, size_t step, size_t radius) {
  double sum = 0;
  size_t first = 0, end = 0;  // of the window
  for (size_t i = 0; i < length; ++i) {
    for (; end < std::min(length, i + radius + 1); ++end) sum += from[end * step];
    for (; first + radius < i; ++first) sum -= from[first * step];
    to[i * step] = sum / double(end - first);
  }
}

std::vector<double> box_mean(const std::vector<double>& values, uint32_t width, uint32_t height,
                             uint32_t radius) {
  std::vector<double> across(values.size()), both(values.size());
  for (size_t y = 0; y < height; ++y) {
    box_line(&values[y * width], &across[y * width], width, 1, radius);
  }
  for (size_t x = 0; x < width; ++x) box_line(&across[x], &both[x], height, width, radius);
  return both;
}

}  // namespace

GuidedPlane guided_plane(std::span<const float> values, uint32_t width, uint32_t height,
                         uint32_t radius, double eps) {
  std::vector<double> scale(values.begin(), values.end()), offset(values.size());
  const std::vector<double> mean = box_mean(scale, width, height, radius);
  for (double& value : scale) value *= value;
  scale = box_mean(scale, width, height, radius);
  for (size_t i = 0; i < scale.size(); ++i) {
    const double variance = std::max(0.0, scale[i] - mean[i] * mean[i]);
    scale[i] = variance / (variance + eps);
    offset[i] = (1 - scale[i]) * mean[i];
  }
  scale = box_mean(scale, width, height, radius);
  offset = box_mean(offset, width, height, radius);
  return {width, height, std::vector<float>(scale.begin(), scale.end()),
          std::vector<float>(offset.begin(), offset.end())};
}

}  // namespace proofleaf
