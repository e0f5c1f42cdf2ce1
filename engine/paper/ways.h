// A paper's own tables as LittleCMS transforms. Internal to this folder.
#pragma once

#include "colour/lcms.h"

namespace proofleaf {

// Media-relative L*a*b* D50 floats to the paper's channels (floats of float_format()) by the
// relative colorimetric B2A table. Empty where the profile has no usable way there.
Transform from_lab(const Profile& profile);

}  // namespace proofleaf
