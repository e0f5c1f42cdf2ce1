// What a JPEG's quantisation tables say of how hard it was compressed.
#pragma once

#include <optional>

#include "codec/master.h"

namespace proofleaf::condition {

struct Compression {
  int quality = 0;     // 1..100 on the scale of the IJG's library
  bool exact = false;  // the table is the scaled one, number for number
};

// The quality whose scaled luminance table lies nearest. The table is ITU-T T.81 (1992) Annex K,
// table K.1; the scaling is that of the Independent JPEG Group's library (jcparam.c): percentage
// S = 5000 / q below 50, else 200 - 2 q; entry (t S + 50) / 100 held in 1..255. Empty: no table.
std::optional<Compression> estimate_quality(const std::vector<JpegTable>& tables);

}  // namespace proofleaf::condition
