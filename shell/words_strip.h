// The words for the test strip and for the job. %s, %d and %.1f stand for names and numbers.
#pragma once

namespace proofleaf::shell::words {

inline constexpr char kStrip[] = "Test strip";
inline constexpr char kStripHelp[] =
    "One small sheet at the print's own scale and on its paper: the parts of the picture that go "
    "wrong first, steps near black and near white, and greys to measure. A cheap print before the "
    "dear one.";
inline constexpr char kStripSheet[] = "Sheet, cm";
inline constexpr char kStripSheetHelp[] = "Its size in centimetres; a small one holds fewer parts.";
inline constexpr char kStripWays[] = "Ways of printing";
inline constexpr char kStripWaysHelp[] =
    "1: as it is set. 2: and with dark tones 3 L* lighter. 3: and without corrections.";
inline constexpr char kMakeStrip[] = "Make the test strip";
inline constexpr char kStripChoosing[] = "Choosing the parts";
inline constexpr char kStripMade[] = "%s is made. Have it printed as it is, on the same paper.";
inline constexpr char kStripPaperGone[] = "The paper this strip was made for is no longer here.";
inline constexpr char kReadBack[] = "When the strip is back";
inline constexpr char kReadBackHelp[] =
    "Drop a spectrophotometer's measurements of its steps here (CGATS or a table), or look.";
inline constexpr char kBringReadings[] = "Bring the measurements";
inline constexpr char kByEye[] = "By eye, under the light it will hang in";
inline constexpr char kEyeBlack[] = "First step seen on black, L*";
inline constexpr char kEyeBlackHelp[] = "The name under the darkest square that stands out.";
inline constexpr char kEyeWhite[] = "First step seen on white, L*";
inline constexpr char kEyeWhiteHelp[] = "The name under the lightest square that stands out.";
inline constexpr char kEyeRead[] = "Take this reading";
inline constexpr char kLayOver[] = "Lay it over the proof";
inline constexpr char kLayOverHelp[] =
    "Shows this paper as it came out instead of as its profile says. Only the view changes.";

}  // namespace proofleaf::shell::words
