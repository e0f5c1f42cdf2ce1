// The words for choosing a paper: ranking, paper card, rings. %s, %d and %.1f stand for names and
// numbers.
#pragma once

namespace proofleaf::shell::words {

// On the paper leaf
inline constexpr char kWhichPaper[] = "Which paper for this picture";
inline constexpr char kLooking[] = "Trying this picture on each paper: %d of %d done.";
inline constexpr char kLookingRests[] = "%d of %d papers tried.";
inline constexpr char kStopTrying[] = "Stop";
inline constexpr char kLookOn[] = "Try the rest";
inline constexpr char kBestPaper[] = "%s suits this picture best, printed %s.";
inline constexpr char kBestEqual[] = "%s and %s suit this picture about equally well.";
inline constexpr char kTakeBest[] = "Print on %s";
inline constexpr char kTakeWay[] = "Print it this way";
inline constexpr char kSeeAll[] = "See all papers";
inline constexpr char kBestWay[] = "%.0f of 100 for this picture. ";
inline constexpr char kPaperCard[] = "Paper card";
inline constexpr char kRename[] = "Rename";
inline constexpr char kRenameDone[] = "Keep the name";
inline constexpr char kRenameOff[] = "Its own name";
inline constexpr char kRenameField[] = "Your name for it";
inline constexpr char kRemove[] = "Take off the list";
inline constexpr char kRemoved[] = "%s is off the list.";

// The paper sheet
inline constexpr char kAllPapers[] = "All papers";
inline constexpr char kBackToPicture[] = "Back";
inline constexpr char kBackToPictureLong[] = "Back to the picture";
inline constexpr char kNeedPictureAndPapers[] =
    "It takes a picture and papers to say which paper suits it.";
inline constexpr char kProofShown[] =
    "The picture on each paper, with the paper's own white and black, printed its best way. "
    "Choose one to print on it.";
inline constexpr char kWaits[] = "not tried yet";
inline constexpr char kTake[] = "Print on this";
inline constexpr char kTaken[] = "In use";
inline constexpr char kPrintedSo[] = "Printed %s; %s.";
inline constexpr char kThumbScore[] = "%.0f of 100";
inline constexpr char kSortBy[] = "Sort by %s";
inline constexpr char kSortedBy[] = ", sorted by this";
inline constexpr char kColPaper[] = "Paper";
inline constexpr char kColScore[] = "Score";
inline constexpr char kColScoreUnit[] = "of 100";
inline constexpr char kColTone[] = "Tone kept, %";
inline constexpr char kColGamut[] = "Off gamut";
inline constexpr char kColGamutUnit[] = "% of area";
inline constexpr char kColDifference[] = "ΔE00 to master";
inline constexpr char kColHue[] = "Hue turn";
inline constexpr char kColHueUnit[] = "degrees";
inline constexpr char kColSkin[] = "Skin";
inline constexpr char kColGrey[] = "Greys";
inline constexpr char kColDriftUnit[] = "ΔE00";
inline constexpr char kVerdictGood[] = "good as a contract proof";
inline constexpr char kVerdictMarginal[] = "marginal as a contract proof";
inline constexpr char kVerdictOut[] = "out of a contract proof's limits";
inline constexpr char kCardTone[] =
    "Tone kept: shadows %.0f %%, midtones %.0f %%, highlights %.0f %%";
inline constexpr char kCardDifference[] =
    "ΔE00 to the master: mean %.1f, 95 %% below %.1f, most %.1f";
inline constexpr char kCardGamut[] = "%.1f %% of the area off the gamut";
inline constexpr char kCardDrift[] = "Hue turn %s, skin %s, greys %s";
inline constexpr char kNone[] = "–";
inline constexpr char kNoneSpoken[] = "none in this picture";
inline constexpr char kSpokenRow[] =
    "%s%s. Score %.0f of 100, best printed %s, %s. Tone kept %.0f, %.0f and %.0f per cent in "
    "shadows, "
    "midtones and highlights. %.1f per cent off the gamut. Delta E mean %.1f, 95th percentile "
    "%.1f, "
    "largest %.1f. Hue %s degrees, skin %s, greys %s. ";

// How the score is made; the numbers are the engine's own.
inline constexpr char kScoreHow[] = "How the score is made";
inline constexpr char kScoreStart[] =
    "Every paper starts at 100. Taken off, each for the picture as a whole:";
inline constexpr char kScoreColour[] =
    "Colour: %.3g points for each unit of the mean difference and %.3g for each of the 95th "
    "percentile. Here ΔE00 counts lightness half (kL = 2), as between pictures; the table's own "
    "ΔE00 counts it in full.";
inline constexpr char kScoreGamut[] = "Gamut: %.3g points if all of the area lay off the gamut.";
inline constexpr char kScoreTone[] =
    "Tone: %.3g points if no local contrast were kept, %.3g if all of it closed up, and %.3g for "
    "the "
    "zone that loses most.";
inline constexpr char kScoreHue[] =
    "Hue: %.3g points for each ΔE00 of hue in the strongest colours.";
inline constexpr char kScoreSkin[] =
    "Skin: %.3g points for each unit of difference in colours like skin.";
inline constexpr char kScoreGrey[] = "Greys: %.3g points for each ΔE00 of cast in neutral greys.";
inline constexpr char kScoreArea[] =
    "A zone counts in full from %.0f %% of the area on, strong colours from %.0f %%, skin from "
    "%.0f %%, "
    "greys from %.0f %%; less counts in proportion. The weights are this program's own judgement.";
inline constexpr char kLosses[] =
    "Points taken off: colour %.1f, gamut %.1f, tone %.1f, hue %.1f, skin %.1f, greys %.1f.";

// Paper card
inline constexpr char kNoCardPaper[] = "Choose a paper to see its card.";
inline constexpr char kCardReading[] = "Measuring the paper's profile: %.0f %%.";
inline constexpr char kCardWaits[] = "The card follows once the proof is up.";
inline constexpr char kMeasuring[] = "Measuring %s";
inline constexpr char kFaults[] = "Faults found in the profile";
inline constexpr char kNoFaults[] = "No faults found in the profile.";
inline constexpr char kNumbers[] = "In numbers";
inline constexpr char kOnThisPicture[] = "For this picture";
inline constexpr char kNumWhite[] = "White, absolute";
inline constexpr char kNumBlack[] = "Black, absolute";
inline constexpr char kNumLab[] = "L* %.1f  a* %s  b* %s";
inline constexpr char kNumDensity[] = "Density, white to black";
inline constexpr char kNumDensityValue[] = "%.2f to %.2f, range %.2f";
inline constexpr char kNumContrast[] = "Contrast, white to black";
inline constexpr char kNumContrastValue[] = "%.0f to 1";
inline constexpr char kNumVolume[] = "Gamut volume";
inline constexpr char kNumVolumeValue[] = "%.0f thousand cubic ΔE*ab";
inline constexpr char kNumCast[] = "Largest cast in greys";
inline constexpr char kNumCastValue[] = "C* %.1f at L* %.0f (a* %s  b* %s)";
inline constexpr char kNumPrinted[] = "Greys as printed";
inline constexpr char kNumDevice[] = "Greys of the device";
inline constexpr char kNumRampValue[] = "%u steps, %s, %s; largest step %.2f L*";
inline constexpr char kRampNoReversal[] = "none turns back";
inline constexpr char kRampReversals[] = "%u turn back, by up to %.2f L*";
inline constexpr char kRampNoJump[] = "none is over 1 L*";
inline constexpr char kRampJumps[] = "%u are over 1 L*";
inline constexpr char kNumRound[] = "There and back through its tables";
inline constexpr char kNumRoundValue[] = "ΔE00 mean %.2f, 95 %% %.2f, most %.2f over %u colours";
inline constexpr char kNumTables[] = "Tables of its own";
inline constexpr char kNumInk[] = "Most ink";
inline constexpr char kNumInkValue[] = "%.0f %%";
inline constexpr char kNumModel[] = "Kind of profile";
inline constexpr char kNumModelSpace[] = "%s, a standard space";

// Charts
inline constexpr char kChartHint[] = "Point, press and wait, or use the arrow keys.";
inline constexpr char kChartTone[] = "Tone: master to print";
inline constexpr char kChartToneX[] = "master L*";
inline constexpr char kChartToneY[] = "printed L*";
inline constexpr char kChartToneRead[] = "Master L* %.0f prints as L* %.1f";
inline constexpr char kChartToneHelp[] =
    "Greys as they are printed with the intent in use, measured against a perfect white. The thin "
    "line "
    "would be no change.";
inline constexpr char kChartGrey[] = "Greys: tint of the print";
inline constexpr char kChartGreyY[] = "a*, b*";
inline constexpr char kChartGreyRead[] = "Master L* %.0f prints with a* %s and b* %s";
inline constexpr char kChartGreyHelp[] =
    "Full line a*, broken line b*. The paper's own white is part of it; flat lines are an even "
    "tint.";
inline constexpr char kChartNeedMaster[] = "This chart needs a picture and its proof.";
inline constexpr char kChartSlice[] = "Gamut at one lightness";
inline constexpr char kSliceLightness[] = "Lightness L*";
inline constexpr char kSliceLightnessHelp[] = "Cuts the gamut at this lightness.";
inline constexpr char kSliceRead[] = "Hue %.0f°: this paper reaches chroma %s";
inline constexpr char kSliceReadBeside[] = ", %s %s";
inline constexpr char kSliceNothing[] = "none";
inline constexpr char kSliceBeside[] = "Full line %s; broken line:";
inline constexpr char kSliceEmpty[] = "This paper has no colour of that lightness.";
inline constexpr char kSolid[] = "Gamut, to turn";
inline constexpr char kSolidHelp[] =
    "Drag to turn it, or use Left and Right, Page Up and Page Down. Upwards is L*, 0 to 100; the "
    "cross "
    "at the foot reaches to a* and b* of 50.";
inline constexpr char kSolidSpoken[] =
    "Gamut in three dimensions, turned to %.0f degrees, tilted %.0f. ";
inline constexpr char kSolidNone[] = "A grey profile has no gamut to turn.";

// Rings over the proof
inline constexpr char kRings[] = "Ring where the print differs";
inline constexpr char kRingsHelp[] =
    "Draws rings over the proof; a ring's area grows with the difference from the master. Never "
    "printed.";
inline constexpr char kRingsLegend[] = "ΔE00 to the master";
inline constexpr char kRingsWait[] = "The rings follow in a moment.";
inline constexpr char kRingsNeed[] = "Rings need a picture and a paper.";
inline constexpr char kWorst[] = "Where it differs most";
inline constexpr char kWorstPlace[] = "ΔE00 %.1f, %s";
inline constexpr char kWorstPlaceMost[] = "ΔE00 over 25, %s";
inline constexpr char kWorstHelp[] = "Choose one to go there.";

}  // namespace proofleaf::shell::words
