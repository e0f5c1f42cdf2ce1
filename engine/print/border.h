// What lies around the picture on the sheet: the picture carried on past its edge, or paper white
// with, if wanted, a thin line to sign on.
#pragma once

#include "print/light.h"
#include "print/size.h"
#include "raster/rows.h"

namespace proofleaf::print {

// The line under the picture, common practice, no source: three fifths down the lower border, a
// third of the picture long but at most 60 mm, from the picture's own side or in its middle.
inline constexpr double kSignatureLineMm = 0.2;    // thick
inline constexpr double kSignatureLengthMm = 60;   // at most
inline constexpr double kSignatureLightness = 60;  // [L*]

// The line on the sheet; a height of 0 where the plan has none.
PixelRect signature_line(const PrintPlan& plan);

// rows: the picture at plan.width x plan.height. The sheet: the picture's own pixels untouched in
// its middle, edge pixels mirrored (the last one twice) or drawn out, border and mat at 65535 on
// all channels. Handed back as it is where nothing is to be added. Holds plan.edge rows where they
// are mirrored. Error: rows of another size than planned.
Result<std::unique_ptr<RowSource>> bordered(std::unique_ptr<RowSource> rows, const Light& light,
                                            const PrintPlan& plan);

}  // namespace proofleaf::print
