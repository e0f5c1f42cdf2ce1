#include "condition/blocking.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>

namespace proofleaf::condition {
namespace {

constexpr int kEdge = 3 * kUnit;
constexpr int64_t kLeastCount = 1500;  // differences at each position

}  // namespace

GridSteps::GridSteps(uint32_t width) : above_(width), columns_(width > 0 ? width - 1 : 0) {}

void GridSteps::add_row(const Row& row) {
  const int16_t* l = row.l.data();
  for (size_t x = 0; x < columns_.size(); ++x) {
    const int32_t difference = std::abs(l[x + 1] - l[x]);
    const int32_t counts = difference < kEdge;
    columns_[x].sum += int64_t{difference} * counts;
    columns_[x].count += counts;
  }
  if (row.y > 0) {
    Line line;
    for (size_t x = 0; x < above_.size(); ++x) {
      const int32_t difference = std::abs(l[x] - above_[x]);
      const int32_t counts = difference < kEdge;
      line.sum += int64_t{difference} * counts;
      line.count += counts;
    }
    rows_.push_back(line);
  }
  std::copy(row.l.begin(), row.l.end(), above_.begin());
}

// How far the strongest position lies above the median of the other seven.
double GridSteps::excess(const std::vector<Line>& lines, double& step) {
  std::array<std::vector<double>, 8> means;
  std::array<int64_t, 8> counts{};
  for (size_t i = 0; i < lines.size(); ++i) {
    counts[i % 8] += lines[i].count;
    if (lines[i].count > 0)
      means[i % 8].push_back(double(lines[i].sum) / double(lines[i].count) / kUnit);
  }
  std::array<double, 8> middle{};
  for (size_t k = 0; k < 8; ++k) {
    if (counts[k] < kLeastCount) return -1;
    std::vector<double>& all = means[k];
    const auto half = all.begin() + std::ptrdiff_t(all.size() / 2);
    std::nth_element(all.begin(), half, all.end());
    middle[k] = *half;
  }
  std::sort(middle.begin(), middle.end());
  step = middle[7] - middle[3];
  return middle[3] > 0 ? step / middle[3] : step > 0 ? 10 : 0;
}

Blocking GridSteps::blocking() const {
  Blocking blocking;
  double step_x = 0, step_y = 0;
  const double x = excess(columns_, step_x), y = excess(rows_, step_y);
  if (x < 0 || y < 0) return blocking;
  blocking.enough = true;
  blocking.excess = std::min(x, y);
  blocking.step_l = std::min(step_x, step_y);
  return blocking;
}

}  // namespace proofleaf::condition
