// Every word the panel says, in one place. %s, %d and %.1f stand for names and numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr Words kLeafMaster = "Master";
inline constexpr Words kLeafPaper = "Paper";
inline constexpr Words kLeafLook = "Look";
inline constexpr Words kLeafPrint = "Print file";

// Master
inline constexpr Words kChooseMaster = "Choose a file";
inline constexpr Words kChooseOther = "Choose another file";
inline constexpr Words kNoMaster = "No master yet";
inline constexpr Words kMasterHelp =
    "Bring the finished picture: a JPEG, PNG or TIFF. Drop it anywhere on this page, or choose it. "
    "It is read here, in this browser, and is never changed or sent away.";
inline constexpr Words kPixels = "%u\u00a0×\u00a0%u pixels, %.1f megapixels";
inline constexpr Words kKind = "%s, %u bits, %s";
inline constexpr Words kPrintSize = "At 300 ppi it prints %.1f × %.1f cm (%.1f × %.1f in).";
inline constexpr Words kFilePpi = "The file itself says %.0f ppi.";
inline constexpr Words kColoursMean = "What its numbers mean";
inline constexpr Words kEmbedded = "%s, as the file says itself.";
inline constexpr Words kAssumed =
    "The file does not say. Taken as %s; if that is wrong, every colour below is wrong, so choose "
    "another if you know better.";
inline constexpr Words kWorkGoesOn =
    "The browser had closed this page; the work goes on where it was.";
inline constexpr Words kWorkWantsMaster =
    "The browser had closed this page while %s was open. Bring that file, and the work goes on "
    "where it was.";
inline constexpr Words kGoodToKnow = "Good to know";
inline constexpr Words kTraces =
    "The file carries %s. A print file leaves that out unless you ask.";
inline constexpr Words kTracePlace = "the place it was taken";
inline constexpr Words kTraceSerial = "serial numbers of the equipment";
inline constexpr Words kTraceOwner = "its owner's name";

// Paper
inline constexpr Words kNoPaper = "No paper chosen";
inline constexpr Words kPapersAtHand = "Papers at hand";
inline constexpr Words kBringPaper = "Bring a paper's profile";
inline constexpr Words kStandardSpaces = "If the house asks for a standard space";
inline constexpr Words kPaperWhite = "White  L* %.1f  a* %s  b* %s";
inline constexpr Words kPaperBlack = "Black  L* %.1f  a* %s  b* %s";
inline constexpr Words kInkLimit = "Its tables never ask for more than %.0f %% of ink.";
inline constexpr Words kNotMeasured = "A standard space, not a measured paper.";
inline constexpr Words kFitting = "Rendering intent";
inline constexpr Words kFittingHelp =
    "How the master's colours are fitted to what this paper can hold.";
inline constexpr Words kPerceptual = "Perceptual";
inline constexpr Words kPerceptualHelp =
    "Draws all colours inward together: steps between strong colours stay, the whole print is a "
    "little calmer.";
inline constexpr Words kRelative = "Relative colorimetric";
inline constexpr Words kRelativeHelp =
    "Prints every colour the paper can hold as it is; stronger ones stop at the gamut's edge.";
inline constexpr Words kSaturation = "Saturation";
inline constexpr Words kSaturationHelp =
    "Prints strong colours as strong as they get and lets hues drift; made for charts.";
inline constexpr Words kAbsolute = "Absolute colorimetric";
inline constexpr Words kAbsoluteHelp =
    "As relative, and also prints the master's white as a tint on this paper; for matching "
    "another print.";
inline constexpr Words kNoOwnTable = " This profile has no table of its own for it.";
inline constexpr Words kBpc = "Black point compensation";
inline constexpr Words kBpcHelp =
    "Prints the master's black as the paper's darkest, so that shadows keep their steps.";
inline constexpr Words kBpcAbsolute =
    "Has no meaning for absolute colorimetric; the print ignores it.";

// Look
inline constexpr Words kCompare = "Master and print";
inline constexpr Words kSideBySide = "Beside";
inline constexpr Words kDivided = "Divided";
inline constexpr Words kHeld = "In turn";
inline constexpr Words kSideBySideHelp =
    "Shows both whole, next to each other. The print stays as it is.";
inline constexpr Words kDividedHelp =
    "One picture, two halves: drag the line between master and print. The print stays as it is.";
inline constexpr Words kHeldHelp =
    "Shows the print; hold M, or the button under the picture, to see the master. The print stays "
    "as it is.";
inline constexpr Words kShowWhite = "Show the paper's white";
inline constexpr Words kShowWhiteHelp =
    "Tints the screen as the bare paper will look; off, paper white is screen white. Only the "
    "view changes.";
inline constexpr Words kShowBlack = "Show the paper's black";
inline constexpr Words kShowBlackHelp =
    "Lifts black to the darkest this paper prints; off, it is screen black. Only the view changes.";
inline constexpr Words kMark = "Mark what lies off the gamut";
inline constexpr Words kMarkHelp =
    "Draws fine leaf veins where the paper cannot reach the master's colour. Never printed.";
inline constexpr Words kThreshold = "Mark from";
inline constexpr Words kThresholdHelp =
    "Smaller differences than this many ΔE00 are left unmarked; about 1 is just visible.";
inline constexpr Words kShare =
    "%s of the picture lies beyond this paper's gamut by %d ΔE00 or more.";
inline constexpr Words kCross = "Reading cross";
inline constexpr Words kCrossHelp =
    "Reads one place of the picture; move it with the arrow keys. Without it, the pointer or a "
    "long press reads. Only the view changes.";
inline constexpr Words kKeys = "Show the key card";
inline constexpr Words kLanguage = "Language";
inline constexpr Words kLanguageHelp =
    "Kept for the next visit. What was noted of files that are open stays in the language before.";

// Print file
inline constexpr Words kNeedBoth = "It takes a master and a paper to make a print file.";
inline constexpr Words kFormat = "Kind of file";
inline constexpr Words kFormatHelpJpeg =
    "Small, flattened, 8 bits; what most print houses ask for.";
inline constexpr Words kFormatHelpTiff =
    "Large and without any loss; ask whether the house takes it.";
inline constexpr Words kBits = "Bits";
inline constexpr Words kBitsHelp8 = "Enough for a print when finely dithered, as it is here.";
inline constexpr Words kBitsHelp16 = "Keeps all steps for a house that works on; twice the size.";
inline constexpr Words kQuality = "Quality";
inline constexpr Words kQualityHelp =
    "Lower numbers make a smaller file with rougher fine detail in print.";
inline constexpr Words kDetail = "Full colour detail";
inline constexpr Words kDetailHelp =
    "Prints fine coloured edges sharply; off, colour is stored at half the detail.";
inline constexpr Words kPpi = "Pixels per inch";
inline constexpr Words kPpiHelp = "Prints at %.1f × %.1f cm; no pixel is changed by this number.";
inline constexpr Words kPrintSized =
    "Printed at %.1f × %.1f cm, %.0f pixels per inch, as the Size leaf says.";
inline constexpr Words kPrivate = "Keep private data";
inline constexpr Words kPrivateHelp =
    "Hands place, names and serial numbers on to the house; nothing in the print needs them.";
inline constexpr Words kSeed = "Dither seed";
inline constexpr Words kSeedHelp =
    "Chooses the grain that hides steps in smooth tones; the same number prints the same grain.";
inline constexpr Words kFileName = "Name of the new file";
inline constexpr Words kFileNameHelp = "The master keeps its own name and is never written over.";
inline constexpr Words kFileNameTaken = "That is the master's own name; choose another.";
inline constexpr Words kFileNameThere = "The folder holds a file of that name; choose another.";
inline constexpr Words kFileNameEmpty = "The new file needs a name.";
inline constexpr Words kMake = "Make the print file";
inline constexpr Words kBusy = "The print file is being made";
inline constexpr Words kMaking = "Making %s";
inline constexpr Words kStop = "Stop";
inline constexpr Words kSaveAgain = "Save it once more";
inline constexpr Words kChecked = "Read back and compared with the exact proof at %u places:";
inline constexpr Words kCheckNumbers = "mean %.2f, 95th percentile %.2f, greatest %.2f ΔE00.";
inline constexpr Words kMade = "%s is ready: %u\u00a0×\u00a0%u pixels, %.1f\u00a0MB.";
inline constexpr Words kPrintSummary = "%s, %d bits, %d ppi";
inline constexpr Words kReset = "Reset";
inline constexpr Words kOn = "on";
inline constexpr Words kOff = "off";
inline constexpr Words kShareNone = "Nothing";
inline constexpr Words kLessThanTenth = "Less than 0.1\u00a0%";
inline constexpr Words kWithWhite = ", paper white";
inline constexpr Words kWithBlack = ", paper black";
inline constexpr Words kMarked = ", marked";
inline constexpr Words kWhiteBright = "bright";
inline constexpr Words kWhiteSoft = "soft";
inline constexpr Words kWhiteDim = "dim";
inline constexpr Words kTintNeutral = "neutral";
inline constexpr Words kTintWarm = "warm";
inline constexpr Words kTintCool = "cool";
inline constexpr Words kTintRosy = "rosy";
inline constexpr Words kTintGreen = "greenish";
inline constexpr Words kWhiteSlightly = "%s, slightly %s";
inline constexpr Words kWhiteTint = "%s, %s";
inline constexpr Words kBlackDeep = "deep";
inline constexpr Words kBlackFirm = "firm";
inline constexpr Words kBlackSoft = "soft";
inline constexpr Words kWhiteAndBlack = "White %s; black %s";

// Around the picture
inline constexpr Words kCaptionEmpty =
    "Drop a finished picture here, or choose it on the first leaf.";
inline constexpr Words kCaptionMaster =
    "%s as it is. Choose a paper to see what it would do to it.";
inline constexpr Words kCaption =
    "On %s, %s: %s of the picture lies beyond this paper's gamut by %d ΔE00 or more.";
inline constexpr Words kCaptionWait = "On %s, %s: working it out.";
inline constexpr Words kCaptionNot = "On %s, %s: not worked out.";
inline constexpr Words kCaptionQuick = " A first look; the exact one follows.";
inline constexpr Words kCaptionOnly = " A first look only.";
inline constexpr Words kTagMaster = "Master";
inline constexpr Words kTagProof = "On %s";
inline constexpr Words kTagProofShort = "Print";
inline constexpr Words kWhole = "Whole";
inline constexpr Words kWholeLong = "Whole picture";
inline constexpr Words kExact = "1:1";
inline constexpr Words kCloser = "Closer";
inline constexpr Words kFarther = "Farther";
inline constexpr Words kHold = "Hold for master";
inline constexpr Words kScale = "%.0f %% of full size";
inline constexpr Words kDrop = "Let go to bring it in. The file stays on this computer.";
inline constexpr Words kReadIdle = "Point at the picture to read a colour.";
inline constexpr Words kReadIdleTouch = "Press and wait on the picture to read a colour.";
inline constexpr Words kReadMaster = "Master  L* %.1f  a* %s  b* %s";
inline constexpr Words kReadPaper = "On paper  L* %.1f  a* %s  b* %s";
inline constexpr Words kReadDifference = "ΔE00 %.1f";
inline constexpr Words kReadInk = "ink %.0f %%";
inline constexpr Words kReadInkLimit = "at the paper's ink limit";
inline constexpr Words kReadClipped = "clipped at the gamut's edge";
inline constexpr Words kDismiss = "Dismiss";
inline constexpr Words kClose = "Close";
inline constexpr Words kLicences = "Licences of what it is built from";

// Work under way
inline constexpr Words kOpening = "Opening %s";
inline constexpr Words kReadingPaper = "Reading the paper %s";
inline constexpr Words kProofing = "Working out the proof";
inline constexpr Words kScreening = "Preparing the picture for this screen";
inline constexpr Words kDetailing = "Fetching full detail";
inline constexpr Words kProofUnread =
    "The engine's answer about the proof could not be read; nothing was changed.";
inline constexpr Words kAnswerUnread =
    "The engine's answer about %s could not be read; nothing was changed.";

struct KeyLine {
  Words key;
  Words does;
};
inline constexpr Words kKeyCard = "Keys";
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
