// An offer made to fit its link: cubes as coarse as they may be, the picture as good as the rest of
// the link allows.
#pragma once

#include "base/watch.h"
#include "proof/chain.h"
#include "recipe/recipe.h"
#include "share/offer.h"

namespace proofleaf {

struct PaperToOffer {
  std::string name, description;
  Paper paper;
  PrintIntent print;
};

// CIEDE2000 between what the offer shows and the exact proof of the same pixels, on an sRGB screen;
// of a large picture at 262,144 of its colours.
struct CompactAccuracy {
  double mean = 0, max = 0;
};
// What is aimed at; coarser cubes than this are kept only where no finer one fits.
inline constexpr CompactAccuracy kWantedAccuracy{0.6, 2.4};

struct OfferTexts {
  std::string title, note;
  std::vector<OfferSize> sizes;
  uint32_t expires = 0;
};

struct MadeOffer {
  Offer offer;
  Bytes packed;  // link_of(packed) has at most the letters asked for
  int quality = 0;
  uint32_t width = 0, height = 0;         // of the picture [pixels]
  std::vector<CompactAccuracy> accuracy;  // one a paper
};

// rgb: the picture's 16-bit R, G, B, width x height, in the profile `master`; recipe: as it is to
// be printed, colours only; room: its letters are the most the offer may take. Papers are shown
// with their white and black. Error: as pack_offer(); too long a text for a picture beside it;
// profiles that cannot be joined; stopped.
Result<MadeOffer> make_offer(const Profile& master, std::span<const uint16_t> rgb, uint32_t width,
                             uint32_t height, const Recipe& recipe,
                             const std::vector<PaperToOffer>& papers, const OfferTexts& texts,
                             const OfferForm& room, const Watch& watch);

// How far an offer's cube is off `chain`'s screen at colours of the offer's picture.
CompactAccuracy accuracy_of(const Cube& cube, const ColourCounts& colours,
                            std::span<const float> screen);

}  // namespace proofleaf
