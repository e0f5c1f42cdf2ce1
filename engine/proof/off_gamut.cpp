#include "proof/off_gamut.h"

#include <algorithm>
#include <vector>

namespace proofleaf {
namespace {

constexpr size_t kAtOnce = 4096;  // [pixels]

void gather(std::span<const uint16_t> rgb, size_t first, size_t step, std::span<uint16_t> out) {
  for (size_t i = 0; i < out.size() / 3; ++i)
    std::copy_n(&rgb[(first + i * step) * 3], 3, &out[i * 3]);
}

}  // namespace

double OffGamut::share(int threshold) const {
  const auto at = static_cast<size_t>(std::clamp(threshold, 0, static_cast<int>(kMost)));
  return at_least[0] == 0 ? 0 : static_cast<double>(at_least[at]) / at_least[0];
}

OffGamut count_off_gamut(const Cube& cube, std::span<const uint16_t> rgb, size_t step) {
  const size_t count = (rgb.size() / 3 + step - 1) / step;
  std::vector<uint16_t> some(kAtOnce * 3);
  std::vector<uint8_t> shown(kAtOnce * 4);
  OffGamut off;
  for (size_t first = 0; first < count; first += kAtOnce) {
    const size_t here = std::min(kAtOnce, count - first);
    gather(rgb, first * step, step, std::span(some).first(here * 3));
    proof_to_screen8(cube, std::span<const uint16_t>(some).first(here * 3), shown);
    for (size_t i = 0; i < here; ++i)
      ++off.at_least[std::min(size_t{shown[i * 4 + 3]} / 10, OffGamut::kMost)];
  }
  for (size_t i = OffGamut::kMost; i > 0; --i) off.at_least[i - 1] += off.at_least[i];
  return off;
}

}  // namespace proofleaf
