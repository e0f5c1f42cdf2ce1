// The whole way from the master's rows to the print's.
#pragma once

#include "colour/profile.h"
#include "print/border.h"
#include "print/grain.h"
#include "print/resample.h"
#include "print/sharpen.h"
#include "print/size.h"

namespace proofleaf::print {

// Crop, resampling, sharpening, grain: the picture at plan.width x plan.height, in the master's own
// profile. rows: the master, three channels; colour corrections come before. Error: the profile has
// no way to colour, the crop does not lie inside of the rows, a setting out of its range.
Result<std::unique_ptr<RowSource>> prepared_picture(std::unique_ptr<RowSource> rows,
                                                    const Profile& master_profile,
                                                    const PrintPlan& plan,
                                                    const Sharpening& sharpening,
                                                    const Grain& grain, PaperClass paper);

// The same with edge, border and signature line: the sheet, plan.sheet_width x plan.sheet_height.
Result<std::unique_ptr<RowSource>> prepared(std::unique_ptr<RowSource> rows,
                                            const Profile& master_profile, const PrintPlan& plan,
                                            const Sharpening& sharpening, const Grain& grain,
                                            PaperClass paper);

}  // namespace proofleaf::print
