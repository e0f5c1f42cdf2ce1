// The words for fitting a picture to its paper and for the print's size. %s, %d and %.1f stand for
// names and numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

// Steps
inline constexpr Words kStepBack = "Step back";
inline constexpr Words kStepForward = "Step forward";
inline constexpr Words kSteppedBack = "One step back.";
inline constexpr Words kSteppedForward = "One step forward.";
inline constexpr Words kNoStepBack = "There is no step to go back.";
inline constexpr Words kNoStepForward = "There is no step to go forward.";
inline constexpr Words kKeepRecipe = "Keep as a file";
inline constexpr Words kRecipeSaved = "The recipe is kept as %s. Drop it here to go on with it.";
inline constexpr Words kReadingRecipe = "Reading %s";
inline constexpr Words kRecipeTaken = "%s is in use.";

// Fit
inline constexpr Words kLeafFit = "Fit";
inline constexpr Words kFitNothing = "As the master is";
inline constexpr Words kCorrected = "corrected";
inline constexpr Words kInMonochrome = "monochrome";
inline constexpr Words kAside = "set aside";
inline constexpr Words kFitForMe = "Fit for me";
inline constexpr Words kFittingNow = "Fitting the picture to %s";
inline constexpr Words kFitHelp =
    "Looks for the fewest small corrections that bring the print on this paper back towards the "
    "master, as the paper ranking measures it. The master itself is never changed.";
inline constexpr Words kFitWaits = "The picture is still being looked at.";
inline constexpr Words kFitNeeds = "It takes a master and a paper to fit one to the other.";
inline constexpr Words kSetAside = "Look without corrections";
inline constexpr Words kSetAsideHelp =
    "Shows the print as it would be without them; they stay for the print file.";
inline constexpr Words kAllBack = "Undo all corrections";
inline constexpr Words kEffect = "What it does on this paper";
inline constexpr Words kEffectColumns = "without and with corrections";
inline constexpr Words kEffectScore = "Score of 100";
inline constexpr Words kEffectMean = "ΔE00 to the master, mean";
inline constexpr Words kEffectTone = "Tone kept, dark";
inline constexpr Words kEffectMid = "Tone kept, middle";
inline constexpr Words kEffectLight = "Tone kept, light";
inline constexpr Words kEffectHue = "Hue turn, degrees";
inline constexpr Words kEffectNone =
    "No correction yet. Without any, this paper keeps %.0f, %.0f and %.0f %% of the tone in dark, "
    "middle and light parts.";
inline constexpr Words kTones = "Tones";
inline constexpr Words kDark = "Dark tones";
inline constexpr Words kDarkHelp = "L* added around L* 17, fading out to black and to the middle.";
inline constexpr Words kLight = "Light tones";
inline constexpr Words kLightHelp = "L* added around L* 83, fading out to the middle and to white.";
inline constexpr Words kContrast = "Contrast";
inline constexpr Words kContrastHelp = "Steeper in the middle; black and white stay.";
inline constexpr Words kLocalContrast = "Local contrast";
inline constexpr Words kLocalContrastHelp =
    "What stands out from its surroundings stands out more, or less; edges get no halos. The proof "
    "shows it as the print file gets it; the scores above do not count it.";
inline constexpr Words kContrasting = "Working out the local contrast";
inline constexpr Words kCurve = "Tone curve";
inline constexpr Words kCurvePoint = "L* %.0f becomes";
inline constexpr Words kCurveHelp = "The curve runs smoothly through it and never turns back.";
inline constexpr Words kColours = "Colours";
inline constexpr Words kSaturationAll = "All colours";
inline constexpr Words kSaturationAllHelp = "Chroma more or less, in per cent, of every hue.";
inline constexpr Words kRed = "Red";
inline constexpr Words kOrange = "Orange";
inline constexpr Words kYellow = "Yellow";
inline constexpr Words kGreen = "Green";
inline constexpr Words kCyan = "Cyan";
inline constexpr Words kBlue = "Blue";
inline constexpr Words kViolet = "Violet";
inline constexpr Words kMagenta = "Magenta";
inline constexpr Words kHueBand = "One hue";
inline constexpr Words kHueChroma = "Chroma of %s";
inline constexpr Words kHueChromaHelp = "In per cent; the hues beside it follow half the way.";
inline constexpr Words kHueTurn = "Turn of %s";
inline constexpr Words kHueTurnHelp = "Degrees of hue, towards the next name in the row.";
inline constexpr Words kNeutrals = "Neutrals";
inline constexpr Words kNeutralDark = "Dark";
inline constexpr Words kNeutralMiddle = "Middle";
inline constexpr Words kNeutralLight = "Light";
inline constexpr Words kNeutralA = "Green to red, a*";
inline constexpr Words kNeutralB = "Blue to yellow, b*";
inline constexpr Words kNeutralHelp = "Added to greys; strong colours, black and white stay.";

// Monochrome
inline constexpr Words kMonochrome = "Monochrome";
inline constexpr Words kMonochromeHelp =
    "Mixes red, green and blue light into one scale of greys, which stand on the paper's own "
    "neutral.";
inline constexpr Words kMixRed = "Share of red";
inline constexpr Words kMixGreen = "Share of green";
inline constexpr Words kMixBlue = "Share of blue";
inline constexpr Words kMixHelp = "Of linear light; all three are brought to a sum of one.";
inline constexpr Words kBandLightness = "Lightness of %s";
inline constexpr Words kBandLightnessHelp = "L* added where the picture has that hue.";
inline constexpr Words kToneDark = "Tint of dark tones";
inline constexpr Words kToneLight = "Tint of light tones";
inline constexpr Words kToneHue = "Hue angle";
inline constexpr Words kToneHueHelp = "CIELAB: 0 red, 90 yellow, 180 green, 270 blue.";
inline constexpr Words kToneChroma = "Strength, C*";
inline constexpr Words kToneChromaHelp = "0 leaves them neutral; 3 to 8 is usual.";
inline constexpr Words kToneBalance = "Where they meet";
inline constexpr Words kToneBalanceHelp = "Above 0 the light tones' tint reaches further down.";

// A piece of the print
inline constexpr Words kSample = "A piece of the print, pixel for pixel";
inline constexpr Words kSampleWaits = "It is being made.";
inline constexpr Words kSampleHelp =
    "From the middle of the view; left without, right with sharpening and grain.";
inline constexpr Words kSampleTimes =
    "On a screen of 96 pixels to the inch it is %.1f times as large as on paper, so look from "
    "farther away.";
inline constexpr Words kSampleTrue =
    "It is as large as on paper; this screen's pixels are coarser than the print's.";
inline constexpr Words kFromDistance = "As seen from a distance";
inline constexpr Words kFromDistanceHelp =
    "Leaves out what an eye cannot make out from there, by its contrast sensitivity (Mannos and "
    "Sakrison 1974): a halo that is gone here is not seen in the print either.";
inline constexpr Words kDistance = "Distance, cm";
inline constexpr Words kDistanceHelp = "From the eye to the print; 40 is for a print in the hand.";
inline constexpr Words kTrueSize = "At true size on this screen";
inline constexpr Words kTrueSizeHelp = "A millimetre of the print is a millimetre here.";
inline constexpr Words kMeasureScreen = "Measure this screen";
inline constexpr Words kMeasureAgain = "Measure this screen anew";
inline constexpr Words kCardHelp =
    "Hold a bank card against the screen and pull the corner until the outline is as large as the "
    "card (85.60 × 53.98 mm, ISO/IEC 7810). It is kept for this screen and this zoom.";
inline constexpr Words kCardCorner = "Corner of the card's outline; drag it";
inline constexpr Words kCardSide = "Longer side, px";
inline constexpr Words kCardFits = "It is as large as the card";

// On a wall
inline constexpr Words kWall = "On a wall";
inline constexpr Words kWallHelp =
    "Shows the print to scale on a plain wall, its middle 150 cm above the floor.";
inline constexpr Words kPerson = "Mark beside it, cm";
inline constexpr Words kPersonHelp = "As high as the person who stands there.";
inline constexpr Words kPersonMark = "%.0f cm";

// Size
inline constexpr Words kLeafSize = "Size";
inline constexpr Words kSizeOwn = "The master's own pixels";
inline constexpr Words kSizeSummary = "%.1f × %.1f cm, %.0f ppi";
inline constexpr Words kSized = "Set the print's size";
inline constexpr Words kSizedHelp =
    "Makes the file's pixels anew for that size. Off, the master's own pixels are handed on, all "
    "of "
    "them.";
inline constexpr Words kWidthCm = "Width of the picture, cm";
inline constexpr Words kHeightCm = "Height of the picture, cm";
inline constexpr Words kSideHelp = "0: it follows from the other side and the crop.";
inline constexpr Words kPrintPpi = "Pixels per inch";
inline constexpr Words kPrintPpiHelp = "As the print house asks for.";
inline constexpr Words kShape = "Shape";
inline constexpr Words kCropX = "Crop from the left, %";
inline constexpr Words kCropY = "Crop from the top, %";
inline constexpr Words kCropPart = "Part of the picture, %";
inline constexpr Words kCropPartHelp = "100 takes the largest part of that shape.";
inline constexpr Words kCropPlaceHelp = "Where the part lies; the frame in the picture shows it.";
inline constexpr Words kShapeOwn = "Its own";
inline constexpr Words kEdgeNone = "Nothing";
inline constexpr Words kEdgeBleed = "Bleed";
inline constexpr Words kEdgeWrapped = "Wrapped";
inline constexpr Words kAround = "Around the picture";
inline constexpr Words kEdgeMm = "Bleed or edge, mm";
inline constexpr Words kEdgeHelp = "The picture goes on past its edge by this on each side.";
inline constexpr Words kBorderMm = "Border, mm";
inline constexpr Words kBorderHelp = "Paper white on each side.";
inline constexpr Words kMatMm = "For a mat, mm";
inline constexpr Words kMatHelp = "More paper white outside of the border, to lie under a mat.";
inline constexpr Words kSignature = "Line to sign on";
inline constexpr Words kSignatureHelp =
    "A thin line in the lower border, which must be 8 mm or more.";
inline constexpr Words kSheetWords =
    "Picture %.1f × %.1f cm on a sheet of %.1f × %.1f cm, %u × %u pixels.";
inline constexpr Words kOwnPixels =
    "The master gives %.0f of its own pixels to the inch; they are fine enough from %.0f cm on "
    "(one "
    "arc minute, the detail a 20/20 eye resolves).";
inline constexpr Words kHouse = "What the print house takes";
inline constexpr Words kHouseSide = "Longest side, cm";
inline constexpr Words kHouseSideHelp = "Of the whole sheet.";
inline constexpr Words kHouseBytes = "Largest file, MB";
inline constexpr Words kHouseBytesHelp = "A JPEG is brought below it by its quality.";
inline constexpr Words kSurface = "Surface";
inline constexpr Words kGloss = "Gloss";
inline constexpr Words kBaryta = "Baryta";
inline constexpr Words kMatte = "Matte";
inline constexpr Words kCanvas = "Canvas";
inline constexpr Words kSharpened = ", sharpened";
inline constexpr Words kGrained = ", grain";
inline constexpr Words kSurfaceHelp =
    "Matte papers and canvas swallow fine contrast and are sharpened more.";
inline constexpr Words kSharpen = "Sharpen for the print";
inline constexpr Words kSharpenHelp =
    "At the print's own scale, after resampling; smooth parts stay as they are.";
inline constexpr Words kSharpenAmount = "Amount";
inline constexpr Words kSharpenAmountHelp = "Share of fine detail that is added.";
inline constexpr Words kSharpenRadius = "Radius, mm";
inline constexpr Words kSharpenRadiusHelp = "On the print; 0.17 mm is two pixels at 300 ppi.";
inline constexpr Words kSharpenThreshold = "Leave out below, L*";
inline constexpr Words kSharpenThresholdHelp = "Details smaller than this are taken for noise.";
inline constexpr Words kSharpenHalo = "Halo at most, L*";
inline constexpr Words kSharpenHaloHelp =
    "No edge passes the lightest and darkest around it by more.";
inline constexpr Words kGrain = "Grain";
inline constexpr Words kGrainHelp =
    "Made for this print in millimetres, after sharpening, so that it looks the same at every "
    "size.";
inline constexpr Words kGrainSize = "Size of a grain, mm";
inline constexpr Words kGrainSizeHelp = "0.1 is fine, 0.3 is coarse.";
inline constexpr Words kGrainDark = "Grain in dark tones, L*";
inline constexpr Words kGrainMiddle = "Grain in middle tones, L*";
inline constexpr Words kGrainLight = "Grain in light tones, L*";
inline constexpr Words kGrainAmountHelp = "Its root mean square.";
inline constexpr Words kGrainSeed = "Pattern";
inline constexpr Words kGrainSeedHelp = "The same number gives the same grain again.";

}  // namespace proofleaf::shell::words
