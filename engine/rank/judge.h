// How one picture fares on one paper: every way of printing it that is worth trying, judged.
//
// All differences are between media-relative L*a*b*: the eye takes each white, the master's and the
// paper's, for white. Off the gamut means more than kOffGamut dE00 from the nearest colour of the
// paper's relative colorimetric tables, and takes in colours darker than the paper's black.
#pragma once

#include <optional>
#include <string>

#include "paper/paper.h"
#include "rank/facts.h"
#include "rank/tone.h"

namespace proofleaf {

inline constexpr double kOffGamut = 3;  // [dE00], as in the whole program
inline constexpr uint32_t kMapSide = 64;
inline constexpr uint32_t kDifferenceSide = 512;  // [pixels], the most

// CIEDE2000 with kL = 2, which agrees better with what people see between pictures than kL = 1:
// Liu, Huang, Cui, Luo and Melgosa, "Color-difference evaluation for digital images using a
// categorical judgment method", J. Opt. Soc. Am. A 30 (2013), found 2.3 on a screen, and report
// that the CIE's own advice is about 2. Scores are made of it; what people read is kL = 1.
double picture_difference(const Lab& one, const Lab& two);

// What losses count, in points; the score is 100 * exp(-points / 100), so that few points come off
// 100 one for one and even the worst prints can be told apart. The weights are this project's own
// judgement, no source: a mean of 2.5 with a 95th percentile of 5, the limits of a contract proof,
// costs 7.5 points, as much as 30 % of the local contrast flattened or 7.5 % of it closed up.
struct ScoreWeights {
  double mean = 2;         // per picture_difference() of the mean
  double p95 = 0.5;        // per picture_difference() of the 95th percentile
  double gamut = 15;       // of the whole area off the gamut
  double tone = 25;        // of all visible local contrast not kept
  double gone = 100;       // of all of it gone
  double worst_zone = 10;  // of all of it not kept in the zone that loses most
  double hue = 2;          // per dE00 of hue in the accents
  double skin = 3;         // per picture_difference() of skin
  double neutral = 3;      // per dE00 of cast in the neutrals
  // A part of the picture counts in full from this share of its area on, below in proportion.
  double zone_area = 0.1, accent_area = 0.01, skin_area = 0.05, neutral_area = 0.1;
};

// Points, each as its weights say.
struct Losses {
  double colour = 0, gamut = 0, tone = 0, hue = 0, skin = 0, neutral = 0;
  double score() const;  // 0..100, higher is better
};

struct ZoneTone {
  double steps = 0;  // just noticeable steps of L* the master uses in this zone
  double kept = 0;   // of them on paper: steps * share
  double share = 1;  // of the visible local contrast kept, see tone.h
  double gone = 0;   // share of it that is gone
  double area = 0;   // of the picture [0..1]
};

struct Variant {
  PrintIntent print;
  double mean = 0, p95 = 0, max = 0;         // dE00 over the whole picture
  double picture_mean = 0, picture_p95 = 0;  // picture_difference() over it
  std::array<ZoneTone, kZones> tone;
  double tone_share = 1, tone_gone = 0;  // of the visible local contrast, all zones
  // Accents: turn of hue in degrees, and dE00 of the turn alone (mean). Empty without accents.
  struct Hue {
    double mean = 0, max = 0, delta_e = 0;
  };
  std::optional<Hue> hue;
  // Means of dE00 and picture_difference(). Empty where under 1 % of the picture is like skin.
  struct Skin {
    double delta_e = 0, picture = 0;
  };
  std::optional<Skin> skin;
  // Mean of the dE00 of the cast in each tenth of L*, and its mean a*, b*. Empty where under 1 % is
  // neutral.
  struct Neutral {
    double delta_e = 0, a = 0, b = 0;
  };
  std::optional<Neutral> neutral;
  Losses losses;
  double score = 0;  // 0..100
};

struct Box {
  double x = 0, y = 0, width = 0, height = 0;  // of the picture [0..1]
  double share = 0;                            // of the box off the gamut
};

// From memory, after ISO 12647-7:2016: good within the tolerances of a contract proof over all its
// patches; marginal within twice these (common practice, no source); else out.
enum class Verdict { good, marginal, out };
inline constexpr double kMeanGood = 2.5, kP95Good = 5;  // [dE00]
Verdict verdict_of(double mean, double p95);

struct Judged {
  std::string paper;
  ColourModel model = ColourModel::rgb;
  std::vector<Variant> variants;  // best() is one of them
  size_t best_at = 0;
  double off_gamut = 0;              // share of the pixels; losses count it in means
  double too_dark = 0;               // share of the area darker than the paper's black
  std::vector<Box> off_gamut_boxes;  // where most of it is off the gamut; at most 5, largest first
  // The standard means patches of a print against their aims; here it is the picture's area against
  // the master, as a yardstick.
  Verdict verdict = Verdict::out;
  std::string verdict_sentence, sentence;  // for people
  const Variant& best() const { return variants[best_at]; }
};

// The pictures that go with it, of the best variant.
struct JudgedPictures {
  uint32_t thumbnail_width = 0, thumbnail_height = 0;
  std::vector<uint8_t> thumbnail;  // sRGB R, G, B, A, under the paper's own white and black
  uint32_t difference_width = 0, difference_height = 0;
  std::vector<uint8_t> difference;  // tenths of dE00, 255 for 25.5 and more
  std::vector<uint8_t> off_gamut;   // kMapSide x kMapSide: share of each part off gamut, 255 is all
};

struct Judgement {
  Judged judged;
  JudgedPictures pictures;
};

// The ways of printing that are judged: relative colorimetric with and without black point
// compensation, and perceptual where the paper has tables of its own for both. Saturation is left
// out: it gives up hue and tone for vividness (ICC.1:2022 6.2.5), which no photograph asks for.
std::vector<PrintIntent> intents_worth_trying(const Paper& paper);

// The master's side of comparing tone, the same for all papers.
struct MasterTone {
  std::array<ToneRange, kZones> ranges;
  ToneBands bands;
};
MasterTone master_tone(const PictureFacts& facts);

// master: the profile the facts were found with; tone: master_tone() of them. Error: the profiles
// cannot be joined, a table gives no numbers, stopped.
Result<Judgement> judge(const Profile& master, const PictureFacts& facts, const MasterTone& tone,
                        const Paper& paper, const ScoreWeights& weights, const Watch& watch);

// Points for what a variant loses; off_gamut: share of the area, in means of the facts' `colour`.
Losses losses_of(const Variant& variant, double off_gamut, const PictureFacts& facts,
                 const ScoreWeights& weights);

}  // namespace proofleaf
