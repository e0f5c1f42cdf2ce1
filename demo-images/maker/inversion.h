// The printer turned round: from media-relative L*a*b* to the device values that print it.
#pragma once

#include <functional>
#include <vector>

#include "separation.h"

namespace proofleaf::demo {

using Forward = std::function<Lab(const Rgb&)>;

// A cube of L*a*b* over device RGB, read by trilinear interpolation, and its inverse.
class DeviceCube {
 public:
  explicit DeviceCube(const Forward& forward);
  Lab at(const Rgb& rgb) const;

  struct Answer {
    Rgb rgb{};
    double distance = 0;  // weighted dE76 left; about 0 inside the gamut
  };
  // The device values whose colour is nearest to `want`; hue counts more than lightness, lightness
  // more than chroma, and near the neutral axis all count the same.
  Answer nearest(const Lab& want) const;

  // The most chroma printed at this lightness and hue [radians], by bisection on `distance`.
  double most_chroma(double l, double hue) const;

 private:
  struct Weights;
  Answer descend(const Lab& want, const Weights& w, Rgb from) const;
  double gradient(const Rgb& rgb, Lab& value, std::array<Lab, 3>& slopes) const;
  std::vector<Lab> nodes_;
};

}  // namespace proofleaf::demo
