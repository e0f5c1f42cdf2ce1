// The words for choosing a paper: ranking, paper card, rings. %s, %d and %.1f stand for names and
// numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

// On the paper leaf
inline constexpr Words kWhichPaper = "Which paper for this picture";
inline constexpr Words kLooking = "Trying this picture on each paper: %d of %d done.";
inline constexpr Words kLookingRests = "%d of %d papers tried.";
inline constexpr Words kStopTrying = "Stop";
inline constexpr Words kLookOn = "Try the rest";
inline constexpr Words kBestPaper = "%s suits this picture best, printed %s.";
inline constexpr Words kBestEqual = "%s and %s suit this picture about equally well.";
inline constexpr Words kTakeBest = "Print on %s";
inline constexpr Words kTakeWay = "Print it this way";
inline constexpr Words kSeeAll = "See all papers";
inline constexpr Words kBestWay = "%.0f of 100 for this picture. ";
inline constexpr Words kPaperCard = "Paper card";
inline constexpr Words kRename = "Rename";
inline constexpr Words kRenameDone = "Keep the name";
inline constexpr Words kRenameOff = "Its own name";
inline constexpr Words kRenameField = "Your name for it";
inline constexpr Words kRemove = "Take off the list";
inline constexpr Words kRemoved = "%s is off the list.";

inline constexpr Words kWithBpc = " with black point compensation";
inline constexpr Words kWithoutBpc = " without black point compensation";

// The paper sheet
inline constexpr Words kAllPapers = "All papers";
inline constexpr Words kBackToPicture = "Back";
inline constexpr Words kBackToPictureLong = "Back to the picture";
inline constexpr Words kNeedPictureAndPapers =
    "It takes a picture and papers to say which paper suits it.";
inline constexpr Words kProofShown =
    "The picture on each paper, with the paper's own white and black, printed its best way. "
    "Choose one to print on it.";
inline constexpr Words kWaits = "not tried yet";
inline constexpr Words kTake = "Print on this";
inline constexpr Words kTaken = "In use";
inline constexpr Words kPrintedSo = "Printed %s; %s.";
inline constexpr Words kThumbScore = "%.0f of 100";
inline constexpr Words kSortBy = "Sort by %s";
inline constexpr Words kSortedBy = ", sorted by this";
inline constexpr Words kColPaper = "Paper";
inline constexpr Words kColScore = "Score";
inline constexpr Words kColScoreUnit = "of 100";
inline constexpr Words kColDark = "dark";
inline constexpr Words kColMiddle = "mid";
inline constexpr Words kColLight = "light";
inline constexpr Words kColMean = "mean";
inline constexpr Words kCol95 = "95 %";
inline constexpr Words kColMost = "most";
inline constexpr Words kColTone = "Tone kept, %";
inline constexpr Words kColGamut = "Off gamut";
inline constexpr Words kColGamutUnit = "% of area";
inline constexpr Words kColDifference = "ΔE00 to master";
inline constexpr Words kColHue = "Hue turn";
inline constexpr Words kColHueUnit = "degrees";
inline constexpr Words kColSkin = "Skin";
inline constexpr Words kColGrey = "Greys";
inline constexpr Words kColDriftUnit = "ΔE00";
inline constexpr Words kVerdictGood = "good as a contract proof";
inline constexpr Words kVerdictMarginal = "marginal as a contract proof";
inline constexpr Words kVerdictOut = "out of a contract proof's limits";
inline constexpr Words kCardTone =
    "Tone kept: shadows %.0f %%, midtones %.0f %%, highlights %.0f %%";
inline constexpr Words kCardDifference =
    "ΔE00 to the master: mean %.1f, 95 %% below %.1f, most %.1f";
inline constexpr Words kCardGamut = "%.1f %% of the area off the gamut";
inline constexpr Words kCardDrift = "Hue turn %s, skin %s, greys %s";
inline constexpr Words kNone = "–";
inline constexpr Words kNoneSpoken = "none in this picture";
inline constexpr Words kSpokenRow =
    "%s%s. Score %.0f of 100, best printed %s, %s. Tone kept %.0f, %.0f and %.0f per cent in "
    "shadows, "
    "midtones and highlights. %.1f per cent off the gamut. Delta E mean %.1f, 95th percentile "
    "%.1f, "
    "largest %.1f. Hue %s degrees, skin %s, greys %s. ";

// How the score is made; the numbers are the engine's own.
inline constexpr Words kScoreHow = "How the score is made";
inline constexpr Words kScoreStart =
    "Every paper starts at 100. Taken off, each for the picture as a whole:";
inline constexpr Words kScoreColour =
    "Colour: %.3g points for each unit of the mean difference and %.3g for each of the 95th "
    "percentile. Here ΔE00 counts lightness half (kL = 2), as between pictures; the table's own "
    "ΔE00 counts it in full.";
inline constexpr Words kScoreGamut = "Gamut: %.3g points if all of the area lay off the gamut.";
inline constexpr Words kScoreTone =
    "Tone: %.3g points if no local contrast were kept, %.3g if all of it closed up, and %.3g for "
    "the "
    "zone that loses most.";
inline constexpr Words kScoreHue =
    "Hue: %.3g points for each ΔE00 of hue in the strongest colours.";
inline constexpr Words kScoreSkin =
    "Skin: %.3g points for each unit of difference in colours like skin.";
inline constexpr Words kScoreGrey = "Greys: %.3g points for each ΔE00 of cast in neutral greys.";
inline constexpr Words kScoreArea =
    "A zone counts in full from %.0f %% of the area on, strong colours from %.0f %%, skin from "
    "%.0f %%, "
    "greys from %.0f %%; less counts in proportion. The weights are this program's own judgement.";
inline constexpr Words kLosses =
    "Points taken off: colour %.1f, gamut %.1f, tone %.1f, hue %.1f, skin %.1f, greys %.1f.";

// Paper card
inline constexpr Words kNoCardPaper = "Choose a paper to see its card.";
inline constexpr Words kCardReading = "Measuring the paper's profile: %.0f %%.";
inline constexpr Words kCardWaits = "The card follows once the proof is up.";
inline constexpr Words kMeasuring = "Measuring %s";
inline constexpr Words kFaults = "Faults found in the profile";
inline constexpr Words kNoFaults = "No faults found in the profile.";
inline constexpr Words kNumbers = "In numbers";
inline constexpr Words kOnThisPicture = "For this picture";
inline constexpr Words kNumWhite = "White, absolute";
inline constexpr Words kNumBlack = "Black, absolute";
inline constexpr Words kNumLab = "L* %.1f  a* %s  b* %s";
inline constexpr Words kNumDensity = "Density, white to black";
inline constexpr Words kNumDensityValue = "%.2f to %.2f, range %.2f";
inline constexpr Words kNumContrast = "Contrast, white to black";
inline constexpr Words kNumContrastValue = "%.0f to 1";
inline constexpr Words kNumVolume = "Gamut volume";
inline constexpr Words kNumVolumeValue = "%.0f thousand cubic ΔE*ab";
inline constexpr Words kNumCast = "Largest cast in greys";
inline constexpr Words kNumCastValue = "C* %.1f at L* %.0f (a* %s  b* %s)";
inline constexpr Words kNumPrinted = "Greys as printed";
inline constexpr Words kNumDevice = "Greys of the device";
inline constexpr Words kNumRampValue = "%u steps, %s, %s; largest step %.2f L*";
inline constexpr Words kRampNoReversal = "none turns back";
inline constexpr Words kRampReversals = "%u turn back, by up to %.2f L*";
inline constexpr Words kRampNoJump = "none is over 1 L*";
inline constexpr Words kRampJumps = "%u are over 1 L*";
inline constexpr Words kNumRound = "There and back through its tables";
inline constexpr Words kNumRoundValue = "ΔE00 mean %.2f, 95 %% %.2f, most %.2f over %u colours";
inline constexpr Words kNumTables = "Tables of its own";
inline constexpr Words kNumInk = "Most ink";
inline constexpr Words kNumInkValue = "%.0f %%";
inline constexpr Words kNumModel = "Kind of profile";
inline constexpr Words kNumModelSpace = "%s, a standard space";

// Charts
inline constexpr Words kChartHint = "Point, press and wait, or use the arrow keys.";
inline constexpr Words kChartTone = "Tone: master to print";
inline constexpr Words kChartToneX = "master L*";
inline constexpr Words kChartToneY = "printed L*";
inline constexpr Words kChartToneRead = "Master L* %.0f prints as L* %.1f";
inline constexpr Words kChartToneHelp =
    "Greys as they are printed with the intent in use, measured against a perfect white. The thin "
    "line "
    "would be no change.";
inline constexpr Words kChartGrey = "Greys: tint of the print";
inline constexpr Words kChartGreyY = "a*, b*";
inline constexpr Words kChartGreyRead = "Master L* %.0f prints with a* %s and b* %s";
inline constexpr Words kChartGreyHelp =
    "Full line a*, broken line b*. The paper's own white is part of it; flat lines are an even "
    "tint.";
inline constexpr Words kChartNeedMaster = "This chart needs a picture and its proof.";
inline constexpr Words kChartSlice = "Gamut at one lightness";
inline constexpr Words kSliceLightness = "Lightness L*";
inline constexpr Words kSliceLightnessHelp = "Cuts the gamut at this lightness.";
inline constexpr Words kSliceRead = "Hue %.0f°: this paper reaches chroma %s";
inline constexpr Words kSliceReadBeside = ", %s %s";
inline constexpr Words kSliceNothing = "none";
inline constexpr Words kSliceBeside = "Full line %s; broken line:";
inline constexpr Words kSliceEmpty = "This paper has no colour of that lightness.";
inline constexpr Words kSolid = "Gamut, to turn";
inline constexpr Words kSolidHelp =
    "Drag to turn it, or use Left and Right, Page Up and Page Down. Upwards is L*, 0 to 100; the "
    "cross "
    "at the foot reaches to a* and b* of 50.";
inline constexpr Words kSolidSpoken =
    "Gamut in three dimensions, turned to %.0f degrees, tilted %.0f. ";
inline constexpr Words kSolidNone = "A grey profile has no gamut to turn.";

// Rings over the proof
inline constexpr Words kRings = "Ring where the print differs";
inline constexpr Words kRingsHelp =
    "Draws rings over the proof; a ring's area grows with the difference from the master. Never "
    "printed.";
inline constexpr Words kRingsLegend = "ΔE00 to the master";
inline constexpr Words kRingsWait = "The rings follow in a moment.";
inline constexpr Words kRingsNeed = "Rings need a picture and a paper.";
inline constexpr Words kWorst = "Where it differs most";
inline constexpr Words kWorstPlace = "ΔE00 %.1f, %s";
inline constexpr Words kWorstPlaceMost = "ΔE00 over 25, %s";
inline constexpr Words kWorstHelp = "Choose one to go there.";

}  // namespace proofleaf::shell::words
