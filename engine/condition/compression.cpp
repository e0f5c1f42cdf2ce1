#include "condition/compression.h"

#include <algorithm>
#include <cstdlib>

namespace proofleaf::condition {
namespace {

// ITU-T T.81 table K.1, by row.
constexpr JpegTable kLuminance{16,  11,  10,  16,  24, 40, 51,  61,  12,  12,  14,  19,  26,
                               58,  60,  55,  14,  13, 16, 24,  40,  57,  69,  56,  14,  17,
                               22,  29,  51,  87,  80, 62, 18,  22,  37,  56,  68,  109, 103,
                               77,  24,  35,  55,  64, 81, 104, 113, 92,  49,  64,  78,  87,
                               103, 121, 120, 101, 72, 92, 95,  98,  112, 100, 103, 99};

int scaled(int entry, int quality) {
  const int percentage = quality < 50 ? 5000 / quality : 200 - 2 * quality;
  return std::clamp((entry * percentage + 50) / 100, 1, 255);
}

}  // namespace

std::optional<Compression> estimate_quality(const std::vector<JpegTable>& tables) {
  if (tables.empty()) return {};
  Compression best;
  long least = -1;
  for (int quality = 1; quality <= 100; ++quality) {
    long off = 0;
    for (size_t i = 0; i < kLuminance.size(); ++i) {
      off += std::abs(int{tables[0][i]} - scaled(kLuminance[i], quality));
    }
    if (least < 0 || off < least) {
      least = off;
      best = {quality, off == 0};
    }
  }
  return best;
}

}  // namespace proofleaf::condition
