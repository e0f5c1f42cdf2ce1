#include "condition/words_en.h"

namespace proofleaf {
namespace {

constexpr const char* kBlownWhy =
    "The print leaves bare paper there, and the edge of such an area can show as a line.";
constexpr const char* kColourWhy =
    "Where a channel has run out, fine differences of colour and texture are lost before the paper "
    "takes its own share.";
constexpr const char* kBandWhy =
    "In a large print, steps in a clear sky or a backdrop show as contour lines.";
constexpr const char* kSoftWhy =
    "Softness grows with the print and sharpening cannot bring back detail.";
constexpr const char* kHaloWhy =
    "Sharpening for paper is added to what is there, and the lines along edges become visible.";
constexpr const char* kBlockWhy =
    "The squares of strong JPEG compression show in smooth parts of a large print.";

constexpr WordsEntry kWords[] = {
    {"highlights/act",
     "{value:2} % of the picture is pure white without detail; the largest such area covers "
     "{largest_percent:2} %.",
     kBlownWhy,
     "Bring back detail from the original, or lay a faint tone over the area; leave it if it is "
     "meant to "
     "be bare paper."},
    {"highlights/look", "{value:2} % of the picture is pure white without detail.", kBlownWhy,
     "Look at these places at full size and decide whether they may be bare paper."},
    {"highlights/good", "No area worth mention is pure white.", "", ""},
    {"highlights/good/specular",
     "Only small glints are pure white, {specular_percent:2} % of the picture, as they should be.",
     "", ""},
    {"shadows/act",
     "{value:1} % of the picture is pure black without detail; the largest such area covers "
     "{largest_percent:1} %.",
     "On paper such areas print as one flat tone, and matte paper shows it as grey.",
     "Open the deepest shadows a little, or make sure that the black is wanted."},
    {"shadows/look", "{value:1} % of the picture is pure black without detail.",
     "On paper such areas print as one flat tone.",
     "Look at these places at full size and decide whether detail should show there."},
    {"shadows/good", "No area worth mention is pure black.", "", ""},
    {"colours/act", "In {value:1} % of the picture the working space itself has clipped a colour.",
     kColourWhy,
     "Develop the picture again into a wider working space, or bring these colours in by hand."},
    {"colours/look", "In {value:2} % of the picture the working space itself has clipped a colour.",
     kColourWhy,
     "Look there for lost texture; if it matters, develop again into a wider working space."},
    {"colours/good", "The working space holds the picture's colours.", "", ""},
    {"levels/act/comb",
     "Of the 8-bit levels between the darkest and the lightest, {gap_percent:0} % are never used: "
     "tones "
     "were stretched.",
     "Missing levels turn into steps in smooth gradients.",
     "Make the corrections again from the original in 16 bits."},
    {"levels/look/comb",
     "{gaps} of the 8-bit levels are never used: tones were stretched a little.",
     "Missing levels can turn into steps in smooth gradients.",
     "Look at skies and backdrops at full size; better, correct again in 16 bits."},
    {"levels/look/eight", "The file has 16 bits, but its tones are those of an 8-bit file.",
     "The second half of the bits is empty, so strong corrections will show steps.",
     "If there is a true 16-bit original, work from that."},
    {"levels/look/few", "The file has 16 bits, but its tones are only about {value:0} bits fine.",
     "Strong corrections in smooth parts can show steps.",
     "If there is a finer original, work from that; otherwise keep corrections small."},
    {"levels/good", "Tones are about {value:0} bits fine, enough for any correction.", "", ""},
    {"levels/good/eight", "All 8-bit levels are in use without gaps.", "", ""},
    {"levels/unsaid", "There are too few pixels or tones to tell how fine the steps of tone are.",
     "", ""},
    {"banding/act",
     "{value:1} % of the picture is smooth gradient broken into steps of {step_l:1} L*, about "
     "{width_px:0} "
     "pixels wide.",
     kBandWhy, "Go back to a 16-bit original, or lay fine grain over these parts."},
    {"banding/look",
     "{value:1} % of the picture is smooth gradient in visible steps of {step_l:1} L*, about "
     "{width_px:0} "
     "pixels wide.",
     kBandWhy, "Look there at full size; a little fine grain hides such steps."},
    {"banding/good", "No gradient shows steps.", "", ""},
    {"noise/look",
     "Noise in smooth parts is {value:1} L* at full size, which can be seen close by.",
     "In a large print it reads as grain, more so in plain areas.",
     "If it is not wanted as grain, reduce it before sharpening; make a test strip."},
    {"noise/good", "Noise in smooth parts is {value:1} L*, too little to be seen in print.", "",
     ""},
    {"noise/unsaid", "No part is smooth enough to measure noise.", "", ""},
    {"sharpness/act",
     "The sharpest edges rise over {value:1} pixels: the picture is soft at full size.", kSoftWhy,
     "Print it smaller, or find out whether the file was enlarged and use the original."},
    {"sharpness/look", "The sharpest edges rise over {value:1} pixels, a little soft at full size.",
     kSoftWhy, "Look at what should be sharp at full size; a test strip at final size will tell."},
    {"sharpness/good", "The sharpest edges rise over {value:1} pixels: sharp at full size.", "",
     ""},
    {"sharpness/unsaid", "There are too few clear straight edges to measure sharpness.", "", ""},
    {"halos/act",
     "Edges run past both of their sides by {value:0} % of their step: the picture is sharpened "
     "too much.",
     kHaloWhy, "Go back to a version before sharpening."},
    {"halos/look",
     "Edges run past both of their sides by {value:0} % of their step, from sharpening.", kHaloWhy,
     "Sharpen little or not at all for the print, and look at edges on a test strip."},
    {"halos/good", "Edges have no bright or dark lines along them.", "", ""},
    {"halos/unsaid", "There are too few clear straight edges to look for lines along them.", "",
     ""},
    {"dust/look", "{value} small spots stand out in smooth parts.",
     "A spot of dust that is missed on the screen is seen at once on the wall.",
     "Step through them and take out those that do not belong."},
    {"dust/look/one", "One small spot stands out in a smooth part.",
     "A spot of dust that is missed on the screen is seen at once on the wall.",
     "Look at it and take it out if it does not belong."},
    {"dust/good", "No spots stand out in smooth parts.", "", ""},
    {"edges/look", "In {value} places something striking comes in from outside of the frame.",
     "A bright or dark piece at the edge draws the eye out of the picture, and a mat or frame cuts "
     "it again.",
     "Look along the edges; crop or tone it down if it disturbs."},
    {"edges/look/one", "In one place something striking comes in from outside of the frame.",
     "A bright or dark piece at the edge draws the eye out of the picture, and a mat or frame cuts "
     "it again.",
     "Look at that edge; crop or tone it down if it disturbs."},
    {"edges/good", "Nothing striking is cut by the frame.", "", ""},
    {"edges/unsaid", "The picture is too small or too narrow to judge its edges.", "", ""},
    {"tilt/look/right", "Long straight edges hang {size_deg:1} degrees low on the right.",
     "On a wall, next to the frame's own straight lines, a slight tilt is seen at once.",
     "Turn the picture left by {size_deg:1} degrees, if it is meant to be level."},
    {"tilt/look/left", "Long straight edges hang {size_deg:1} degrees low on the left.",
     "On a wall, next to the frame's own straight lines, a slight tilt is seen at once.",
     "Turn the picture right by {size_deg:1} degrees, if it is meant to be level."},
    {"tilt/good", "Long straight edges are level within 0.1 degrees.", "", ""},
    {"tilt/unsaid",
     "There are no straight edges long and clear enough to tell whether it is level.", "", ""},
    {"blocking/act", "Steps on an 8 x 8 grid are {value:0} % stronger than elsewhere: JPEG blocks.",
     kBlockWhy, "Find a version that was compressed less."},
    {"blocking/look",
     "Steps on an 8 x 8 grid are {value:0} % stronger than elsewhere: traces of JPEG blocks.",
     kBlockWhy, "Look at smooth parts at full size; if squares show, find a better version."},
    {"blocking/good", "No JPEG blocks show.", "", ""},
    {"blocking/unsaid", "There are too few smooth pixels to look for JPEG blocks.", "", ""},
    {"compression/act", "It was saved as a JPEG of quality {value} of 100.",
     "Such compression takes away fine texture and leaves marks along edges.",
     "Use the version it was made from."},
    {"compression/act/about", "It was saved as a JPEG of about quality {value} of 100.",
     "Such compression takes away fine texture and leaves marks along edges.",
     "Use the version it was made from."},
    {"compression/look", "It was saved as a JPEG of quality {value} of 100.",
     "Fine texture may be weakened, and each further saving weakens it more.",
     "If there is a version that was never a JPEG, use that."},
    {"compression/look/about", "It was saved as a JPEG of about quality {value} of 100.",
     "Fine texture may be weakened, and each further saving weakens it more.",
     "If there is a version that was never a JPEG, use that."},
    {"compression/good",
     "It was saved as a JPEG of quality {value} of 100, light enough for print.", "", ""},
    {"compression/good/about",
     "It was saved as a JPEG of about quality {value} of 100, light enough for print.", "", ""},
    {"profile/act/missing",
     "The file does not say what its colours mean; a colour space is assumed.",
     "If the assumption is wrong, every colour in the print is.",
     "Save it again with its profile embedded, or make sure which space it was made in."},
    {"profile/act/unusable", "The file's own colour profile cannot be used and was left aside.",
     "Without it, what the colours mean is a guess.",
     "Save it again with the right profile embedded."},
    {"profile/look/odd",
     "The file carries the profile of a device: equal red, green and blue are not grey in it.",
     "Corrections in such a space tint greys, and the picture may have been converted for a "
     "printer already.",
     "Make sure that this is the master, in a working space, and not a file made for another "
     "print."},
    {"profile/good", "The file says exactly what its colours mean.", "", ""},
    {"profile/good/exif", "The file names its colour space, but carries no profile.", "", ""},
    {"bits/look", "The file has 8 bits a channel.",
     "It prints well as it is, but strong corrections in smooth parts can show steps.",
     "Keep corrections small, or work from a 16-bit original."},
    {"bits/good", "The file has {value} bits a channel.", "", ""},
    {"traces/look", "The file names its owner, or the serial numbers of the camera.",
     "Whoever gets the file can read that.", "Leave it out of the print file unless it is wanted."},
    {"traces/look/place", "The file says where the picture was taken.",
     "Whoever gets the file can read that.", "Leave it out of the print file unless it is wanted."},
    {"traces/good", "The file gives away neither place nor owner.", "", ""},
    {"size/good", "At 300 pixels per inch its long side is {value:1} cm ({long_in:1} in).", "", ""},
    {"size/good/print",
     "At this print width there are {ppi:0} pixels per inch; from {distance_cm:0} cm on, no pixel "
     "can be seen.",
     "", ""},
    {"size/look/print",
     "At this print width there are {ppi:0} pixels per inch; from {distance_cm:0} cm on, no pixel "
     "can be seen.",
     "Close by, fine detail looks soft.", "Make a test strip, or print smaller."},
    {"size/act/print",
     "At this print width there are only {ppi:0} pixels per inch; it holds from {distance_cm:0} cm "
     "on.",
     "Anyone who steps closer sees that detail is missing.",
     "Print smaller, or from a larger file."},
};

struct Title {
  const char* id;
  const char* title;
};

constexpr Title kTitles[] = {{"highlights", "White without detail"},
                             {"shadows", "Black without detail"},
                             {"colours", "Clipped colours"},
                             {"levels", "Steps of tone"},
                             {"banding", "Stepped gradients"},
                             {"noise", "Noise"},
                             {"sharpness", "Sharpness"},
                             {"halos", "Lines along edges"},
                             {"dust", "Spots"},
                             {"edges", "Cut by the frame"},
                             {"tilt", "Level"},
                             {"blocking", "JPEG blocks"},
                             {"compression", "JPEG quality"},
                             {"profile", "Colour profile"},
                             {"bits", "Bits"},
                             {"traces", "Private data"},
                             {"size", "Size"}};

}  // namespace

std::span<const WordsEntry> words_en() { return kWords; }

std::string title_en(const std::string& id) {
  for (const Title& title : kTitles) {
    if (id == title.id) return title.title;
  }
  return id;
}

}  // namespace proofleaf
