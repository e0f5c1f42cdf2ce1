// Every word the panel says, in one place. %s, %d and %.1f stand for names and numbers.
#pragma once

namespace proofleaf::shell::words {

inline constexpr char kLeafMaster[] = "Master";
inline constexpr char kLeafPaper[] = "Paper";
inline constexpr char kLeafLook[] = "Look";
inline constexpr char kLeafPrint[] = "Print file";

// Master
inline constexpr char kChooseMaster[] = "Choose a file";
inline constexpr char kChooseOther[] = "Choose another file";
inline constexpr char kNoMaster[] = "No master yet";
inline constexpr char kMasterHelp[] =
    "Bring the finished picture: a JPEG, PNG or TIFF. Drop it anywhere on this page, or choose it. "
    "It is read here, in this browser, and is never changed or sent away.";
inline constexpr char kPixels[] = "%u\u00a0×\u00a0%u pixels, %.1f megapixels";
inline constexpr char kKind[] = "%s, %u bits, %s";
inline constexpr char kPrintSize[] = "At 300 ppi it prints %.1f × %.1f cm (%.1f × %.1f in).";
inline constexpr char kFilePpi[] = "The file itself says %.0f ppi.";
inline constexpr char kColoursMean[] = "What its numbers mean";
inline constexpr char kEmbedded[] = "%s, as the file says itself.";
inline constexpr char kAssumed[] =
    "The file does not say. Taken as %s; if that is wrong, every colour below is wrong, so choose "
    "another if you know better.";
inline constexpr char kWorkGoesOn[] =
    "The browser had closed this page; the work goes on where it was.";
inline constexpr char kWorkWantsMaster[] =
    "The browser had closed this page while %s was open. Bring that file, and the work goes on "
    "where it was.";
inline constexpr char kGoodToKnow[] = "Good to know";
inline constexpr char kTraces[] =
    "The file carries %s. A print file leaves that out unless you ask.";
inline constexpr char kTracePlace[] = "the place it was taken";
inline constexpr char kTraceSerial[] = "serial numbers of the equipment";
inline constexpr char kTraceOwner[] = "its owner's name";

// Paper
inline constexpr char kNoPaper[] = "No paper chosen";
inline constexpr char kPapersAtHand[] = "Papers at hand";
inline constexpr char kBringPaper[] = "Bring a paper's profile";
inline constexpr char kStandardSpaces[] = "If the house asks for a standard space";
inline constexpr char kPaperWhite[] = "White  L* %.1f  a* %s  b* %s";
inline constexpr char kPaperBlack[] = "Black  L* %.1f  a* %s  b* %s";
inline constexpr char kInkLimit[] = "Its tables never ask for more than %.0f %% of ink.";
inline constexpr char kNotMeasured[] = "A standard space, not a measured paper.";
inline constexpr char kFitting[] = "Rendering intent";
inline constexpr char kFittingHelp[] =
    "How the master's colours are fitted to what this paper can hold.";
inline constexpr char kPerceptual[] = "Perceptual";
inline constexpr char kPerceptualHelp[] =
    "Draws all colours inward together: steps between strong colours stay, the whole print is a "
    "little calmer.";
inline constexpr char kRelative[] = "Relative colorimetric";
inline constexpr char kRelativeHelp[] =
    "Prints every colour the paper can hold as it is; stronger ones stop at the gamut's edge.";
inline constexpr char kSaturation[] = "Saturation";
inline constexpr char kSaturationHelp[] =
    "Prints strong colours as strong as they get and lets hues drift; made for charts.";
inline constexpr char kAbsolute[] = "Absolute colorimetric";
inline constexpr char kAbsoluteHelp[] =
    "As relative, and also prints the master's white as a tint on this paper; for matching "
    "another print.";
inline constexpr char kNoOwnTable[] = " This profile has no table of its own for it.";
inline constexpr char kBpc[] = "Black point compensation";
inline constexpr char kBpcHelp[] =
    "Prints the master's black as the paper's darkest, so that shadows keep their steps.";
inline constexpr char kBpcAbsolute[] =
    "Has no meaning for absolute colorimetric; the print ignores it.";

// Look
inline constexpr char kCompare[] = "Master and print";
inline constexpr char kSideBySide[] = "Beside";
inline constexpr char kDivided[] = "Divided";
inline constexpr char kHeld[] = "In turn";
inline constexpr char kSideBySideHelp[] =
    "Shows both whole, next to each other. The print stays as it is.";
inline constexpr char kDividedHelp[] =
    "One picture, two halves: drag the line between master and print. The print stays as it is.";
inline constexpr char kHeldHelp[] =
    "Shows the print; hold M, or the button under the picture, to see the master. The print stays "
    "as it is.";
inline constexpr char kShowWhite[] = "Show the paper's white";
inline constexpr char kShowWhiteHelp[] =
    "Tints the screen as the bare paper will look; off, paper white is screen white. Only the "
    "view changes.";
inline constexpr char kShowBlack[] = "Show the paper's black";
inline constexpr char kShowBlackHelp[] =
    "Lifts black to the darkest this paper prints; off, it is screen black. Only the view changes.";
inline constexpr char kMark[] = "Mark what lies off the gamut";
inline constexpr char kMarkHelp[] =
    "Draws fine leaf veins where the paper cannot reach the master's colour. Never printed.";
inline constexpr char kThreshold[] = "Mark from";
inline constexpr char kThresholdHelp[] =
    "Smaller differences than this many ΔE00 are left unmarked; about 1 is just visible.";
inline constexpr char kShare[] =
    "%s of the picture lies beyond this paper's gamut by %d ΔE00 or more.";
inline constexpr char kCross[] = "Reading cross";
inline constexpr char kCrossHelp[] =
    "Reads one place of the picture; move it with the arrow keys. Without it, the pointer or a "
    "long press reads. Only the view changes.";
inline constexpr char kKeys[] = "Show the key card";

// Print file
inline constexpr char kNeedBoth[] = "It takes a master and a paper to make a print file.";
inline constexpr char kFormat[] = "Kind of file";
inline constexpr char kFormatHelpJpeg[] =
    "Small, flattened, 8 bits; what most print houses ask for.";
inline constexpr char kFormatHelpTiff[] =
    "Large and without any loss; ask whether the house takes it.";
inline constexpr char kBits[] = "Bits";
inline constexpr char kBitsHelp8[] = "Enough for a print when finely dithered, as it is here.";
inline constexpr char kBitsHelp16[] = "Keeps all steps for a house that works on; twice the size.";
inline constexpr char kQuality[] = "Quality";
inline constexpr char kQualityHelp[] =
    "Lower numbers make a smaller file with rougher fine detail in print.";
inline constexpr char kDetail[] = "Full colour detail";
inline constexpr char kDetailHelp[] =
    "Prints fine coloured edges sharply; off, colour is stored at half the detail.";
inline constexpr char kPpi[] = "Pixels per inch";
inline constexpr char kPpiHelp[] = "Prints at %.1f × %.1f cm; no pixel is changed by this number.";
inline constexpr char kPrintSized[] =
    "Printed at %.1f × %.1f cm, %.0f pixels per inch, as the Size leaf says.";
inline constexpr char kPrivate[] = "Keep private data";
inline constexpr char kPrivateHelp[] =
    "Hands place, names and serial numbers on to the house; nothing in the print needs them.";
inline constexpr char kSeed[] = "Dither seed";
inline constexpr char kSeedHelp[] =
    "Chooses the grain that hides steps in smooth tones; the same number prints the same grain.";
inline constexpr char kFileName[] = "Name of the new file";
inline constexpr char kFileNameHelp[] = "The master keeps its own name and is never written over.";
inline constexpr char kFileNameTaken[] = "That is the master's own name; choose another.";
inline constexpr char kFileNameThere[] = "The folder holds a file of that name; choose another.";
inline constexpr char kFileNameEmpty[] = "The new file needs a name.";
inline constexpr char kMake[] = "Make the print file";
inline constexpr char kBusy[] = "The print file is being made";
inline constexpr char kMaking[] = "Making %s";
inline constexpr char kStop[] = "Stop";
inline constexpr char kSaveAgain[] = "Save it once more";
inline constexpr char kChecked[] = "Read back and compared with the exact proof at %u places:";
inline constexpr char kCheckNumbers[] = "mean %.2f, 95th percentile %.2f, greatest %.2f ΔE00.";
inline constexpr char kMade[] = "%s is ready: %u\u00a0×\u00a0%u pixels, %.1f\u00a0MB.";
inline constexpr char kPrintSummary[] = "%s, %d bits, %d ppi";
inline constexpr char kReset[] = "Reset";
inline constexpr char kOn[] = "on";
inline constexpr char kOff[] = "off";

// Around the picture
inline constexpr char kCaptionEmpty[] =
    "Drop a finished picture here, or choose it on the first leaf.";
inline constexpr char kCaptionMaster[] =
    "%s as it is. Choose a paper to see what it would do to it.";
inline constexpr char kCaption[] =
    "On %s, %s: %s of the picture lies beyond this paper's gamut by %d ΔE00 or more.";
inline constexpr char kCaptionWait[] = "On %s, %s: working it out.";
inline constexpr char kCaptionQuick[] = " A first look; the exact one follows.";
inline constexpr char kCaptionOnly[] = " A first look only.";
inline constexpr char kTagMaster[] = "Master";
inline constexpr char kTagProof[] = "On %s";
inline constexpr char kTagProofShort[] = "Print";
inline constexpr char kWhole[] = "Whole";
inline constexpr char kWholeLong[] = "Whole picture";
inline constexpr char kExact[] = "1:1";
inline constexpr char kCloser[] = "Closer";
inline constexpr char kFarther[] = "Farther";
inline constexpr char kHold[] = "Hold for master";
inline constexpr char kScale[] = "%.0f %% of full size";
inline constexpr char kDrop[] = "Let go to bring it in. The file stays on this computer.";
inline constexpr char kReadIdle[] = "Point at the picture to read a colour.";
inline constexpr char kReadIdleTouch[] = "Press and wait on the picture to read a colour.";
inline constexpr char kReadMaster[] = "Master  L* %.1f  a* %s  b* %s";
inline constexpr char kReadPaper[] = "On paper  L* %.1f  a* %s  b* %s";
inline constexpr char kReadDifference[] = "ΔE00 %.1f";
inline constexpr char kReadInk[] = "ink %.0f %%";
inline constexpr char kReadInkLimit[] = "at the paper's ink limit";
inline constexpr char kReadClipped[] = "clipped at the gamut's edge";
inline constexpr char kDismiss[] = "Dismiss";
inline constexpr char kClose[] = "Close";
inline constexpr char kLicences[] = "Licences of what it is built from";

// Work under way
inline constexpr char kOpening[] = "Opening %s";
inline constexpr char kReadingPaper[] = "Reading the paper %s";
inline constexpr char kProofing[] = "Working out the proof";
inline constexpr char kScreening[] = "Preparing the picture for this screen";
inline constexpr char kDetailing[] = "Fetching full detail";
inline constexpr char kAnswerUnread[] =
    "The engine's answer about %s could not be read; nothing was changed.";

struct KeyLine {
  const char* key;
  const char* does;
};
inline constexpr char kKeyCard[] = "Keys";
inline constexpr KeyLine kKeyLines[] = {
    {"1 to 6", "open a leaf of the sheet"},
    {"Tab, arrows", "move on the sheet; Space acts"},
    {"F6", "from sheet to picture to foot line"},
    {"M, held", "see the master"},
    {"C", "next way to compare"},
    {", and .", "move the dividing line"},
    {"W", "whole picture"},
    {"O", "one master pixel to one screen pixel"},
    {"+ and -", "closer, farther"},
    {"N and U", "next and previous place of the condition report"},
    {"R", "reading cross; arrows move it, Shift for large steps"},
    {"Shift arrows", "move the picture while no cross is out"},
    {"V", "leaf veins off the gamut"},
    {"D", "rings where the print differs"},
    {"P", "all papers, and the paper card"},
    {"I", "next rendering intent"},
    {"B", "black point compensation"},
    {"Ctrl Z", "one step back on the fit and size leaves; with Shift, forward"},
    {"K", "this card"},
    {"Esc", "close, stop the work, or put a notice away; else, with Tab, leave the page"},
};

}  // namespace proofleaf::shell::words
