// The words for the print that came back. %s, %d and %.1f stand for names and numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr Words kReturned = "When the print is back";
inline constexpr Words kReturnedHelp =
    "Look at it under daylight of about 5000 K (ISO 3664, D50), beside what was promised. A photo "
    "or flat scan of it, or measurements of its patches, help with that; neither leaves this "
    "machine, and the job keeps only what was found.";
inline constexpr Words kBringPrint = "Bring a photo, scan or measurements";
inline constexpr Words kExpecting =
    "The next file brought here is taken for the print that came back.";
inline constexpr Words kNotExpecting = "Never mind";
inline constexpr Words kPhotoHelp =
    "Best: the whole sheet straight on, in even daylight, nothing mirrored in it, its white edges "
    "or a neutral card in the photo.";
inline constexpr Words kComparing = "Comparing %s with the promise";
inline constexpr Words kNeedBothForPrint =
    "Bring the master and choose the paper first: the print is compared with their proof.";
inline constexpr Words kPhotoTooSoon = "The proof is not ready yet; bring the print again then.";
inline constexpr Words kCompared = "%s is compared with the promise.";
inline constexpr Words kPrintNotFound =
    "The picture was not found in %s. Show the photo and set the print's four corners by hand.";

inline constexpr Words kBroughtAs = "What this is";
inline constexpr Words kAsPhoto = "A photo";
inline constexpr Words kAsScan = "A flat scan";
inline constexpr Words kOnTable = "On the table";
inline constexpr Words kShowPicture = "Proof";
inline constexpr Words kShowPhoto = "Photo";
inline constexpr Words kShowPrint = "Print";
inline constexpr Words kShowPictureHelp = "Master and proof, as ever.";
inline constexpr Words kShowPhotoHelp =
    "The photo as it was brought. Drag the four corners onto those of the sheet.";
inline constexpr Words kShowPrintHelp =
    "The returned print, laid flat and its light evened, in the master's place beside the proof.";
inline constexpr Words kFitCorners = "Fit the corners to the picture";
inline constexpr Words kFitCornersHelp =
    "Moves them on until the photo agrees with the promise best.";
inline constexpr Words kFindAgain = "Look for the print by itself";
inline constexpr Words kMarkNeutral = "Mark a neutral place";
inline constexpr Words kMarkNeutralNow = "Tap the neutral card in the photo.";
inline constexpr Words kForgetNeutral = "Forget the neutral place";
inline constexpr Words kMarkSize = "Smallest mark, mm";
inline constexpr Words kMarkSizeHelp = "Spots smaller than this are passed over.";
inline constexpr Words kTagReturned = "Print that came back";

// What was found
inline constexpr Words kFoundFine = "As promised";
inline constexpr Words kFoundLook = "Look at it";
inline constexpr Words kFoundWrong = "Not as promised";
inline constexpr Words kFoundUntold = "Not told";
inline constexpr Words kShapeAsOrdered = "The shape is as ordered, told to within %.1f %%.";
inline constexpr Words kShapeWider = "%.1f %% wider for its height than ordered, within %.1f %%.";
inline constexpr Words kShapeNarrower =
    "%.1f %% narrower for its height than ordered, within %.1f %%.";
inline constexpr Words kMissingAt[] = {"%.1f mm of the sheet are missing at the left.",
                                       "%.1f mm of the sheet are missing at the top.",
                                       "%.1f mm of the sheet are missing at the right.",
                                       "%.1f mm of the sheet are missing at the bottom."};
inline constexpr Words kMoreAt[] = {
    "%.1f mm more than ordered at the left.", "%.1f mm more than ordered at the top.",
    "%.1f mm more than ordered at the right.", "%.1f mm more than ordered at the bottom."};
inline constexpr Words kEdgesAsOrdered =
    "Edges that could be told from what lies behind: %d of 4, where ordered within %.1f mm.";
inline constexpr Words kEdgesTold = "Edges that could be told from what lies behind: %d of 4.";
inline constexpr Words kScanSize = "The scan measures %.1f × %.1f mm.";
inline constexpr Words kSizeHides =
    "A photo tells shape, not size: lengths go by the picture's own content. Measure the sheet "
    "with a rule.";
inline constexpr Words kScanSizeHides =
    "A scan's size is as true as the resolution its file states.";
inline constexpr Words kScanNoSize = "The scan's file states no resolution, so it has no size.";

inline constexpr Words kGreyDark = "Dark greys: a* %s, b* %s from the promise.";
inline constexpr Words kGreyMiddle = "Middle greys: a* %s, b* %s from the promise.";
inline constexpr Words kGreyLight = "Light greys: a* %s, b* %s from the promise.";
inline constexpr Words kCastByBorder = "Judged against the paper's white border.";
inline constexpr Words kCastByNeutral = "Judged against the neutral place that was marked.";
inline constexpr Words kCastNoWhite =
    "There is no white border and no neutral place marked, so a cast of the whole print cannot be "
    "told from the light's colour.";
inline constexpr Words kCastMixed =
    "The border's sides differ in colour: two kinds of light at once. No cast is judged.";
inline constexpr Words kCastNoGreys = "The picture has too few greys to judge.";
inline constexpr Words kCastHides =
    "Good to about one and a half units; a camera's own colours are in it.";
inline constexpr Words kScanCastHides = "As true as the scanner's profile: %s.";
inline constexpr Words kScanNoProfile =
    "The scan carries no profile and was taken for sRGB; its colours are a guess.";

inline constexpr Words kShadowsApart = "The picture's deep tones stand apart.";
inline constexpr Words kShadowsClosed = "Tones darker than L* %.0f are one tone.";
inline constexpr Words kShadowsUntold =
    "The picture has too little of its deepest tones, or the photo is too noisy.";
inline constexpr Words kShadowGo = "Go to them";
inline constexpr Words kShadowHides = "A dim or hazy photo closes shadows by itself: look.";
inline constexpr Words kDarkPrinted = "Dark tones: %s L* from the promise.";
inline constexpr Words kMiddlePrinted = "Middle tones: %s L* from the promise.";
inline constexpr Words kLightPrinted = "Light tones: %s L* from the promise.";
inline constexpr Words kToneHides = "The camera's own tone curve is in these.";

inline constexpr Words kNoMarks = "No marks of %.1f mm or more.";
inline constexpr Words kOneMark = "One mark of %.1f mm or more.";
inline constexpr Words kMarks = "%d marks of %.1f mm or more, the plainest first.";
inline constexpr Words kMarkWalk = "Go through the marks";
inline constexpr Words kMarkTitle = "Marks on the print";
inline constexpr Words kSpotDarker = "Spot, %.1f mm, %.1f L* darker";
inline constexpr Words kSpotLighter = "Spot, %.1f mm, %.1f L* lighter";
inline constexpr Words kScratchDarker = "Line, %.0f mm long, %.1f L* darker";
inline constexpr Words kScratchLighter = "Line, %.0f mm long, %.1f L* lighter";
inline constexpr Words kBandDarker = "Band right across, %.1f mm wide, %.1f L* darker";
inline constexpr Words kBandLighter = "Band right across, %.1f mm wide, %.1f L* lighter";
inline constexpr Words kGlare =
    "Reflections hide %.0f %% of the picture; nothing was looked at there.";
inline constexpr Words kMarksHide =
    "Marks within fine texture, and those that differ in colour alone, are not seen.";
inline constexpr Words kLightTaken =
    "The light fell off by %.0f %% across the print; that is taken out, as would be a print that "
    "gets darker towards one side.";

// The four checks
inline constexpr Words kBackSize = "Size as ordered";
inline constexpr Words kBackCast = "Greys neutral";
inline constexpr Words kBackShadow = "Deepest shadows apart";
inline constexpr Words kBackMarks = "No marks or scratches";
inline constexpr Words kNotLooked = "Not yet";
inline constexpr Words kFine = "Fine";
inline constexpr Words kWrong = "Wrong";
inline constexpr Words kNote = "Note";

}  // namespace proofleaf::shell::words
