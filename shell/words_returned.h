// The words for the print that came back. %s, %d and %.1f stand for names and numbers.
#pragma once

namespace proofleaf::shell::words {

inline constexpr char kReturned[] = "When the print is back";
inline constexpr char kReturnedHelp[] =
    "Look at it under daylight of about 5000 K (ISO 3664, D50), beside what was promised. A photo "
    "or flat scan of it, or measurements of its patches, help with that; neither leaves this "
    "machine, and the job keeps only what was found.";
inline constexpr char kBringPrint[] = "Bring a photo, scan or measurements";
inline constexpr char kExpecting[] =
    "The next file brought here is taken for the print that came back.";
inline constexpr char kNotExpecting[] = "Never mind";
inline constexpr char kPhotoHelp[] =
    "Best: the whole sheet straight on, in even daylight, nothing mirrored in it, its white edges "
    "or a neutral card in the photo.";
inline constexpr char kComparing[] = "Comparing %s with the promise";
inline constexpr char kNeedBothForPrint[] =
    "Bring the master and choose the paper first: the print is compared with their proof.";
inline constexpr char kPhotoTooSoon[] = "The proof is not ready yet; bring the print again then.";
inline constexpr char kCompared[] = "%s is compared with the promise.";
inline constexpr char kPrintNotFound[] =
    "The picture was not found in %s. Show the photo and set the print's four corners by hand.";

inline constexpr char kBroughtAs[] = "What this is";
inline constexpr char kAsPhoto[] = "A photo";
inline constexpr char kAsScan[] = "A flat scan";
inline constexpr char kOnTable[] = "On the table";
inline constexpr char kShowPicture[] = "Proof";
inline constexpr char kShowPhoto[] = "Photo";
inline constexpr char kShowPrint[] = "Print";
inline constexpr char kShowPictureHelp[] = "Master and proof, as ever.";
inline constexpr char kShowPhotoHelp[] =
    "The photo as it was brought. Drag the four corners onto those of the sheet.";
inline constexpr char kShowPrintHelp[] =
    "The returned print, laid flat and its light evened, in the master's place beside the proof.";
inline constexpr char kFitCorners[] = "Fit the corners to the picture";
inline constexpr char kFitCornersHelp[] =
    "Moves them on until the photo agrees with the promise best.";
inline constexpr char kFindAgain[] = "Look for the print by itself";
inline constexpr char kMarkNeutral[] = "Mark a neutral place";
inline constexpr char kMarkNeutralNow[] = "Tap the neutral card in the photo.";
inline constexpr char kForgetNeutral[] = "Forget the neutral place";
inline constexpr char kMarkSize[] = "Smallest mark, mm";
inline constexpr char kMarkSizeHelp[] = "Spots smaller than this are passed over.";
inline constexpr char kTagReturned[] = "Print that came back";

// What was found
inline constexpr char kFoundFine[] = "As promised";
inline constexpr char kFoundLook[] = "Look at it";
inline constexpr char kFoundWrong[] = "Not as promised";
inline constexpr char kFoundUntold[] = "Not told";
inline constexpr char kShapeAsOrdered[] = "The shape is as ordered, told to within %.1f %%.";
inline constexpr char kShapeWider[] = "%.1f %% wider for its height than ordered, within %.1f %%.";
inline constexpr char kShapeNarrower[] =
    "%.1f %% narrower for its height than ordered, within %.1f %%.";
inline constexpr const char* kMissingAt[] = {"%.1f mm of the sheet are missing at the left.",
                                             "%.1f mm of the sheet are missing at the top.",
                                             "%.1f mm of the sheet are missing at the right.",
                                             "%.1f mm of the sheet are missing at the bottom."};
inline constexpr const char* kMoreAt[] = {
    "%.1f mm more than ordered at the left.", "%.1f mm more than ordered at the top.",
    "%.1f mm more than ordered at the right.", "%.1f mm more than ordered at the bottom."};
inline constexpr char kEdgesAsOrdered[] =
    "Edges that could be told from what lies behind: %d of 4, where ordered within %.1f mm.";
inline constexpr char kEdgesTold[] = "Edges that could be told from what lies behind: %d of 4.";
inline constexpr char kScanSize[] = "The scan measures %.1f × %.1f mm.";
inline constexpr char kSizeHides[] =
    "A photo tells shape, not size: lengths go by the picture's own content. Measure the sheet "
    "with a rule.";
inline constexpr char kScanSizeHides[] =
    "A scan's size is as true as the resolution its file states.";
inline constexpr char kScanNoSize[] = "The scan's file states no resolution, so it has no size.";

inline constexpr char kGreyDark[] = "Dark greys: a* %s, b* %s from the promise.";
inline constexpr char kGreyMiddle[] = "Middle greys: a* %s, b* %s from the promise.";
inline constexpr char kGreyLight[] = "Light greys: a* %s, b* %s from the promise.";
inline constexpr char kCastByBorder[] = "Judged against the paper's white border.";
inline constexpr char kCastByNeutral[] = "Judged against the neutral place that was marked.";
inline constexpr char kCastNoWhite[] =
    "There is no white border and no neutral place marked, so a cast of the whole print cannot be "
    "told from the light's colour.";
inline constexpr char kCastMixed[] =
    "The border's sides differ in colour: two kinds of light at once. No cast is judged.";
inline constexpr char kCastNoGreys[] = "The picture has too few greys to judge.";
inline constexpr char kCastHides[] =
    "Good to about one and a half units; a camera's own colours are in it.";
inline constexpr char kScanCastHides[] = "As true as the scanner's profile: %s.";
inline constexpr char kScanNoProfile[] =
    "The scan carries no profile and was taken for sRGB; its colours are a guess.";

inline constexpr char kShadowsApart[] = "The picture's deep tones stand apart.";
inline constexpr char kShadowsClosed[] = "Tones darker than L* %.0f are one tone.";
inline constexpr char kShadowsUntold[] =
    "The picture has too little of its deepest tones, or the photo is too noisy.";
inline constexpr char kShadowGo[] = "Go to them";
inline constexpr char kShadowHides[] = "A dim or hazy photo closes shadows by itself: look.";
inline constexpr char kDarkPrinted[] = "Dark tones: %s L* from the promise.";
inline constexpr char kMiddlePrinted[] = "Middle tones: %s L* from the promise.";
inline constexpr char kLightPrinted[] = "Light tones: %s L* from the promise.";
inline constexpr char kToneHides[] = "The camera's own tone curve is in these.";

inline constexpr char kNoMarks[] = "No marks of %.1f mm or more.";
inline constexpr char kOneMark[] = "One mark of %.1f mm or more.";
inline constexpr char kMarks[] = "%d marks of %.1f mm or more, the plainest first.";
inline constexpr char kMarkWalk[] = "Go through the marks";
inline constexpr char kMarkTitle[] = "Marks on the print";
inline constexpr char kSpotDarker[] = "Spot, %.1f mm, %.1f L* darker";
inline constexpr char kSpotLighter[] = "Spot, %.1f mm, %.1f L* lighter";
inline constexpr char kScratchDarker[] = "Line, %.0f mm long, %.1f L* darker";
inline constexpr char kScratchLighter[] = "Line, %.0f mm long, %.1f L* lighter";
inline constexpr char kBandDarker[] = "Band right across, %.1f mm wide, %.1f L* darker";
inline constexpr char kBandLighter[] = "Band right across, %.1f mm wide, %.1f L* lighter";
inline constexpr char kGlare[] =
    "Reflections hide %.0f %% of the picture; nothing was looked at there.";
inline constexpr char kMarksHide[] =
    "Marks within fine texture, and those that differ in colour alone, are not seen.";
inline constexpr char kLightTaken[] =
    "The light fell off by %.0f %% across the print; that is taken out, as would be a print that "
    "gets darker towards one side.";

// The four checks
inline constexpr char kBackSize[] = "Size as ordered";
inline constexpr char kBackCast[] = "Greys neutral";
inline constexpr char kBackShadow[] = "Deepest shadows apart";
inline constexpr char kBackMarks[] = "No marks or scratches";
inline constexpr char kNotLooked[] = "Not yet";
inline constexpr char kFine[] = "Fine";
inline constexpr char kWrong[] = "Wrong";
inline constexpr char kNote[] = "Note";

}  // namespace proofleaf::shell::words
