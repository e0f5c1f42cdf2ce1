// Small ICC profiles of every kind that a reader knows, for damage to be done to.
#pragma once

#include <string>
#include <vector>

#include "base/bytes.h"

namespace proofleaf::testing {

struct SmallProfile {
  std::string name;
  Bytes bytes;
};

// Output profiles of version 2 (lut8, lut16) and 4 (lutAtoB, lutBtoA) for RGB, CMYK and grey;
// matrix profiles with tabulated and parametric curves; grey curves to XYZ and to L*a*b*. 0.3 to 5
// KB each.
std::vector<SmallProfile> small_profiles();

}  // namespace proofleaf::testing
