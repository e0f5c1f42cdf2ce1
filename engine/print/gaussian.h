// The Gaussian bell on rows of floats, across and down.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace proofleaf::print {

// Half of a bell's weights, the middle first, out to three standard deviations [pixels] (0.3 % of
// it lies outside); both halves together sum to 1.
class Gaussian {
 public:
  Gaussian() = default;
  explicit Gaussian(double sigma);
  uint32_t reach() const { return static_cast<uint32_t>(half_.size()) - 1; }
  // The sum of the weights' squares, in one direction: what is left of white noise's variance.
  double power() const;

  // down: the weighted mean of the 2 * reach() + 1 rows row(-reach()) .. row(reach()).
  template <class RowAt>
  void down(const RowAt& row, std::span<float> out) const {
    const float* middle = row(0);
    for (size_t x = 0; x < out.size(); ++x) out[x] = half_[0] * middle[x];
    for (uint32_t k = 1; k < half_.size(); ++k) {
      const float *above = row(-static_cast<int64_t>(k)), *below = row(k);
      const float weight = half_[k];
      for (size_t x = 0; x < out.size(); ++x) out[x] += weight * (above[x] + below[x]);
    }
  }
  // across: `in` has reach() values more at either end than out.
  void across(std::span<const float> in, std::span<float> out) const;

 private:
  std::vector<float> half_{1.0f};
};

// A row of `width` values with `reach` repeats of its ends on either side.
void pad_ends(std::span<float> padded, uint32_t reach);

}  // namespace proofleaf::print
