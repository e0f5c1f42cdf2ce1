// The words for fitting a picture to its paper and for the print's size. %s, %d and %.1f stand for
// names and numbers.
#pragma once

namespace proofleaf::shell::words {

// Steps
inline constexpr char kStepBack[] = "Step back";
inline constexpr char kStepForward[] = "Step forward";
inline constexpr char kSteppedBack[] = "One step back.";
inline constexpr char kSteppedForward[] = "One step forward.";
inline constexpr char kNoStepBack[] = "There is no step to go back.";
inline constexpr char kNoStepForward[] = "There is no step to go forward.";
inline constexpr char kKeepRecipe[] = "Keep as a file";
inline constexpr char kRecipeSaved[] = "The recipe is kept as %s. Drop it here to go on with it.";
inline constexpr char kReadingRecipe[] = "Reading %s";
inline constexpr char kRecipeTaken[] = "%s is in use.";

// Fit
inline constexpr char kLeafFit[] = "Fit";
inline constexpr char kFitNothing[] = "As the master is";
inline constexpr char kFitForMe[] = "Fit for me";
inline constexpr char kFittingNow[] = "Fitting the picture to %s";
inline constexpr char kFitHelp[] =
    "Looks for the fewest small corrections that bring the print on this paper back towards the "
    "master, as the paper ranking measures it. The master itself is never changed.";
inline constexpr char kFitWaits[] = "The picture is still being looked at.";
inline constexpr char kFitNeeds[] = "It takes a master and a paper to fit one to the other.";
inline constexpr char kSetAside[] = "Look without corrections";
inline constexpr char kSetAsideHelp[] =
    "Shows the print as it would be without them; they stay for the print file.";
inline constexpr char kAllBack[] = "Undo all corrections";
inline constexpr char kEffect[] = "What it does on this paper";
inline constexpr char kEffectColumns[] = "without and with corrections";
inline constexpr char kEffectScore[] = "Score of 100";
inline constexpr char kEffectMean[] = "ΔE00 to the master, mean";
inline constexpr char kEffectTone[] = "Tone kept, dark";
inline constexpr char kEffectMid[] = "Tone kept, middle";
inline constexpr char kEffectLight[] = "Tone kept, light";
inline constexpr char kEffectHue[] = "Hue turn, degrees";
inline constexpr char kEffectNone[] =
    "No correction yet. Without any, this paper keeps %.0f, %.0f and %.0f %% of the tone in dark, "
    "middle and light parts.";
inline constexpr char kTones[] = "Tones";
inline constexpr char kDark[] = "Dark tones";
inline constexpr char kDarkHelp[] = "L* added around L* 17, fading out to black and to the middle.";
inline constexpr char kLight[] = "Light tones";
inline constexpr char kLightHelp[] =
    "L* added around L* 83, fading out to the middle and to white.";
inline constexpr char kContrast[] = "Contrast";
inline constexpr char kContrastHelp[] = "Steeper in the middle; black and white stay.";
inline constexpr char kLocalContrast[] = "Local contrast";
inline constexpr char kLocalContrastHelp[] =
    "What stands out from its surroundings stands out more, or less; edges get no halos. The proof "
    "shows it as the print file gets it; the scores above do not count it.";
inline constexpr char kContrasting[] = "Working out the local contrast";
inline constexpr char kCurve[] = "Tone curve";
inline constexpr char kCurvePoint[] = "L* %.0f becomes";
inline constexpr char kCurveHelp[] = "The curve runs smoothly through it and never turns back.";
inline constexpr char kColours[] = "Colours";
inline constexpr char kSaturationAll[] = "All colours";
inline constexpr char kSaturationAllHelp[] = "Chroma more or less, in per cent, of every hue.";
inline constexpr char kHueBand[] = "One hue";
inline constexpr char kHueChroma[] = "Chroma of %s";
inline constexpr char kHueChromaHelp[] = "In per cent; the hues beside it follow half the way.";
inline constexpr char kHueTurn[] = "Turn of %s";
inline constexpr char kHueTurnHelp[] = "Degrees of hue, towards the next name in the row.";
inline constexpr char kNeutrals[] = "Neutrals";
inline constexpr char kNeutralDark[] = "Dark";
inline constexpr char kNeutralMiddle[] = "Middle";
inline constexpr char kNeutralLight[] = "Light";
inline constexpr char kNeutralA[] = "Green to red, a*";
inline constexpr char kNeutralB[] = "Blue to yellow, b*";
inline constexpr char kNeutralHelp[] = "Added to greys; strong colours, black and white stay.";

// Monochrome
inline constexpr char kMonochrome[] = "Monochrome";
inline constexpr char kMonochromeHelp[] =
    "Mixes red, green and blue light into one scale of greys, which stand on the paper's own "
    "neutral.";
inline constexpr char kMixRed[] = "Share of red";
inline constexpr char kMixGreen[] = "Share of green";
inline constexpr char kMixBlue[] = "Share of blue";
inline constexpr char kMixHelp[] = "Of linear light; all three are brought to a sum of one.";
inline constexpr char kBandLightness[] = "Lightness of %s";
inline constexpr char kBandLightnessHelp[] = "L* added where the picture has that hue.";
inline constexpr char kToneDark[] = "Tint of dark tones";
inline constexpr char kToneLight[] = "Tint of light tones";
inline constexpr char kToneHue[] = "Hue angle";
inline constexpr char kToneHueHelp[] = "CIELAB: 0 red, 90 yellow, 180 green, 270 blue.";
inline constexpr char kToneChroma[] = "Strength, C*";
inline constexpr char kToneChromaHelp[] = "0 leaves them neutral; 3 to 8 is usual.";
inline constexpr char kToneBalance[] = "Where they meet";
inline constexpr char kToneBalanceHelp[] = "Above 0 the light tones' tint reaches further down.";

// A piece of the print
inline constexpr char kSample[] = "A piece of the print, pixel for pixel";
inline constexpr char kSampleWaits[] = "It is being made.";
inline constexpr char kSampleHelp[] =
    "From the middle of the view; left without, right with sharpening and grain.";
inline constexpr char kSampleTimes[] =
    "On a screen of 96 pixels to the inch it is %.1f times as large as on paper, so look from "
    "farther away.";
inline constexpr char kSampleTrue[] =
    "It is as large as on paper; this screen's pixels are coarser than the print's.";
inline constexpr char kFromDistance[] = "As seen from a distance";
inline constexpr char kFromDistanceHelp[] =
    "Leaves out what an eye cannot make out from there, by its contrast sensitivity (Mannos and "
    "Sakrison 1974): a halo that is gone here is not seen in the print either.";
inline constexpr char kDistance[] = "Distance, cm";
inline constexpr char kDistanceHelp[] = "From the eye to the print; 40 is for a print in the hand.";
inline constexpr char kTrueSize[] = "At true size on this screen";
inline constexpr char kTrueSizeHelp[] = "A millimetre of the print is a millimetre here.";
inline constexpr char kMeasureScreen[] = "Measure this screen";
inline constexpr char kMeasureAgain[] = "Measure this screen anew";
inline constexpr char kCardHelp[] =
    "Hold a bank card against the screen and pull the corner until the outline is as large as the "
    "card (85.60 × 53.98 mm, ISO/IEC 7810). It is kept for this screen and this zoom.";
inline constexpr char kCardCorner[] = "Corner of the card's outline; drag it";
inline constexpr char kCardSide[] = "Longer side, px";
inline constexpr char kCardFits[] = "It is as large as the card";

// On a wall
inline constexpr char kWall[] = "On a wall";
inline constexpr char kWallHelp[] =
    "Shows the print to scale on a plain wall, its middle 150 cm above the floor.";
inline constexpr char kPerson[] = "Mark beside it, cm";
inline constexpr char kPersonHelp[] = "As high as the person who stands there.";
inline constexpr char kPersonMark[] = "%.0f cm";

// Size
inline constexpr char kLeafSize[] = "Size";
inline constexpr char kSizeOwn[] = "The master's own pixels";
inline constexpr char kSizeSummary[] = "%.1f × %.1f cm, %.0f ppi";
inline constexpr char kSized[] = "Set the print's size";
inline constexpr char kSizedHelp[] =
    "Makes the file's pixels anew for that size. Off, the master's own pixels are handed on, all "
    "of "
    "them.";
inline constexpr char kWidthCm[] = "Width of the picture, cm";
inline constexpr char kHeightCm[] = "Height of the picture, cm";
inline constexpr char kSideHelp[] = "0: it follows from the other side and the crop.";
inline constexpr char kPrintPpi[] = "Pixels per inch";
inline constexpr char kPrintPpiHelp[] = "As the print house asks for.";
inline constexpr char kShape[] = "Shape";
inline constexpr char kCropX[] = "Crop from the left, %";
inline constexpr char kCropY[] = "Crop from the top, %";
inline constexpr char kCropPart[] = "Part of the picture, %";
inline constexpr char kCropPartHelp[] = "100 takes the largest part of that shape.";
inline constexpr char kCropPlaceHelp[] = "Where the part lies; the frame in the picture shows it.";
inline constexpr char kAround[] = "Around the picture";
inline constexpr char kEdgeMm[] = "Bleed or edge, mm";
inline constexpr char kEdgeHelp[] = "The picture goes on past its edge by this on each side.";
inline constexpr char kBorderMm[] = "Border, mm";
inline constexpr char kBorderHelp[] = "Paper white on each side.";
inline constexpr char kMatMm[] = "For a mat, mm";
inline constexpr char kMatHelp[] = "More paper white outside of the border, to lie under a mat.";
inline constexpr char kSignature[] = "Line to sign on";
inline constexpr char kSignatureHelp[] =
    "A thin line in the lower border, which must be 8 mm or more.";
inline constexpr char kSheetWords[] =
    "Picture %.1f × %.1f cm on a sheet of %.1f × %.1f cm, %u × %u pixels.";
inline constexpr char kOwnPixels[] =
    "The master gives %.0f of its own pixels to the inch; they are fine enough from %.0f cm on "
    "(one "
    "arc minute, the detail a 20/20 eye resolves).";
inline constexpr char kHouse[] = "What the print house takes";
inline constexpr char kHouseSide[] = "Longest side, cm";
inline constexpr char kHouseSideHelp[] = "Of the whole sheet.";
inline constexpr char kHouseBytes[] = "Largest file, MB";
inline constexpr char kHouseBytesHelp[] = "A JPEG is brought below it by its quality.";
inline constexpr char kSurface[] = "Surface";
inline constexpr char kSurfaceHelp[] =
    "Matte papers and canvas swallow fine contrast and are sharpened more.";
inline constexpr char kSharpen[] = "Sharpen for the print";
inline constexpr char kSharpenHelp[] =
    "At the print's own scale, after resampling; smooth parts stay as they are.";
inline constexpr char kSharpenAmount[] = "Amount";
inline constexpr char kSharpenAmountHelp[] = "Share of fine detail that is added.";
inline constexpr char kSharpenRadius[] = "Radius, mm";
inline constexpr char kSharpenRadiusHelp[] = "On the print; 0.17 mm is two pixels at 300 ppi.";
inline constexpr char kSharpenThreshold[] = "Leave out below, L*";
inline constexpr char kSharpenThresholdHelp[] = "Details smaller than this are taken for noise.";
inline constexpr char kSharpenHalo[] = "Halo at most, L*";
inline constexpr char kSharpenHaloHelp[] =
    "No edge passes the lightest and darkest around it by more.";
inline constexpr char kGrain[] = "Grain";
inline constexpr char kGrainHelp[] =
    "Made for this print in millimetres, after sharpening, so that it looks the same at every "
    "size.";
inline constexpr char kGrainSize[] = "Size of a grain, mm";
inline constexpr char kGrainSizeHelp[] = "0.1 is fine, 0.3 is coarse.";
inline constexpr char kGrainDark[] = "Grain in dark tones, L*";
inline constexpr char kGrainMiddle[] = "Grain in middle tones, L*";
inline constexpr char kGrainLight[] = "Grain in light tones, L*";
inline constexpr char kGrainAmountHelp[] = "Its root mean square.";
inline constexpr char kGrainSeed[] = "Pattern";
inline constexpr char kGrainSeedHelp[] = "The same number gives the same grain again.";

}  // namespace proofleaf::shell::words
