// A change of colour that looks at one pixel at a time.
#pragma once

#include <span>

namespace proofleaf {

class ColourMap {
 public:
  virtual ~ColourMap() = default;
  // rgb: encoded RGB 0..1 in the master's own space, three to a colour; changed in place, 0..1
  // again. Several threads may ask at the same time.
  virtual void apply(std::span<float> rgb) const = 0;
  // False where apply() leaves every colour as it is: stages may then leave the map out.
  virtual bool changes() const { return true; }
};

}  // namespace proofleaf
