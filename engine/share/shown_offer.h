// An offer's picture as a client's screen shows it.
#pragma once

#include "share/offer.h"

namespace proofleaf {

// sRGB R, G, B, A of the picture on one of the offer's papers; empty where there is no such paper.
// paper_white: with the paper's own white; else that is the screen's white (ICC.1:2022 6.3.2.2,
// undone) and all else keeps its distance from it.
Bytes shown_on(const Offer& offer, const OfferPicture& picture, size_t paper, bool paper_white);

// A paper's bare white on an sRGB screen, R, G, B.
std::array<uint8_t, 3> screen_white(const OfferPaper& paper);

}  // namespace proofleaf
