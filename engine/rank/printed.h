// A picture printed one way, and what is read off it. Internal to this folder.
#pragma once

#include "rank/judge.h"

namespace proofleaf {

// The paper's media-relative L*a*b* at the facts' nodes. Error: the profiles cannot be joined, or
// a table gives no numbers.
Result<std::vector<Lab>> printed_colours(const Profile& master, const PictureFacts& facts,
                                         const Paper& paper, PrintIntent print);

// A cube of them, and what it makes of each pixel.
struct Printed {
  Cube cube;
  std::vector<float> tone;           // L* on paper, of the facts' `tone`
  std::vector<float> lightness;      // L* on paper, of the facts' `colour`
  std::vector<uint16_t> difference;  // code_of_difference(), of `colour`
};
Printed print_picture(const PictureFacts& facts, std::span<const Lab> colours);

// Mean, 95th percentile and largest difference.
void note_differences(const PictureFacts& facts, const Printed& printed, Variant& variant);
// Accents, skin and neutrals.
void note_samples(const PictureFacts& facts, const Printed& printed, Variant& variant);

// Where the picture is off the gamut; printed: relative colorimetric without compensation.
void note_off_gamut(const PictureFacts& facts, const Printed& printed, Judged& judged,
                    JudgedPictures& pictures);
void draw_difference(const PictureFacts& facts, const Printed& printed, JudgedPictures& pictures);
// colours: of the variant that is drawn.
void draw_thumbnail(const PictureFacts& facts, std::span<const Lab> colours, const Paper& paper,
                    JudgedPictures& pictures);

// The judgement's verdict and sentences, from its numbers.
void put_into_words(Judged& judged);
// A variant as people call it: "relative colorimetric without black point compensation".
std::string name_of(PrintIntent print);

}  // namespace proofleaf
