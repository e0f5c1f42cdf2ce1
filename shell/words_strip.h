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
inline constexpr char kParts[] = "Show its parts in the picture";
inline constexpr char kPartsHelp[] =
    "They are picked where a print goes wrong first. Drag one to where you want to look, or set "
    "its place here.";
inline constexpr char kPart[] = "Part %d: %s";
inline constexpr char kPartX[] = "From the left, %";
inline constexpr char kPartY[] = "From the top, %";
inline constexpr char kPartHelp[] = "Of the printed picture.";
inline constexpr char kPartsBack[] = "All parts back to where they were picked";
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

// The job
inline constexpr char kJob[] = "The job on file";
inline constexpr char kJobHelp[] =
    "What is printed from what on which paper and how, with what was handed over and its check. It "
    "holds no pixels; dropped here again, it sets everything as it was.";
inline constexpr char kEditionNumber[] = "Number of this print";
inline constexpr char kEditionHelp[] = "In its edition.";
inline constexpr char kEditionOf[] = "Prints in the edition";
inline constexpr char kEditionOfHelp[] = "1 for a single print.";
inline constexpr char kCostOfPrint[] = "Print";
inline constexpr char kCostHelp[] = "What one print costs.";
inline constexpr char kCostOfEdition[] = "Edition as a whole";
inline constexpr char kCostOfEditionHelp[] =
    "What comes once: test strips, certificates, a crate, the way there.";
inline constexpr char kCostOfAll[] = "The edition of %d comes to %.2f %s, %.2f for each print.";
inline constexpr char kCurrency[] = "Currency";
inline constexpr char kNotes[] = "Notes";
inline constexpr char kKeepJobSheet[] = "Keep the job sheet, to print";
inline constexpr char kKeepJob[] = "Keep the job, to reopen";
inline constexpr char kJobKept[] = "The job is kept on file.";
inline constexpr char kJobTaken[] = "The job %s is open again.";
inline constexpr char kJobWantsMaster[] = "It prints %s: bring that file.";
inline constexpr char kJobWantsPaper[] = "It prints on %s: bring that paper's profile.";
inline constexpr char kJobOtherMaster[] =
    "%s is not the very file this job was made from; its content is another.";

}  // namespace proofleaf::shell::words
