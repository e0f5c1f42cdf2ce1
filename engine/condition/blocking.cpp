#include "condition/blocking.h"

#include <algorithm>
#include <cstdlib>

namespace proofleaf::condition {
namespace {

constexpr int kEdge = 3 * kUnit;
constexpr int64_t kLeastCount = 1500;  // differences at each position

}  // namespace

GridSteps::GridSteps(uint32_t width) : width_(width), above_(width) {}

void GridSteps::add_row(const Row& row) {
  const int16_t* l = row.l.data();
  int32_t sum[8] = {}, count[8] = {};
  for (uint32_t x = 0; x + 8 < width_; x += 8) {
    for (uint32_t k = 0; k < 8; ++k) {
      const int32_t difference = std::abs(l[x + k + 1] - l[x + k]);
      const int32_t counts = difference < kEdge;
      sum[k] += difference * counts;
      count[k] += counts;
    }
  }
  for (uint32_t k = 0; k < 8; ++k) {
    along_x_.sum[k] += sum[k];
    along_x_.count[k] += count[k];
  }
  if (row.y > 0) {
    int32_t down = 0, downs = 0;
    for (uint32_t x = 0; x < width_; ++x) {
      const int32_t difference = std::abs(l[x] - above_[x]);
      const int32_t counts = difference < kEdge;
      down += difference * counts;
      downs += counts;
    }
    along_y_.sum[row.y % 8] += down;
    along_y_.count[row.y % 8] += downs;
  }
  std::copy(row.l.begin(), row.l.end(), above_.begin());
}

// How far the strongest position lies above the median of the other seven.
double GridSteps::excess(const Sums& sums, double& step) {
  std::array<double, 8> mean{};
  for (size_t k = 0; k < 8; ++k) {
    if (sums.count[k] < kLeastCount) return -1;
    mean[k] = double(sums.sum[k]) / double(sums.count[k]) / kUnit;
  }
  std::sort(mean.begin(), mean.end());
  step = mean[7] - mean[3];
  return mean[3] > 0 ? step / mean[3] : step > 0 ? 10 : 0;
}

Blocking GridSteps::blocking() const {
  Blocking blocking;
  double step_x = 0, step_y = 0;
  const double x = excess(along_x_, step_x), y = excess(along_y_, step_y);
  if (x < 0 || y < 0) return blocking;
  blocking.enough = true;
  blocking.excess = std::min(x, y);
  blocking.step_l = std::min(step_x, step_y);
  return blocking;
}

}  // namespace proofleaf::condition
