// Words of the screen's check.
#pragma once

namespace proofleaf::shell::words {

// On the look leaf
inline constexpr char kThisScreen[] = "This screen";
inline constexpr char kScreenUnchecked[] =
    "Not checked yet. Two minutes by eye, without an instrument, tell how far the proof here can "
    "be "
    "trusted.";
inline constexpr char kScreenCheck[] = "Check this screen";
inline constexpr char kScreenAnew[] = "Check it anew";
inline constexpr char kScreenFound[] = "What was found";
inline constexpr char kScreenForget[] = "Forget it";
inline constexpr char kScreenForgotten[] = "The check of this screen is forgotten.";
inline constexpr char kScreenMade[] = "Checked on %s.";
inline constexpr char kScreenOther[] =
    "The check was made on another screen or with another colour setting. Until it is made anew, "
    "nothing is corrected by it.";
inline constexpr char kScreenCorrect[] = "Correct for this screen";
inline constexpr char kScreenCorrectHelp[] =
    "Draws master and proof so that this screen's own tones and tint are made up for. Only what is "
    "shown here; no print file, report, strip or link ever changes.";
inline constexpr char kScreenCorrectNeeds[] =
    "It takes the comparisons of red, green and blue to correct for this screen.";
inline constexpr char kScreenCorrected[] = "Corrected for this screen";
inline constexpr char kScreenCorrectedSpoken[] = " Corrected for this screen.";
inline constexpr char kSummaryCorrected[] = ", screen corrected";
inline constexpr char kPriceLevels[] =
    "The price: %d of 256 steps are left in the channel with the fewest.";
inline constexpr char kPriceWhite[] =
    "No channel can go beyond its full light, so white is drawn with %.0f %% of it instead.";
inline constexpr char kPriceBlack[] =
    "The darkest %d steps above black are cut off and drawn as black.";
inline constexpr char kPriceNoBlack[] = "No tone is cut off by it.";

// The share of the proof
inline constexpr char kShareNone[] = "This screen can show all of the present proof.";
inline constexpr char kShareAny[] = "%s of the present proof cannot be shown here.";
inline constexpr char kShareBeyondSrgb[] =
    "%s has colours stronger than sRGB, which is drawn in here.";
inline constexpr char kShareBeyondP3[] =
    "%s has colours stronger than Display P3, which is drawn in here.";
inline constexpr char kShareDark[] = "%s is darker than the first dark step that shows.";
inline constexpr char kShareLight[] = "%s is lighter than the last light step that shows.";
inline constexpr char kShareWait[] =
    "How much of the proof it shows is told once there is a proof.";

// Grades
inline constexpr char kGradeUnknown[] = "Not known yet";
inline constexpr char kGradeComposition[] = "Good for composition only";
inline constexpr char kGradeTone[] = "Good for judging tone";
inline constexpr char kGradeColour[] = "Good for judging tone and colour";
inline constexpr char kGradeUnknownHelp[] =
    "Nothing was answered that says how the screen shows a picture.";
inline constexpr char kGradeCompositionHelp[] =
    "Trust what is where, crops and large differences. Order nothing on the strength of its tones "
    "or colours; a test strip tells more.";
inline constexpr char kGradeToneHelp[] =
    "Trust light and dark and how they part. Colours may lean; a test strip tells those.";
inline constexpr char kGradeColourHelp[] =
    "As far as an eye can tell without an instrument. Fine differences between papers still belong "
    "on a test strip.";

// The walk
inline constexpr char kCheckOf[] = "%d of %d";
inline constexpr char kCheckBack[] = "Back";
inline constexpr char kCheckSkip[] = "Leave out";
inline constexpr char kCheckClose[] = "Close";

inline constexpr char kTintTitle[] = "Before you begin";
inline constexpr char kTintWords[] =
    "Let the screen warm up for a quarter of an hour, turn lamps away from it, and set the page's "
    "zoom to 100 %. A browser cannot tell whether the machine lays a night tint over everything, "
    "so "
    "please look: the square is white. Beside a white sheet in daylight it should not look clearly "
    "yellow or orange. The machine's display settings call the tint night light, night mode or eye "
    "comfort, and some let the screen follow the room's light.";
inline constexpr char kTintOff[] = "No night tint";
inline constexpr char kTintOffHelp[] = "It is off in the settings, or was turned off now.";
inline constexpr char kTintOn[] = "A night tint is on";
inline constexpr char kTintOnHelp[] = "And has to stay on.";
inline constexpr char kTintUnsure[] = "I cannot tell";

inline constexpr char kRowsTitle[] = "Fine rows";
inline constexpr char kRowsWords[] =
    "The left square is made of light and dark rows, each a pixel high, the right one of single "
    "pixels like a chess board. From where you sit, both should be plain grey and about equally "
    "light. The comparisons that follow use rows only: some screens blur neighbours within a row.";
inline constexpr char kRowsEven[] = "Plain grey";
inline constexpr char kRowsEvenHelp[] = "Even, or just fine rows when I go very near.";
inline constexpr char kRowsUneven[] = "Stripes, waves or flicker";
inline constexpr char kRowsUnevenHelp[] =
    "Something scales or dithers the picture. Set zoom and display scaling to 100 % if you can.";

inline constexpr char kDarkTitle[] = "Near black";
inline constexpr char kDarkWords[] =
    "Eight squares lie on black, each a little lighter than the one before. Which is the first you "
    "can make out? Tap it there, or choose its number.";
inline constexpr char kLightTitle[] = "Near white";
inline constexpr char kLightWords[] =
    "Eight squares lie on white, each a little darker than the one before. Which is the first you "
    "can make out? Tap it there, or choose its number.";
inline constexpr char kNoneSeen[] = "None of them";
inline constexpr char kSquare[] = "Square %d";

inline constexpr char kRedTitle[] = "Tones of red";
inline constexpr char kGreenTitle[] = "Tones of green";
inline constexpr char kBlueTitle[] = "Tones of blue";
inline constexpr char kToneWords[] =
    "A plain square lies in the middle of fine rows. Lean back, or narrow your eyes until the rows "
    "melt, and make the square as light as what is around it, so that its edge goes away.";
inline constexpr char kToneMatch[] = "Comparison %d of %d";
inline constexpr char kToneCode[] = "Lightness of the square";
inline constexpr char kToneKeys[] = "Arrow keys move it too, with Shift in larger steps.";
inline constexpr char kToneSpoken[] = "Lightness of the square %d.";
inline constexpr char kDarker[] = "Darker";
inline constexpr char kLighter[] = "Lighter";
inline constexpr char kToneAlike[] = "They are alike";

inline constexpr char kNeutralTitle[] = "Grey and paper";
inline constexpr char kNeutralWords[] =
    "Hold a plain white sheet, best the paper you print on, beside the screen in the light you "
    "work "
    "in. Give the grey the sheet's tint; how light it is does not matter. That is what a print "
    "will look like in this room, more than any standard.";
inline constexpr char kWarmth[] = "Cooler to warmer, b*";
inline constexpr char kPinkness[] = "Greener to pinker, a*";
inline constexpr char kNeutralKeys[] =
    "Left and right arrow make it cooler and warmer, Page Down and Page Up greener and pinker.";
inline constexpr char kNeutralSpoken[] = "a* %.0f, b* %.0f.";
inline constexpr char kNeutralAlike[] = "It has the sheet's tint";

inline constexpr char kTurningTitle[] = "Angle and size";
inline constexpr char kTurningWords[] =
    "Move your head a hand's breadth left and right, up and down. Do the greys change?";
inline constexpr char kTurningSteady[] = "They stay";
inline constexpr char kTurningLittle[] = "A little, at the edges";
inline constexpr char kTurningMuch[] = "Clearly, or some go away";
inline constexpr char kSizeKnown[] =
    "This screen's true size is known: %.2f pixels to the millimetre.";
inline constexpr char kSizeUnknown[] =
    "This screen's true size is not known yet; a bank card tells it.";

inline constexpr char kWhiteTitle[] = "White and paper";
inline constexpr char kWhiteWords[] =
    "Hold the white sheet beside the screen in the light in which prints are looked at. Which is "
    "lighter?";
inline constexpr char kWhiteDarker[] = "The sheet is lighter";
inline constexpr char kWhiteDarkerHelp[] = "Raise the screen's brightness, or dim the lamp.";
inline constexpr char kWhiteAlike[] = "About alike";
inline constexpr char kWhiteLighter[] = "The screen is lighter";
inline constexpr char kWhiteLighterHelp[] =
    "Prints will look too dark beside it. Lower the screen's brightness, or light the sheet "
    "better.";
inline constexpr char kWhiteValues[] =
    "For guidance: ISO 3664 looks at prints in %.0f lx, and in %.0f lx for close comparison; a "
    "white "
    "sheet then has %.0f and %.0f cd/m². ISO 12646 wants a screen's white to have at least %.0f, "
    "better %.0f cd/m². Where no print lies beside the screen, ISO 3664 wants at most %.0f, better "
    "%.0f lx in the room. (ISO 3664:2009 and ISO 12646:2008, values from memory.)";

inline constexpr char kResultTitle[] = "What was found";
inline constexpr char kResponseTitle[] = "How the channels answer";
inline constexpr char kResponseWords[] =
    "Light grows as the code to the power of: red %.2f ± %.2f, green %.2f ± %.2f, blue %.2f ± "
    "%.2f. "
    "The proof is drawn for sRGB's curve, about 2.2.";
inline constexpr char kResponseBent[] =
    "One number does not tell all of it: the answers bend more than an eye's uncertainty explains. "
    "The correction follows the answers.";
inline constexpr char kNeutralMoved[] =
    "To have the sheet's tint, the grey was moved by a* %s, b* %s.";
inline constexpr char kReasonsTitle[] = "Why";
inline constexpr char kShownTitle[] = "The present proof";
inline constexpr char kCorrectionTitle[] = "Correction";
inline constexpr char kFactsTitle[] = "What the browser tells";
inline constexpr char kFactGamutUnknown[] = "It does not say how many colours the screen has.";
inline constexpr char kFactGamutSrgb[] = "The screen has about the colours of sRGB.";
inline constexpr char kFactGamutP3[] = "The screen has about the colours of Display P3.";
inline constexpr char kFactGamutRec2020[] = "The screen has about the colours of Rec. 2020.";
inline constexpr char kFactCanvasSrgb[] = "The picture is drawn in sRGB.";
inline constexpr char kFactCanvasP3[] = "The picture is drawn in Display P3.";
inline constexpr char kFactHigh[] = "The screen can go beyond plain white (high dynamic range).";
inline constexpr char kFactRatio[] = "%.3g of the screen's pixels to one of the page's.";
inline constexpr char kFactNot[] =
    "It cannot tell a night tint, the screen's brightness, its profile, or whether that profile is "
    "true.";

// Reasons
inline constexpr char kWhyTintOff[] = "No night tint lies over the colours.";
inline constexpr char kWhyTintOn[] = "A night tint lies over all colours.";
inline constexpr char kWhyTintOpen[] = "Whether a night tint lies over the colours is open.";
inline constexpr char kWhyInverted[] = "The machine shows all colours inverted.";
inline constexpr char kWhyForced[] =
    "The machine forces colours of its own on pages; pictures are mostly spared.";
inline constexpr char kWhyContrast[] =
    "The machine is asked for other contrast; a filter may lie over the picture.";
inline constexpr char kWhyRowsEven[] = "Fine patterns come out evenly, so the comparisons hold.";
inline constexpr char kWhyRowsUneven[] =
    "Fine patterns come out unevenly, so the comparisons of tones do not hold.";
inline constexpr char kWhyRowsOpen[] = "Whether fine patterns come out evenly is open.";
inline constexpr char kWhyPixels[] =
    "The page is zoomed so that its pixels are not the screen's; set the zoom to 100 %.";
inline constexpr char kWhyDark[] = "The first dark step that shows is code %.0f of 255.";
inline constexpr char kWhyDarkNone[] = "Dark steps up to code 32 of 255 all look black.";
inline constexpr char kWhyDarkOpen[] = "What the darkest tones do is open.";
inline constexpr char kWhyLight[] = "The last light step that shows is code %.0f of 255.";
inline constexpr char kWhyLightNone[] = "Light steps from code 229 of 255 on all look white.";
inline constexpr char kWhyLightOpen[] = "What the lightest tones do is open.";
inline constexpr char kWhyToneOpen[] = "How the channels answer is open.";
inline constexpr char kWhyTone[] = "Its tones are up to %.1f L* off.";
inline constexpr char kWhyToneCorrected[] = "Its tones are up to %.1f L* off, which is corrected.";
inline constexpr char kWhyGrey[] = "The channels' unlikeness tints its greys by up to %.1f C*.";
inline constexpr char kWhyGreyCorrected[] =
    "The channels' unlikeness tints its greys by up to %.1f C*, which is corrected.";
inline constexpr char kWhyNeutral[] = "Its grey and the sheet in this room are %.1f C* apart.";
inline constexpr char kWhyNeutralCorrected[] =
    "Its grey and the sheet in this room are %.1f C* apart, which is corrected.";
inline constexpr char kWhyNeutralOpen[] =
    "How its grey compares with a sheet in this room is open.";
inline constexpr char kWhySteady[] = "It looks the same from a hand's breadth aside.";
inline constexpr char kWhyLittle[] = "It changes a little with the angle; sit before its middle.";
inline constexpr char kWhyMuch[] = "It changes clearly with the angle.";
inline constexpr char kWhyTurningOpen[] = "What the angle does is open.";
inline constexpr char kWhyWhiteAlike[] = "Its white is about as light as the sheet.";
inline constexpr char kWhyWhiteDarker[] =
    "Its white is darker than the sheet; prints will look lighter than the proof.";
inline constexpr char kWhyWhiteLighter[] =
    "Its white is lighter than the sheet; prints will look darker than the proof.";
inline constexpr char kWhyWhiteOpen[] = "How its white compares with a sheet is open.";
inline constexpr char kWhyGamut[] = "The browser tells how many colours the screen has.";
inline constexpr char kWhyGamutOpen[] = "How many colours the screen has is not told.";

}  // namespace proofleaf::shell::words
