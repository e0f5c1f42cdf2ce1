// The demo landscape as raw material for pictures that behave like photographs.
#pragma once

#include <cstdio>
#include <cstdlib>

#include "base/files.h"
#include "codec/master.h"
#include "colour/lcms.h"
#include "raster/preview.h"

namespace bench {

template <class T>
T take_or_stop(proofleaf::Result<T> result) {
  if (result) return result.take();
  std::fprintf(stderr, "%s\n", result.error().message.c_str());
  std::exit(1);
}

// demo-images/saltings.png in sRGB, 16 bits.
inline proofleaf::Picture landscape() {
  using namespace proofleaf;
  auto master =
      take_or_stop(open_master(take_or_stop(open_file(REPOSITORY "/demo-images/saltings.png"))));
  const auto colour = take_or_stop(master_colour(master->info(), "saltings.png", "", {}));
  auto rows = take_or_stop(master->open_rows());
  Picture picture = take_or_stop(shrink(*rows, 1, {}));
  const Profile srgb = take_or_stop(standard_profile("srgb"));
  std::vector<uint16_t> rgb(picture.rgb.size());
  const Transform transform(cmsCreateTransform(colour.profile.handle(), TYPE_RGB_16, srgb.handle(),
                                               TYPE_RGB_16, INTENT_RELATIVE_COLORIMETRIC, kExact));
  cmsDoTransform(transform.get(), picture.rgb.data(), rgb.data(),
                 static_cast<cmsUInt32Number>(rgb.size() / 3));
  picture.rgb = std::move(rgb);
  return picture;
}

// The grain of a camera at its base sensitivity: two triangular sums of up to one 8-bit level.
inline uint16_t with_grain(uint16_t value, uint32_t first_random, uint32_t second_random) {
  const int grain = int(first_random % 256) + int(second_random % 256) - 255;
  const int sum = value + grain;
  return static_cast<uint16_t>(sum < 0 ? 0 : sum > 65535 ? 65535 : sum);
}

}  // namespace bench
