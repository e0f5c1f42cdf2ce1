// What is read out, and not drawn: the state in words, and what a control is beside its label.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

// Controls
inline constexpr Words kChosen = ", chosen";
inline constexpr Words kInUse = ", in use";
inline constexpr Words kAsNumber = "%s as a number, %d";
inline constexpr Words kLeafOpen = "Leaf %d, %s, open. ";
inline constexpr Words kLeafClosed = "Leaf %d, %s, closed. ";
inline constexpr Words kLeafOf = "Leaf %d, %s. ";
inline constexpr Words kPlaceNumber = "%s, place %s";
inline constexpr Words kPlaceShown = ", shown";

// News
inline constexpr Words kMasterOpen = "%s is open.";
inline constexpr Words kPaperChosen = "Paper chosen: %s.";
inline constexpr Words kPaperChosenWay = "Paper chosen: %s, %s.";
inline constexpr Words kPictureFocus = "Picture.";

// The standing description
inline constexpr Words kSayNoMaster = "No master yet. Press Tab for the sheet.";
inline constexpr Words kSayMaster = "Master %s, %u by %u pixels, %u bits, colours %s %s.";
inline constexpr Words kSayTakenAs = "taken as";
inline constexpr Words kSayGiven = "given by its profile";
inline constexpr Words kSayNoPaper = "No paper chosen.";
inline constexpr Words kSayPaper =
    "Paper %s, white L %.0f, black L %.0f. Rendering intent %s, black point compensation %s.";
inline constexpr Words kSayDelivered =
    "Print file %s is ready: mean difference %.2f, greatest %.2f. ";
inline constexpr Words kSayDelivery =
    "Print file: %s, %d bits, %d pixels per inch, private data %s.";
inline constexpr Words kSayKept = "kept";
inline constexpr Words kSayLeftOut = "left out";
inline constexpr Words kSayShown = " Shown %s. ";
inline constexpr Words kSayFitAndSize = " Fit: %s. Size: %s. ";
inline constexpr Words kSayWork = "%s, %.0f per cent.";
inline constexpr Words kSayNotice = " Notice: ";
inline constexpr Words kSayRanked = " %s, %.0f of 100, printed %s;";

}  // namespace proofleaf::shell::words
