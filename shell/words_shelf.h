// What the panel says about the papers it keeps for the person.
#pragma once

namespace proofleaf::shell::words {

inline constexpr char kBringFolder[] = "Bring a folder of them";
inline constexpr char kBringManyHelp[] =
    "ICC output profiles from the print house: one or many, in a folder, or in a zip file. "
    "Dropping "
    "them on the page works too.";
inline constexpr char kShelf[] = "Your papers";
inline constexpr char kShelfKept[] =
    "%d of your papers are kept in this browser for the next visit. Nothing of them is sent "
    "anywhere.";
inline constexpr char kShelfKeptOne[] =
    "One of your papers is kept in this browser for the next visit. Nothing of it is sent "
    "anywhere.";
inline constexpr char kShelfRefused[] =
    "This browser keeps nothing here, as in a private window: your papers last as long as this "
    "page.";
inline constexpr char kShelfFull[] =
    "The browser has no room to keep this paper for the next visit; it lasts as long as this page.";
inline constexpr char kForget[] = "Forget my papers";
inline constexpr char kForgetAsk[] =
    "Remove all of them from this browser? The profiles themselves, wherever they came from, stay.";
inline constexpr char kForgetYes[] = "Forget them";
inline constexpr char kForgetNo[] = "Keep them";
inline constexpr char kForgotten[] = "Your papers are no longer kept in this browser.";
inline constexpr char kUnpacking[] = "Opening the parcel %s";
inline constexpr char kUnpacked[] = "%d papers in %s.";
inline constexpr char kUnpackedOne[] = "One paper in %s.";
inline constexpr char kFolderEmpty[] = "There is no paper's profile in %s.";
inline constexpr char kFolderCut[] =
    "%s holds more files than are looked through; only the first 500 were.";

}  // namespace proofleaf::shell::words
