// A photo or a scan of the print that came back, as light.
#pragma once

#include <array>

#include "base/watch.h"
#include "colour/profile.h"
#include "raster/preview.h"
#include "returned/plane.h"

namespace proofleaf::returned {

inline constexpr uint64_t kMostPhotoPixels = 4'000'000;  // read of any photo

// Relative XYZ D50 as the photo's own profile says, 1 its white; what a camera made of the scene,
// not what was there.
struct Photo {
  std::array<Plane, 3> xyz;
  Plane l;        // L* 0..100 of it
  Plane clipped;  // 1 where a channel stands at its upper end, 0 elsewhere, between at edges
  uint32_t width() const { return l.width; }
  uint32_t height() const { return l.height; }
};

// picture: at most kMostPhotoPixels, in the RGB profile. Error: an empty or one-sided picture, a
// profile that cannot be used, stopped.
Result<Photo> photo_of(const Picture& picture, const Profile& profile, const Watch& watch);

}  // namespace proofleaf::returned
