// What the panel says about the papers it keeps for the person.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr Words kBringFolder = "Bring a folder of them";
inline constexpr Words kBringManyHelp =
    "ICC output profiles from the print house: one or many, in a folder, or in a zip file. "
    "Dropping "
    "them on the page works too.";
inline constexpr Words kShelf = "Your papers";
inline constexpr Words kShelfKept =
    "%d of your papers are kept in this browser for the next visit. Nothing of them is sent "
    "anywhere.";
inline constexpr Words kShelfKeptOne =
    "One of your papers is kept in this browser for the next visit. Nothing of it is sent "
    "anywhere.";
inline constexpr Words kShelfRefused =
    "This browser keeps nothing here, as in a private window: your papers last as long as this "
    "page.";
inline constexpr Words kShelfFull =
    "The browser has no room to keep this paper for the next visit; it lasts as long as this page.";
inline constexpr Words kForget = "Forget my papers";
inline constexpr Words kForgetAsk =
    "Remove all of them from this browser? The profiles themselves, wherever they came from, stay.";
inline constexpr Words kForgetYes = "Forget them";
inline constexpr Words kForgetNo = "Keep them";
inline constexpr Words kForgotten = "Your papers are no longer kept in this browser.";
inline constexpr Words kUnpacking = "Opening the parcel %s";
inline constexpr Words kUnpacked = "%d papers in %s.";
inline constexpr Words kUnpackedOne = "One paper in %s.";
inline constexpr Words kFolderEmpty = "There is no paper's profile in %s.";
inline constexpr Words kFolderCut =
    "%s holds more files than are looked through; only the first 500 were.";

}  // namespace proofleaf::shell::words
