// What is wrong in a profile, in words. The limits are common practice, no source.
#include <cmath>

#include "colour/lcms.h"
#include "paper/card.h"

namespace proofleaf {
namespace {

using Faults = std::vector<std::string>;

// One decimal is what a person reads.
std::string plain(double number) { return spoken_number(number, 1); }

struct KnownTag {
  cmsTagSignature signature;
  const char* name;
};

// The tags of colour, ICC.1:2022 clause 9.2.
constexpr std::array kTags{KnownTag{cmsSigAToB0Tag, "A2B0"},
                           KnownTag{cmsSigAToB1Tag, "A2B1"},
                           KnownTag{cmsSigAToB2Tag, "A2B2"},
                           KnownTag{cmsSigBToA0Tag, "B2A0"},
                           KnownTag{cmsSigBToA1Tag, "B2A1"},
                           KnownTag{cmsSigBToA2Tag, "B2A2"},
                           KnownTag{cmsSigGamutTag, phrase("gamut")},
                           KnownTag{cmsSigMediaWhitePointTag, phrase("paper white")},
                           KnownTag{cmsSigRedTRCTag, phrase("red curve")},
                           KnownTag{cmsSigGreenTRCTag, phrase("green curve")},
                           KnownTag{cmsSigBlueTRCTag, phrase("blue curve")},
                           KnownTag{cmsSigGrayTRCTag, phrase("grey curve")},
                           KnownTag{cmsSigRedColorantTag, phrase("red")},
                           KnownTag{cmsSigGreenColorantTag, phrase("green")},
                           KnownTag{cmsSigBlueColorantTag, phrase("blue")},
                           KnownTag{cmsSigChromaticAdaptationTag, phrase("adaptation")}};

void find_damaged_tags(const Profile& profile, Faults& faults) {
  for (const KnownTag& tag : kTags) {
    if (!cmsIsTag(profile.handle(), tag.signature)) continue;
    if (cmsReadTag(profile.handle(), tag.signature) != nullptr) continue;
    take_lcms_words();
    faults.push_back(said("Its entry \"{}\" is damaged and cannot be read.", said(tag.name)));
  }
}

void find_missing_tables(const Paper& paper, Faults& faults) {
  constexpr std::array<cmsTagSignature, 3> kBack{cmsSigAToB0Tag, cmsSigAToB1Tag, cmsSigAToB2Tag};
  bool any = false;
  for (auto tag : kBack) any = any || cmsIsTag(paper.profile.handle(), tag);
  const bool tables = paper.own_table[0] || paper.own_table[1] || paper.own_table[2];
  if (tables && !any) {
    faults.push_back(
        said("It tells how to print a colour but not which colour a print will have."));
  }
  if (any && !tables) {
    faults.push_back(
        said("It tells which colour a print will have but not how to print a colour."));
  }
  if (paper.own_table[2] && !paper.own_table[0] && !paper.own_table[1]) {
    faults.push_back(said("It has a saturation table only, which is not meant for photographs."));
  }
}

void find_ramp_faults(const PaperCard& card, Faults& faults) {
  constexpr double kSeen = 1;  // [L*]
  if (card.printed_ramp.largest_reversal > kSeen) {
    faults.push_back(
        said("Its printed greys turn back: a darker grey prints up to {} L* lighter than the one "
             "before it.",
             plain(card.printed_ramp.largest_reversal)));
  }
  if (card.device_ramp.largest_reversal > kSeen) {
    faults.push_back(said("Its greys by ink turn back: more ink prints up to {} L* lighter.",
                          plain(card.device_ramp.largest_reversal)));
  }
  constexpr double kTorn = 5;  // [L*]
  if (card.printed_ramp.largest_step > kTorn) {
    faults.push_back(said("Its printed greys have a gap of {} L* between two steps of 256.",
                          plain(card.printed_ramp.largest_step)));
  }
}

// Media-relative colour of the bare paper: it ought to be L* 100 and neutral (ICC.1:2022 6.3.2.2).
Lab bare_paper(const Paper& paper) {
  const Transform way = to_lab(paper.profile, INTENT_RELATIVE_COLORIMETRIC);
  std::array<float, 4> device{};
  if (paper.model != ColourModel::cmyk) device = {1, 1, 1, 0};
  std::array<float, 3> lab{100, 0, 0};
  if (way) cmsDoTransform(way.get(), device.data(), lab.data(), 1);
  return {lab[0], lab[1], lab[2]};
}

void find_white_faults(const Paper& paper, Faults& faults) {
  constexpr double kLight = 75, kOff = 3;
  if (paper.white.l < kLight) {
    faults.push_back(said("Its white is not light: L* {} of 100.", plain(paper.white.l)));
  }
  const Lab bare = bare_paper(paper);
  if (delta_e_2000(bare, {100, 0, 0}) > kOff) {
    faults.push_back(
        said("The bare paper is not its white: without ink it shows L* {}, a* {}, b* {} where 100, "
             "0, 0 belongs.",
             plain(bare.l), plain(bare.a), plain(bare.b)));
  }
}

}  // namespace

std::vector<std::string> find_faults(const Paper& paper, const PaperCard& card) {
  constexpr double kMeanApart = 2.5, kMostApart = 6;  // dE00
  constexpr double kCast = 6;                         // C*
  Faults faults;
  find_damaged_tags(paper.profile, faults);
  find_missing_tables(paper, faults);
  find_white_faults(paper, faults);
  find_ramp_faults(card, faults);
  if (card.round_trip.mean > kMeanApart || card.round_trip.p95 > kMostApart) {
    faults.push_back(
        said("Its two directions disagree: there and back, colours the paper can print end {} ΔE00 "
             "off on average and {} at worst.",
             plain(card.round_trip.mean), plain(card.round_trip.max)));
  }
  if (card.cast_chroma > kCast) {
    faults.push_back(said("Its printed greys are not grey: at L* {} they are off by a* {}, b* {}.",
                          plain(card.cast.l), plain(card.cast.a), plain(card.cast.b)));
  }
  return faults;
}

}  // namespace proofleaf
