#include "raster/working_size.h"

#include <algorithm>

namespace proofleaf {

uint32_t working_pixels_for(double memory) {
  constexpr double kEnough = 4;  // [GiB]
  if (!(memory > 0 && memory < kEnough)) return kUsualWorkingPixels;
  return std::max(kSmallestWorkingPixels, uint32_t(kUsualWorkingPixels * memory / kEnough));
}

uint32_t smaller_working_pixels(uint32_t tried, uint64_t shown) {
  const uint64_t had = shown > 0 ? std::min<uint64_t>(tried, shown) : tried;
  if (had <= kSmallestWorkingPixels) return 0;
  return std::max(kSmallestWorkingPixels, uint32_t(had / 2));
}

}  // namespace proofleaf
