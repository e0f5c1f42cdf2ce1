// What the panel says about the condition of the master, the walk from place to place, and the
// saved report. %s, %d and %.1f stand for names and numbers.
#pragma once

namespace proofleaf::shell::words {

inline constexpr char kCondition[] = "Condition";
inline constexpr char kConditionWaits[] =
    "Once the proof is up, every pixel is looked at for what would spoil a print.";
inline constexpr char kConditionReading[] = "Looking at every pixel, %.0f %%";
inline constexpr char kConditionStopped[] = "Not looked at: it was stopped.";
inline constexpr char kConditionAgain[] = "Look at it now";
inline constexpr char kConditionUnread[] =
    "The condition report could not be read; nothing else is touched by that.";
inline constexpr char kToMend[] = "To mend before a print is paid for";
inline constexpr char kToLookAt[] = "To look at in full size";
inline constexpr char kInOrder[] = "In order";
inline constexpr char kUnsaid[] = "What could not be told";
inline constexpr char kPlaceCount[] = "%d places, the largest first:";
inline constexpr char kPlaceOne[] = "One place:";
inline constexpr char kSpotWalk[] = "Go through the spots";

inline constexpr char kPrintWidth[] = "Width of the print, cm";
inline constexpr char kPrintWidthHelp[] =
    "Judges size and spots at %.0f pixels per inch; no pixel is changed by it.";
inline constexpr char kSpotSize[] = "Smallest spot, mm";
inline constexpr char kSpotSizeHelp[] =
    "Specks smaller than this on the print are passed over: %.1f pixels here.";
inline constexpr char kSizes[] = "How large it prints";
inline constexpr char kSizeLine[] = "%.0f ppi";
inline constexpr char kSizeCm[] = "%.1f × %.1f cm";
inline constexpr char kSizeFrom[] = "seen from %.0f cm";
inline constexpr char kSizesHelp[] =
    "From that distance on, a pixel is smaller than the eye can tell apart.";

// Walking from place to place
inline constexpr char kWalkAt[] = "%d of %d: %s";
inline constexpr char kWalkSpot[] = "%.2f mm, %.1f L* %s";
inline constexpr char kDarker[] = "darker";
inline constexpr char kLighter[] = "lighter";
inline constexpr char kWalkWhere[] = "%.0f %% from the left, %.0f %% from the top.";
inline constexpr char kPrevious[] = "Previous";
inline constexpr char kNext[] = "Next";
inline constexpr char kDone[] = "Done";

// The saved report
inline constexpr char kReport[] = "Keep the report";
inline constexpr char kReportHelp[] =
    "A page of its own to print or send on, or the bare numbers for another program. It holds a "
    "small picture of the master, and its name.";
inline constexpr char kSavePage[] = "Save as a page";
inline constexpr char kSaveNumbers[] = "Save the numbers";
inline constexpr char kReportSaved[] = "%s was handed to the browser to save.";

}  // namespace proofleaf::shell::words
