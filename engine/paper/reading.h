// How a print of this paper, printer and house was seen to come out: what its profile does not
// know.
#pragma once

#include <span>
#include <vector>

#include "colour/lab.h"

namespace proofleaf {

// A neutral's departure from its prediction, absolute L*a*b* D50, measured less predicted.
struct ToneOffset {
  double l = 0;   // [L*] predicted
  double dl = 0;  // [L*]
  double da = 0, db = 0;
  bool operator==(const ToneOffset& other) const = default;
};
// Between the offsets in straight lines, past them the first or last one; nothing where there are
// none. offsets: rising in l.
ToneOffset offset_at(std::span<const ToneOffset> offsets, double l);

struct PaperReading {
  std::vector<ToneOffset> offsets;  // rising in l; empty: as predicted
  bool operator==(const PaperReading& other) const = default;

  // What a colour predicted for the paper is to look like: its L* moved as the neutral of that L*
  // was, a* and b* the same, less so the further it is from grey and not at all from kNoCast on,
  // since only neutrals were measured (common practice, no source).
  // predicted: absolute L*a*b* D50. chroma: its C*, media-relative.
  Lab seen(const Lab& predicted, double chroma) const;
};
inline constexpr double kNoCast = 60;  // [C*]

}  // namespace proofleaf
