// Small systems of linear equations. Internal to this folder.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace proofleaf::returned {

// Gaussian elimination with row pivoting: a (n x n, row by row) x = b; b becomes x. False where the
// rows depend on each other; a and b are then of no use.
template <size_t N>
bool solve_small(std::array<double, N * N>& a, std::array<double, N>& b) {
  for (size_t k = 0; k < N; ++k) {
    size_t best = k;
    for (size_t r = k + 1; r < N; ++r) {
      if (std::abs(a[r * N + k]) > std::abs(a[best * N + k])) best = r;
    }
    if (!(std::abs(a[best * N + k]) > 1e-12)) return false;
    for (size_t c = 0; c < N && best != k; ++c) std::swap(a[k * N + c], a[best * N + c]);
    std::swap(b[k], b[best]);
    for (size_t r = k + 1; r < N; ++r) {
      const double part = a[r * N + k] / a[k * N + k];
      for (size_t c = k; c < N; ++c) a[r * N + c] -= part * a[k * N + c];
      b[r] -= part * b[k];
    }
  }
  for (size_t k = N; k-- > 0;) {
    for (size_t c = k + 1; c < N; ++c) b[k] -= a[k * N + c] * b[c];
    b[k] /= a[k * N + k];
  }
  return true;
}

}  // namespace proofleaf::returned
