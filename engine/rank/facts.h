// What judging a picture on any paper needs of the picture alone: found once, passed on to every
// paper's judge.
#pragma once

#include "base/watch.h"
#include "proof/cube.h"
#include "raster/preview.h"

namespace proofleaf {

// Tone is judged in a smaller picture of means of at most this many pixels: on a print looked at
// from its own diagonal, its finest detail is then about 4 to 8 cycles a degree, where the eye's
// contrast sensitivity has passed its peak. Colour is judged in a smaller one still, since the eye
// sees less detail in colour than in lightness (Mullen, "The contrast sensitivity of human colour
// vision to red-green and blue-yellow chromatic gratings", J. Physiol. 359, 1985); means also
// take the noise of single pixels out of it.
inline constexpr uint64_t kMostTonePixels = 550'000, kMostColourPixels = 140'000;

// Up to kMostSamples pixels of one kind, spread evenly, with their media-relative L*a*b*.
inline constexpr size_t kMostSamples = 2048;
inline constexpr size_t kMostSpread = 1 << 17;  // a share of 10 % is then told to 0.1 %
struct Samples {
  double share = 0;  // of the picture's area [0..1]
  std::vector<uint16_t> rgb;
  std::vector<Lab> lab;
};

struct PictureFacts {
  // The same picture thrice, in the master's profile; a thumbnail's sides are at most 320 pixels.
  Picture tone, colour, thumbnail;
  // code_of_lightness(), one a pixel of `tone` and of `colour`.
  std::vector<uint16_t> tone_lightness, colour_lightness;

  // The cube all variants are built on: only nodes the picture's colours lie between are filled.
  uint32_t grid = 0;
  std::vector<uint16_t> shaper;  // as Cube's
  std::vector<uint32_t> nodes;   // numbers of the nodes in use, rising
  std::vector<Lab> colours;      // the master's media-relative L*a*b* at those nodes

  Samples accents;   // the most saturated 2 % of the picture, where their C* is above 25
  Samples skin;      // colours such as skin has, see facts.cpp
  Samples neutrals;  // C* below 4, L* 5..98

  // Up to kMostSpread single pixels, spread evenly over the picture: an area's share is counted in
  // them, not in means, which would hide the grain that the proof marks.
  std::vector<uint16_t> spread;
};

// rgb: width x height pixels, 16 bits, in the profile `master` (RGB). About 0.3 s at 2 megapixels.
// Error: the sizes do not agree, the profile is not RGB or cannot be used, stopped.
Result<PictureFacts> find_facts(const Profile& master, std::span<const uint16_t> rgb,
                                uint32_t width, uint32_t height, const Watch& watch);

// For passing between workers, in this machine's byte order. Error on reading: not facts, or
// lengths that do not fit.
Bytes pack_facts(const PictureFacts& facts);
Result<PictureFacts> unpack_facts(ByteView bytes);

}  // namespace proofleaf
