// The small picture of an offer: means of the master's pixels in the smallest standard space that
// holds its colours, as a JPEG of as few bytes as the standard allows (ITU-T T.81, progressive with
// arithmetic coding; only this program reads it).
#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

#include "colour/profile.h"

namespace proofleaf {

// The two forms an offer takes: all of it in a link, or in a file to attach.
struct OfferForm {
  size_t letters;  // of base64url, in all
  uint32_t side;   // [pixels] the longest of the picture
  size_t picture;  // [bytes] of its JPEG, at most
};
inline constexpr OfferForm kLinkForm{24 * 1024, 480, 65536};
inline constexpr OfferForm kFileForm{1400 * 1024, 1800, 1 << 20};
inline constexpr uint32_t kOfferSide = kLinkForm.side;
inline constexpr size_t kOfferLetters = kLinkForm.letters;

// Spaces a picture may be in, ids of standard_space(), the smallest first.
inline constexpr std::array<const char*, 3> kOfferSpaces{"srgb", "p3", "romm"};

struct OfferPicture {
  std::string space;               // id of a standard_space()
  uint32_t width = 0, height = 0;  // [pixels]
  std::vector<uint8_t> rgb;        // three 8-bit samples a pixel
};

// rgb: 16-bit, width x height, in the profile `master` (RGB). side: of the result, at most
// [pixels]; a whole factor is taken off. The space is the first of kOfferSpaces that cuts off at
// most one pixel in twenty. Error: the sizes do not agree, the profile cannot be used.
Result<OfferPicture> offer_picture(const Profile& master, std::span<const uint16_t> rgb,
                                   uint32_t width, uint32_t height, uint32_t side);

// quality: 1..100, as libjpeg scales its tables. Empty where libjpeg gives up.
Bytes small_jpeg(const OfferPicture& picture, int quality);

// Error: not a JPEG of three channels within the form's side, or a damaged one; no such space.
Result<OfferPicture> read_small_jpeg(ByteView jpeg, const std::string& space,
                                     const OfferForm& form = kLinkForm);

}  // namespace proofleaf
