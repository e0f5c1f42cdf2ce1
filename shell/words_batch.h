// The words for print files' names and for several of them at once. %s, %d and %.1f stand for names
// and numbers.
#pragma once

namespace proofleaf::shell::words {

inline constexpr char kUsualPattern[] = "{master}-{paper}-{width}x{height}cm";

inline constexpr char kNames[] = "Names of print files";
inline constexpr char kPattern[] = "Pattern";
inline constexpr char kPatternHelp[] =
    "Words in braces are filled in for each file; width and height are the sheet's, in "
    "centimetres. Press one to put it at the end.";
inline constexpr char kAsPattern[] = "Name it by the pattern";
inline constexpr char kUsual[] = "Usual pattern";

inline constexpr char kWhereTo[] = "Where the files go";
inline constexpr char kToDownloads[] = "To the browser's downloads, one by one.";
inline constexpr char kNoFolders[] =
    "To the browser's downloads, one by one; this browser cannot write into a folder.";
inline constexpr char kToFolder[] = "Into the folder %s. A file that is there is left alone.";
inline constexpr char kChooseFolder[] = "Choose a folder";
inline constexpr char kLeaveFolder[] = "To the downloads instead";
inline constexpr char kFolderChosen[] = "Files go into the folder %s.";
inline constexpr char kFolderRefused[] =
    "The browser did not let that folder be written to; files go to its downloads.";
inline constexpr char kFileExists[] =
    "A file called %s was in the folder already and was left as it is; the new one was not saved.";
inline constexpr char kFileGone[] = "%s is no longer kept here; please make it anew.";
inline constexpr char kFileRefused[] =
    "%s could not be written into the folder: it may be full, or no longer there.";

inline constexpr char kBatch[] = "Several papers or sizes at once";
inline constexpr char kBatchHelp[] =
    "One file for each, all with the corrections, rendering intent and kind of file set now.";
inline constexpr char kBatchPapers[] = "Papers";
inline constexpr char kBatchSizes[] = "Longer sides, cm";
inline constexpr char kBatchSizesHelp[] =
    "Of the picture, with spaces between: 30 45.5 60. Empty: the size that is set.";
inline constexpr char kBatchSizesFault[] =
    "Each longer side is a number of centimetres from 1 to 2000, as in 30 45.5 60.";
inline constexpr char kPaperGone[] = "The paper %s is no longer here.";
inline constexpr char kBatchNone[] = "Choose one paper or more.";
inline constexpr char kBatchWaits[] = "not made yet";
inline constexpr char kBatchMaking[] = "being made, %.0f %%";
inline constexpr char kBatchMade[] = "made; read back: mean %.2f, greatest %.2f ΔE00";
inline constexpr char kBatchFailed[] = "not made: %s";
inline constexpr char kMakeBatch[] = "Make %d files";
inline constexpr char kMakeBatchOne[] = "Make 1 file";
inline constexpr char kGoOnBatch[] = "Go on: %d of %d still to make";
inline constexpr char kBatchBusy[] = "File %d of %d is being made";
inline constexpr char kBatchDone[] = "All of them are made.";
inline constexpr char kBatchAgain[] = "Make them anew";
inline constexpr char kBatchEnded[] = "%d of %d files are made.";

}  // namespace proofleaf::shell::words
