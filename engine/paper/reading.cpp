#include "paper/reading.h"

#include <algorithm>
#include <cmath>

namespace proofleaf {

ToneOffset offset_at(std::span<const ToneOffset> offsets, double l) {
  if (offsets.empty()) return {l, 0, 0, 0};
  const auto above =
      std::upper_bound(offsets.begin(), offsets.end(), l,
                       [](double value, const ToneOffset& at) { return value < at.l; });
  if (above == offsets.begin()) return offsets.front();
  if (above == offsets.end()) return offsets.back();
  const ToneOffset &low = *(above - 1), &high = *above;
  const double part = (l - low.l) / (high.l - low.l);
  return {l, std::lerp(low.dl, high.dl, part), std::lerp(low.da, high.da, part),
          std::lerp(low.db, high.db, part)};
}

Lab PaperReading::seen(const Lab& predicted, double chroma) const {
  const ToneOffset offset = offset_at(offsets, predicted.l);
  const double cast = std::clamp(1 - chroma / kNoCast, 0.0, 1.0);
  return {predicted.l + offset.dl, predicted.a + cast * offset.da, predicted.b + cast * offset.db};
}

}  // namespace proofleaf
