// Words of the screen's check.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

// On the look leaf
inline constexpr Words kThisScreen = "This screen";
inline constexpr Words kScreenUnchecked =
    "Not checked yet. Two minutes by eye, without an instrument, tell how far the proof here can "
    "be trusted.";
inline constexpr Words kScreenCheck = "Check this screen";
inline constexpr Words kScreenAnew = "Check it anew";
inline constexpr Words kScreenFound = "What was found";
inline constexpr Words kScreenForget = "Forget it";
inline constexpr Words kScreenForgotten = "The check of this screen is forgotten.";
inline constexpr Words kScreenMade = "Checked on %s.";
inline constexpr Words kScreenOther =
    "The check was made on another screen or with another colour setting. Until it is made anew, "
    "nothing is corrected by it.";
inline constexpr Words kScreenCorrect = "Correct for this screen";
inline constexpr Words kScreenCorrectHelp =
    "Draws master and proof so that this screen's own tones and tint are made up for. Only what is "
    "shown here; no print file, report, strip or link ever changes.";
inline constexpr Words kScreenCorrectNeeds =
    "It takes the comparisons of red, green and blue to correct for this screen.";
inline constexpr Words kScreenCorrected = "Corrected for this screen";
inline constexpr Words kScreenCorrectedSpoken = " Corrected for this screen.";
inline constexpr Words kSummaryCorrected = ", screen corrected";
inline constexpr Words kPriceLevels =
    "The price: %d of 256 steps are left in the channel with the fewest.";
inline constexpr Words kPriceWhite =
    "No channel can go beyond its full light, so white is drawn with %.0f %% of it instead.";
inline constexpr Words kPriceBlack =
    "The darkest %d steps above black are cut off and drawn as black.";
inline constexpr Words kPriceNoBlack = "No tone is cut off by it.";

// The share of the proof
inline constexpr Words kScreenShareNone = "This screen can show all of the present proof.";
inline constexpr Words kShareAny = "%s of the present proof cannot be shown here.";
inline constexpr Words kShareBeyondSrgb =
    "%s has colours stronger than sRGB, which is drawn in here.";
inline constexpr Words kShareBeyondP3 =
    "%s has colours stronger than Display P3, which is drawn in here.";
inline constexpr Words kShareDark = "%s is darker than the first dark step that shows.";
inline constexpr Words kShareLight = "%s is lighter than the last light step that shows.";
inline constexpr Words kShareWait = "How much of the proof it shows is told once there is a proof.";

// Grades
inline constexpr Words kGradeUnknown = "Not known yet";
inline constexpr Words kGradeComposition = "Good for composition only";
inline constexpr Words kGradeTone = "Good for judging tone";
inline constexpr Words kGradeColour = "Good for judging tone and colour";
inline constexpr Words kGradeUnknownHelp =
    "Nothing was answered that says how the screen shows a picture.";
inline constexpr Words kGradeCompositionHelp =
    "Trust what is where, crops and large differences. Order nothing on the strength of its tones "
    "or colours; a test strip tells more.";
inline constexpr Words kGradeToneHelp =
    "Trust light and dark and how they part. Colours may lean; a test strip tells those.";
inline constexpr Words kGradeColourHelp =
    "As far as an eye can tell without an instrument. Fine differences between papers still belong "
    "on a test strip.";

// The walk
inline constexpr Words kCheckOf = "%d of %d";
inline constexpr Words kCheckBack = "Back";
inline constexpr Words kCheckSkip = "Leave out";
inline constexpr Words kCheckClose = "Close";

inline constexpr Words kTintTitle = "Before you begin";
inline constexpr Words kTintWords =
    "Let the screen warm up for a quarter of an hour, turn lamps away from it, and undo any zoom "
    "of the page. A browser cannot tell whether the machine lays a night tint over everything, so "
    "please look: the square is white. Beside a white sheet in daylight it should not look clearly "
    "yellow or orange. The machine's display settings have a switch for such a tint, and some let "
    "the screen follow the room's light.";
inline constexpr Words kTintOff = "No night tint";
inline constexpr Words kTintOffHelp = "It is off in the settings, or was turned off now.";
inline constexpr Words kTintOn = "A night tint is on";
inline constexpr Words kTintOnHelp = "And has to stay on.";
inline constexpr Words kTintUnsure = "I cannot tell";

inline constexpr Words kRowsTitle = "Fine rows";
inline constexpr Words kRowsWords =
    "The left square is made of light and dark rows, each a pixel high, the right one of single "
    "pixels like a chess board. From where you sit, both should be plain grey and about equally "
    "light. The comparisons that follow use rows only: some screens blur neighbours within a row.";
inline constexpr Words kRowsEven = "Plain grey";
inline constexpr Words kRowsEvenHelp = "Even, or just fine rows when I go very near.";
inline constexpr Words kRowsUneven = "Stripes, waves or flicker";
inline constexpr Words kRowsUnevenHelp =
    "Something scales or dithers the picture. Set zoom and display scaling to 100 % if you can.";

inline constexpr Words kDarkTitle = "Near black";
inline constexpr Words kDarkWords =
    "Eight squares lie on black, each a little lighter than the one before. Which is the first you "
    "can make out? Tap it there, or choose its number.";
inline constexpr Words kLightTitle = "Near white";
inline constexpr Words kLightWords =
    "Eight squares lie on white, each a little darker than the one before. Which is the first you "
    "can make out? Tap it there, or choose its number.";
inline constexpr Words kNoneSeen = "None of them";
inline constexpr Words kSquare = "Square %d";

inline constexpr Words kRedTitle = "Tones of red";
inline constexpr Words kGreenTitle = "Tones of green";
inline constexpr Words kBlueTitle = "Tones of blue";
inline constexpr Words kToneWords =
    "A plain square lies in the middle of fine rows. Lean back, or narrow your eyes until the rows "
    "melt, and make the square as light as what is around it, so that its edge goes away.";
inline constexpr Words kToneMatch = "Comparison %d of %d";
inline constexpr Words kToneCode = "Lightness of the square";
inline constexpr Words kToneKeys = "Arrow keys move it too, with Shift in larger steps.";
inline constexpr Words kToneSpoken = "Lightness of the square %d.";
inline constexpr Words kToneDarker = "Darker";
inline constexpr Words kToneLighter = "Lighter";
inline constexpr Words kToneAlike = "They are alike";

inline constexpr Words kNeutralTitle = "Grey and paper";
inline constexpr Words kNeutralWords =
    "Hold a plain white sheet, best the paper you print on, beside the screen in the light you "
    "work in. Give the grey the sheet's tint; how light it is does not matter. That is what a "
    "print will look like in this room, more than any standard.";
inline constexpr Words kWarmth = "Cooler to warmer, b*";
inline constexpr Words kPinkness = "Greener to pinker, a*";
inline constexpr Words kNeutralKeys =
    "Left and right arrow make it cooler and warmer, Page Down and Page Up greener and pinker.";
inline constexpr Words kNeutralSpoken = "a* %.0f, b* %.0f.";
inline constexpr Words kNeutralAlike = "It has the sheet's tint";

inline constexpr Words kTurningTitle = "Angle and size";
inline constexpr Words kTurningWords =
    "Move your head a hand's breadth left and right, up and down. Do the greys change?";
inline constexpr Words kTurningSteady = "They stay";
inline constexpr Words kTurningLittle = "A little, at the edges";
inline constexpr Words kTurningMuch = "Clearly, or some go away";
inline constexpr Words kSizeKnown =
    "This screen's true size is known: %.2f pixels to the millimetre.";
inline constexpr Words kSizeUnknown =
    "This screen's true size is not known yet; a bank card tells it.";

inline constexpr Words kWhiteTitle = "White and paper";
inline constexpr Words kWhiteWords =
    "Hold the white sheet beside the screen in the light in which prints are looked at. Which is "
    "lighter?";
inline constexpr Words kWhiteDarker = "The sheet is lighter";
inline constexpr Words kWhiteDarkerHelp = "Raise the screen's brightness, or dim the lamp.";
inline constexpr Words kWhiteAlike = "About alike";
inline constexpr Words kWhiteLighter = "The screen is lighter";
inline constexpr Words kWhiteLighterHelp =
    "Prints will look too dark beside it. Lower the screen's brightness, or light the sheet "
    "better.";
inline constexpr Words kWhiteValues =
    "For guidance: ISO 3664 looks at prints in %.0f lx, and in %.0f lx for close comparison; a "
    "white sheet then has %.0f and %.0f cd/m². ISO 12646 wants a screen's white to have at least "
    "%.0f, better %.0f cd/m². Where no print lies beside the screen, ISO 3664 wants at most %.0f, "
    "better %.0f lx in the room. (ISO 3664:2009 and ISO 12646:2008, values from memory.)";

inline constexpr Words kResultTitle = "What was found";
inline constexpr Words kResponseTitle = "How the channels answer";
inline constexpr Words kResponseWords =
    "Light grows as the code to the power of: red %.2f ± %.2f, green %.2f ± %.2f, blue %.2f ± "
    "%.2f. The proof is drawn for sRGB's curve, about 2.2.";
inline constexpr Words kResponseBent =
    "One number does not tell all of it: the answers bend more than an eye's uncertainty explains. "
    "The correction follows the answers.";
inline constexpr Words kNeutralMoved =
    "To have the sheet's tint, the grey was moved by a* %s, b* %s.";
inline constexpr Words kReasonsTitle = "Why";
inline constexpr Words kShownTitle = "The present proof";
inline constexpr Words kCorrectionTitle = "Correction";
inline constexpr Words kFactsTitle = "What the browser tells";
inline constexpr Words kFactGamutUnknown = "It does not say how many colours the screen has.";
inline constexpr Words kFactGamutSrgb = "The screen has about the colours of sRGB.";
inline constexpr Words kFactGamutP3 = "The screen has about the colours of Display P3.";
inline constexpr Words kFactGamutRec2020 = "The screen has about the colours of Rec. 2020.";
inline constexpr Words kFactCanvasSrgb = "The picture is drawn in sRGB.";
inline constexpr Words kFactCanvasP3 = "The picture is drawn in Display P3.";
inline constexpr Words kFactHigh = "The screen can go beyond plain white (high dynamic range).";
inline constexpr Words kFactRatio = "%.3g of the screen's pixels to one of the page's.";
inline constexpr Words kFactNot =
    "It cannot tell a night tint, the screen's brightness, its profile, or whether that profile is "
    "true.";

// Reasons
inline constexpr Words kWhyTintOff = "No night tint lies over the colours.";
inline constexpr Words kWhyTintOn = "A night tint lies over all colours.";
inline constexpr Words kWhyTintOpen = "Whether a night tint lies over the colours is open.";
inline constexpr Words kWhyInverted = "The machine shows all colours inverted.";
inline constexpr Words kWhyForced =
    "The machine forces colours of its own on pages; pictures are mostly spared.";
inline constexpr Words kWhyContrast =
    "The machine is asked for other contrast; a filter may lie over the picture.";
inline constexpr Words kWhyRowsEven = "Fine patterns come out evenly, so the comparisons hold.";
inline constexpr Words kWhyRowsUneven =
    "Fine patterns come out unevenly, so the comparisons of tones do not hold.";
inline constexpr Words kWhyRowsOpen = "Whether fine patterns come out evenly is open.";
inline constexpr Words kWhyPixels =
    "The page is zoomed so that its pixels are not the screen's; set the zoom to 100 %.";
inline constexpr Words kWhyDark = "The first dark step that shows is code %.0f of 255.";
inline constexpr Words kWhyDarkNone = "Dark steps up to code 32 of 255 all look black.";
inline constexpr Words kWhyDarkOpen = "What the darkest tones do is open.";
inline constexpr Words kWhyLight = "The last light step that shows is code %.0f of 255.";
inline constexpr Words kWhyLightNone = "Light steps from code 229 of 255 on all look white.";
inline constexpr Words kWhyLightOpen = "What the lightest tones do is open.";
inline constexpr Words kWhyToneOpen = "How the channels answer is open.";
inline constexpr Words kWhyTone = "Its tones are up to %.1f L* off.";
inline constexpr Words kWhyToneCorrected = "Its tones are up to %.1f L* off, which is corrected.";
inline constexpr Words kWhyGrey = "The channels' unlikeness tints its greys by up to %.1f C*.";
inline constexpr Words kWhyGreyCorrected =
    "The channels' unlikeness tints its greys by up to %.1f C*, which is corrected.";
inline constexpr Words kWhyNeutral = "Its grey and the sheet in this room are %.1f C* apart.";
inline constexpr Words kWhyNeutralCorrected =
    "Its grey and the sheet in this room are %.1f C* apart, which is corrected.";
inline constexpr Words kWhyNeutralOpen = "How its grey compares with a sheet in this room is open.";
inline constexpr Words kWhySteady = "It looks the same from a hand's breadth aside.";
inline constexpr Words kWhyLittle = "It changes a little with the angle; sit before its middle.";
inline constexpr Words kWhyMuch = "It changes clearly with the angle.";
inline constexpr Words kWhyTurningOpen = "What the angle does is open.";
inline constexpr Words kWhyWhiteAlike = "Its white is about as light as the sheet.";
inline constexpr Words kWhyWhiteDarker =
    "Its white is darker than the sheet; prints will look lighter than the proof.";
inline constexpr Words kWhyWhiteLighter =
    "Its white is lighter than the sheet; prints will look darker than the proof.";
inline constexpr Words kWhyWhiteOpen = "How its white compares with a sheet is open.";
inline constexpr Words kWhyGamut = "The browser tells how many colours the screen has.";
inline constexpr Words kWhyGamutOpen = "How many colours the screen has is not told.";

}  // namespace proofleaf::shell::words
