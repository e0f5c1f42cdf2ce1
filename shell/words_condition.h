// What the panel says about the condition of the master, the walk from place to place, and the
// saved report. %s, %d and %.1f stand for names and numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr Words kCondition = "Condition";
inline constexpr Words kConditionWaits =
    "Once the proof is up, every pixel is looked at for what would spoil a print.";
inline constexpr Words kConditionReading = "Looking at every pixel, %.0f %%";
inline constexpr Words kConditionStopped = "Not looked at: it was stopped.";
inline constexpr Words kConditionAgain = "Look at it now";
inline constexpr Words kConditionUnread =
    "The condition report could not be read; nothing else is touched by that.";
inline constexpr Words kMendOne = "1 thing to mend";
inline constexpr Words kMendSome = "%d things to mend";
inline constexpr Words kAndMend = ", %d to mend";
inline constexpr Words kAndLook = ", %d to look at";
inline constexpr Words kLookOne = "Nothing to mend, %d thing to look at.";
inline constexpr Words kLookSome = "Nothing to mend, %d things to look at.";
inline constexpr Words kAllInOrder = "Nothing to mend and nothing to look at.";
inline constexpr Words kToMend = "To mend before a print is paid for";
inline constexpr Words kToLookAt = "To look at in full size";
inline constexpr Words kInOrder = "In order";
inline constexpr Words kUnsaid = "What could not be told";
inline constexpr Words kPlaceCount = "%d places, the largest first:";
inline constexpr Words kPlaceOne = "One place:";
inline constexpr Words kSpotWalk = "Go through the spots";

inline constexpr Words kPrintWidth = "Width of the print, cm";
inline constexpr Words kPrintWidthHelp =
    "Judges size and spots at %.0f pixels per inch; no pixel is changed by it.";
inline constexpr Words kSpotSize = "Smallest spot, mm";
inline constexpr Words kSpotSizeHelp =
    "Specks smaller than this on the print are passed over: %.1f pixels here.";
inline constexpr Words kSizes = "How large it prints";
inline constexpr Words kSizeLine = "%.0f ppi";
inline constexpr Words kSizeCm = "%.1f × %.1f cm";
inline constexpr Words kSizeFrom = "seen from %.0f cm";
inline constexpr Words kSizesHelp =
    "From that distance on, a pixel is smaller than the eye can tell apart.";

// Walking from place to place
inline constexpr Words kWalkAt = "%d of %d: %s";
inline constexpr Words kWalkSpot = "%.2f mm, %.1f L* %s";
inline constexpr Words kDarker = "darker";
inline constexpr Words kLighter = "lighter";
inline constexpr Words kWalkWhere = "%.0f %% from the left, %.0f %% from the top.";
inline constexpr Words kPrevious = "Previous";
inline constexpr Words kNext = "Next";
inline constexpr Words kDone = "Done";

// The saved report
inline constexpr Words kReport = "Keep the report";
inline constexpr Words kReportHelp =
    "A page of its own to print or send on, or the bare numbers for another program. It holds a "
    "small picture of the master, and its name.";
inline constexpr Words kSavePage = "Save as a page";
inline constexpr Words kSaveNumbers = "Save the numbers";
inline constexpr Words kReportSaved = "%s was handed to the browser to save.";

}  // namespace proofleaf::shell::words
