#include "returned/photo.h"

#include <algorithm>

#include "fit/master_space.h"

namespace proofleaf::returned {
namespace {

constexpr uint16_t kClipped = 65535 - 600;  // the last two codes of 8 bits
constexpr uint32_t kLeastSide = 64;         // [pixels]

}  // namespace

Result<Photo> photo_of(const Picture& picture, const Profile& profile, const Watch& watch) {
  const uint32_t width = picture.width, height = picture.height;
  if (width < kLeastSide || height < kLeastSide) {
    return Error{"This picture is too small to tell anything of a print."};
  }
  auto space = MasterSpace::make(profile);
  if (!space) return space.error();
  Photo photo;
  for (Plane& plane : photo.xyz) plane = Plane(width, height);
  photo.l = photo.clipped = Plane(width, height);
  std::vector<float> rgb(size_t{width} * 3);
  for (uint32_t y = 0; y < height; ++y) {
    if (y % 64 == 0 && !keep_going(watch, double(y) / height)) return stopped();
    const uint16_t* row = &picture.rgb[size_t{y} * width * 3];
    for (size_t i = 0; i < rgb.size(); ++i) rgb[i] = float(row[i]) / 65535;
    const std::vector<Lab> colours = space.value()->colours(rgb);
    for (uint32_t x = 0; x < width; ++x) {
      const XYZ light = xyz_from_lab(colours[x]);
      photo.xyz[0].at(x, y) = static_cast<float>(light.x);
      photo.xyz[1].at(x, y) = static_cast<float>(light.y);
      photo.xyz[2].at(x, y) = static_cast<float>(light.z);
      photo.l.at(x, y) = static_cast<float>(std::clamp(colours[x].l, 0.0, 100.0));
      photo.clipped.at(x, y) =
          std::max({row[x * 3], row[x * 3 + 1], row[x * 3 + 2]}) >= kClipped ? 1.f : 0.f;
    }
  }
  return photo;
}

}  // namespace proofleaf::returned
