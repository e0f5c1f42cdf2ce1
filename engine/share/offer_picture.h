// The small picture of an offer: means of the master's pixels in the smallest standard space that
// holds its colours, as a JPEG of as few bytes as the standard allows (ITU-T T.81, progressive with
// arithmetic coding; only this program reads it).
#pragma once

#include <span>
#include <string>
#include <vector>

#include "colour/profile.h"

namespace proofleaf {

inline constexpr uint32_t kOfferSide = 480;            // [pixels] the longest
inline constexpr size_t kLargestOfferPicture = 65536;  // [bytes] of JPEG

struct OfferPicture {
  std::string space;               // id of a standard_space()
  uint32_t width = 0, height = 0;  // [pixels]
  std::vector<uint8_t> rgb;        // three 8-bit samples a pixel
};

// rgb: 16-bit, width x height, in the profile `master` (RGB). side: of the result, at most
// [pixels]; a whole factor is taken off. The space is srgb, p3 or romm: the first that cuts off
// at most one pixel in twenty. Error: the sizes do not agree, the profile cannot be used.
Result<OfferPicture> offer_picture(const Profile& master, std::span<const uint16_t> rgb,
                                   uint32_t width, uint32_t height, uint32_t side);

// quality: 1..100, as libjpeg scales its tables. Empty where libjpeg gives up.
Bytes small_jpeg(const OfferPicture& picture, int quality);

// Error: not a JPEG of three channels within kOfferSide, or a damaged one; no such space.
Result<OfferPicture> read_small_jpeg(ByteView jpeg, const std::string& space);

}  // namespace proofleaf
