// The words for the test strip and for the job. %s, %d and %.1f stand for names and numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr Words kStrip = "Test strip";
inline constexpr Words kStripHelp =
    "One small sheet at the print's own scale and on its paper: the parts of the picture that go "
    "wrong first, steps near black and near white, and greys to measure. A cheap print before the "
    "dear one.";
inline constexpr Words kStripSheet = "Sheet, cm";
inline constexpr Words kStripSheetHelp = "Its size in centimetres; a small one holds fewer parts.";
inline constexpr Words kStripWays = "Ways of printing";
inline constexpr Words kStripWaysHelp =
    "1: as it is set. 2: and with dark tones 3 L* lighter. 3: and without corrections.";
// Printed in the letters of print/dot_letters.h, which are capitals without marks.
inline constexpr Words kWayAsSet = "AS SET";
inline constexpr Words kWayOpened = "DARK TONES OPENED";
inline constexpr Words kWayPlain = "NOT CORRECTED";
inline constexpr Words kParts = "Show its parts in the picture";
inline constexpr Words kPartsHelp =
    "They are picked where a print goes wrong first. Drag one to where you want to look, or set "
    "its place here.";
inline constexpr Words kPart = "Part %d: %s";
inline constexpr Words kPartX = "From the left, %";
inline constexpr Words kPartY = "From the top, %";
inline constexpr Words kPartHelp = "Of the printed picture.";
inline constexpr Words kPartsBack = "All parts back to where they were picked";
inline constexpr Words kMakeStrip = "Make the test strip";
inline constexpr Words kStripChoosing = "Choosing the parts";
inline constexpr Words kStripMade = "%s is made. Have it printed as it is, on the same paper.";
inline constexpr Words kStripPaperGone = "The paper this strip was made for is no longer here.";
inline constexpr Words kReadBack = "When the strip is back";
inline constexpr Words kReadBackHelp =
    "Drop a spectrophotometer's measurements of its steps here (CGATS or a table), or look.";
inline constexpr Words kBringReadings = "Bring the measurements";
inline constexpr Words kByEye = "By eye, under the light it will hang in";
inline constexpr Words kEyeBlack = "First step seen on black, L*";
inline constexpr Words kEyeBlackHelp = "The name under the darkest square that stands out.";
inline constexpr Words kEyeWhite = "First step seen on white, L*";
inline constexpr Words kEyeWhiteHelp = "The name under the lightest square that stands out.";
inline constexpr Words kEyeRead = "Take this reading";
inline constexpr Words kLayOver = "Lay it over the proof";
inline constexpr Words kLayOverHelp =
    "Shows this paper as it came out instead of as its profile says. Only the view changes.";

// The job
inline constexpr Words kJob = "The job on file";
inline constexpr Words kJobHelp =
    "What is printed from what on which paper and how, with what was handed over and its check. It "
    "holds no pixels; dropped here again, it sets everything as it was.";
inline constexpr Words kEditionNumber = "Number of this print";
inline constexpr Words kEditionHelp = "In its edition.";
inline constexpr Words kEditionOf = "Prints in the edition";
inline constexpr Words kEditionOfHelp = "1 for a single print.";
inline constexpr Words kCostOfPrint = "Print";
inline constexpr Words kCostHelp = "What one print costs.";
inline constexpr Words kCostOfEdition = "Edition as a whole";
inline constexpr Words kCostOfEditionHelp =
    "What comes once: test strips, certificates, a crate, the way there.";
inline constexpr Words kCostOfAll = "The edition of %d comes to %.2f %s, %.2f for each print.";
inline constexpr Words kCurrency = "Currency";
inline constexpr Words kNotes = "Notes";
inline constexpr Words kKeepJobSheet = "Keep the job sheet, to print";
inline constexpr Words kKeepJob = "Keep the job, to reopen";
inline constexpr Words kJobKept = "The job is kept on file.";
inline constexpr Words kJobTaken = "The job %s is open again.";
inline constexpr Words kJobWantsMaster = "It prints %s: bring that file.";
inline constexpr Words kJobWantsPaper = "It prints on %s: bring that paper's profile.";
inline constexpr Words kJobOtherMaster =
    "%s is not the very file this job was made from; its content is another.";

}  // namespace proofleaf::shell::words
