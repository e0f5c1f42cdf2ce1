#include "share/offer_json.h"

#include "share/offer_size.h"

namespace proofleaf {
namespace {

Json json_of(const OfferSize& size) {
  Json json{{"size", size.size}, {"price", size.price}};
  if (const auto mm = size_in_mm(size.size)) {
    json["width_mm"] = mm->width_mm;
    json["height_mm"] = mm->height_mm;
  }
  return json;
}

Json array_of(const Lab& lab) { return Json::array({lab.l, lab.a, lab.b}); }

Json json_of(const OfferPaper& paper) {
  return {{"name", paper.name},
          {"description", paper.description},
          {"white", array_of(paper.white)},
          {"black", array_of(paper.black)}};
}

}  // namespace

std::string hex_of(uint32_t checksum) {
  constexpr char kDigits[] = "0123456789abcdef";
  std::string text;
  for (int shift = 28; shift >= 0; shift -= 4) text += kDigits[checksum >> shift & 15];
  return text;
}

Json json_of(const Offer& offer, uint32_t today) {
  Json papers = Json::array(), sizes = Json::array();
  for (const OfferPaper& paper : offer.papers) papers.push_back(json_of(paper));
  for (const OfferSize& size : offer.sizes) sizes.push_back(json_of(size));
  return {{"title", offer.title},
          {"note", offer.note},
          {"sizes", sizes},
          {"papers", papers},
          {"expires", offer.expires != 0 ? date_of(offer.expires) : ""},
          {"expired", expired(offer, today)},
          {"checksum", hex_of(offer.checksum)},
          {"space", offer.space}};
}

}  // namespace proofleaf
