// The words for print files' names and for several of them at once. %s, %d and %.1f stand for names
// and numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr char kUsualPattern[] = "{master}-{paper}-{width}x{height}cm";

inline constexpr Words kNames = "Names of print files";
inline constexpr Words kPattern = "Pattern";
inline constexpr Words kPatternHelp =
    "Words in braces are filled in for each file; width and height are the sheet's, in "
    "centimetres. Press one to put it at the end.";
inline constexpr Words kAsPattern = "Name it by the pattern";
inline constexpr Words kUsual = "Usual pattern";

inline constexpr Words kWhereTo = "Where the files go";
inline constexpr Words kToDownloads = "To the browser's downloads, one by one.";
inline constexpr Words kNoFolders =
    "To the browser's downloads, one by one; this browser cannot write into a folder.";
inline constexpr Words kToFolder = "Into the folder %s. A file that is there is left alone.";
inline constexpr Words kChooseFolder = "Choose a folder";
inline constexpr Words kLeaveFolder = "To the downloads instead";
inline constexpr Words kFolderChosen = "Files go into the folder %s.";
inline constexpr Words kFolderRefused =
    "The browser did not let that folder be written to; files go to its downloads.";
inline constexpr Words kFileExists =
    "A file called %s was in the folder already and was left as it is; the new one was not saved.";
inline constexpr Words kFileGone = "%s is no longer kept here; please make it anew.";
inline constexpr Words kFileRefused =
    "%s could not be written into the folder: it may be full, or no longer there.";

inline constexpr Words kBatch = "Several papers or sizes at once";
inline constexpr Words kBatchHelp =
    "One file for each, all with the corrections, rendering intent and kind of file set now.";
inline constexpr Words kBatchPapers = "Papers";
inline constexpr Words kBatchSizes = "Longer sides, cm";
inline constexpr Words kBatchSizesHelp =
    "Of the picture, with spaces between: 30 45.5 60. Empty: the size that is set.";
inline constexpr Words kBatchSizesFault =
    "Each longer side is a number of centimetres from 1 to 2000, as in 30 45.5 60.";
inline constexpr Words kPaperGone = "The paper %s is no longer here.";
inline constexpr Words kBatchNone = "Choose one paper or more.";
inline constexpr Words kBatchWaits = "not made yet";
inline constexpr Words kBatchMaking = "being made, %.0f %%";
inline constexpr Words kBatchMade = "made; read back: mean %.2f, greatest %.2f ΔE00";
inline constexpr Words kBatchFailed = "not made: %s";
inline constexpr Words kMakeBatch = "Make %d files";
inline constexpr Words kMakeBatchOne = "Make 1 file";
inline constexpr Words kGoOnBatch = "Go on: %d of %d still to make";
inline constexpr Words kBatchBusy = "File %d of %d is being made";
inline constexpr Words kBatchDone = "All of them are made.";
inline constexpr Words kBatchAgain = "Make them anew";
inline constexpr Words kBatchEnded = "%d of %d files are made.";

}  // namespace proofleaf::shell::words
