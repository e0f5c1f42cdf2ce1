// The eight ways a picture may lie in its file (Exif 2.32 tag 0x0112), set upright.
#pragma once

#include <memory>

#include "raster/rows.h"

namespace proofleaf {

inline constexpr size_t kOrientBudget = size_t{192} << 20;  // [bytes]

// `inner` as it stands upright. Orientation 1 (or one outside 1..8) gives `inner` back, 2 mirrors
// each row in place. 3 and 4 read the source in bands from its end; 5..8 turn rows into columns and
// run the whole source once for each band of output rows. A band takes up to budget [bytes], and at
// least one output row: 102 megapixels of 16-bit RGB take four runs at the default.
std::unique_ptr<RowSource> orient_rows(std::unique_ptr<RowSource> inner, int orientation,
                                       size_t budget = kOrientBudget);

}  // namespace proofleaf
