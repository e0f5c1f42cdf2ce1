// A master's RGB as media-relative L*a*b* D50 and back, in floating point through LittleCMS.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "colour/lab.h"
#include "colour/lcms.h"

namespace proofleaf {

// Once made, several threads may ask at the same time.
class MasterSpace {
 public:
  // Error: the profile is not RGB, or has no way from its numbers to colour or back.
  static Result<std::shared_ptr<const MasterSpace>> make(const Profile& master);

  // rgb: encoded 0..1, three to a colour.
  std::vector<Lab> colours(std::span<const float> rgb) const;

  // Back. Colours the space cannot hold keep their lightness and hue and lose chroma until they
  // are inside (to within kInside); lightness is held within 0..100 first, and what even a neutral
  // cannot reach goes to the nearest code. rgb: three to a colour, 0..1 when done.
  void codes(std::span<const Lab> colours, std::span<float> rgb) const;

  // Relative luminance Y 0..1 of the neutral whose three codes are `code` 0..1: the space's own
  // tone curve, which for a matrix profile is its channels' linear light.
  double linear(double code) const;

  // The shaper of cubes over this space (proof/cube_build.h).
  std::vector<uint16_t> shaper() const;

  static constexpr double kInside = 0.25;  // [CIE 1976 dE]

 private:
  MasterSpace() = default;
  Status open(const Profile& master);
  void to_codes(std::span<const float> lab, std::span<float> rgb) const;

  Profile master_;
  Transform to_colour_, to_code_;
  std::vector<float> linear_;  // kSteps codes, evenly spaced
};

}  // namespace proofleaf
