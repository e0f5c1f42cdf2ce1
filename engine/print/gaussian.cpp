#include "print/gaussian.h"

#include <algorithm>
#include <cmath>

namespace proofleaf::print {

Gaussian::Gaussian(double sigma) {
  const auto reach = static_cast<uint32_t>(std::ceil(3 * sigma));
  half_.resize(reach + 1);
  std::vector<double> weights(reach + 1);
  double sum = 0;
  for (uint32_t k = 0; k <= reach; ++k) {
    weights[k] = sigma > 0 ? std::exp(-0.5 * k * k / (sigma * sigma)) : 1;
    sum += weights[k] * (k == 0 ? 1 : 2);
  }
  for (uint32_t k = 0; k <= reach; ++k) half_[k] = static_cast<float>(weights[k] / sum);
}

double Gaussian::power() const {
  double sum = 0;
  for (size_t k = 0; k < half_.size(); ++k) {
    sum += double(half_[k]) * half_[k] * (k == 0 ? 1 : 2);
  }
  return sum;
}

void Gaussian::across(std::span<const float> in, std::span<float> out) const {
  constexpr size_t kChunk = 1024;  // stays in the nearest cache
  const float* middle = in.data() + reach();
  for (size_t start = 0; start < out.size(); start += kChunk) {
    const size_t end = std::min(out.size(), start + kChunk);
    for (size_t x = start; x < end; ++x) out[x] = half_[0] * middle[x];
    for (size_t k = 1; k < half_.size(); ++k) {
      const float weight = half_[k];
      const float *left = middle - k, *right = middle + k;
      for (size_t x = start; x < end; ++x) out[x] += weight * (left[x] + right[x]);
    }
  }
}

void pad_ends(std::span<float> padded, uint32_t reach) {
  const size_t end = padded.size() - reach;
  std::fill_n(padded.begin(), reach, padded[reach]);
  std::fill(padded.begin() + static_cast<std::ptrdiff_t>(end), padded.end(), padded[end - 1]);
}

}  // namespace proofleaf::print
