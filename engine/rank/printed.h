// A picture printed one way, and what is read off it. Internal to the engine.
#pragma once

#include <memory>

#include "colour/lcms.h"
#include "rank/judge.h"

namespace proofleaf {

// Any colours on a paper, media-relative.
class PaperColours {
 public:
  // Error: the profiles cannot be joined.
  static Result<PaperColours> make(const Profile& master, const Paper& paper, PrintIntent print);
  // rgb: encoded master RGB 0..1, three to a colour. Error: a table gives no numbers.
  Result<std::vector<Lab>> colours(std::span<const float> rgb) const;

 private:
  PaperColours(std::shared_ptr<ProofChain> chain, Transform to_colour, Paper paper)
      : chain_(std::move(chain)), to_colour_(std::move(to_colour)), paper_(std::move(paper)) {}
  std::shared_ptr<ProofChain> chain_;
  Transform to_colour_;
  Paper paper_;
};

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

void note_tone(const MasterTone& master, const Printed& printed, Variant& variant);

// Share of the picture further than kOffGamut from the master, counted in the facts' `colour`:
// noise of single pixels leaves it as it is, so scores are made of it.
double off_gamut_area(const Printed& printed);
// The same counted in the facts' `spread`, as the proof marks and tells it. cube: a print's.
double off_gamut_share(const PictureFacts& facts, const Cube& cube);
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
