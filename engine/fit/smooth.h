// Internal to this folder.
#pragma once

#include <algorithm>

namespace proofleaf {

// 0 up to 0, 1 from 1 on, with no slope at either: 3 t^2 - 2 t^3.
inline double smooth_step(double t) {
  const double held = std::clamp(t, 0.0, 1.0);
  return held * held * (3 - 2 * held);
}

}  // namespace proofleaf
