#include "share/offer.h"

#include <array>
#include <chrono>
#include <cmath>
#include <tuple>

#include "share/base64url.h"

namespace proofleaf {
namespace {

constexpr size_t kHead = 5;                    // [bytes] version and checksum
constexpr size_t kLargestPacked = 128 * 1024;  // [bytes] unpacked texts and nodes
constexpr uint32_t kLastDay = 2'932'896;       // 9999-12-31
constexpr double kLabSteps = 100;              // to a unit of L*, a*, b*
constexpr int32_t kLargestLab = 20000;

Error damaged() {
  return Error{"This offer is damaged or was cut off on its way; please ask for it again."};
}

Status check_text(const std::string& text, size_t most, const std::string& what) {
  if (text.size() > most)
    return Error{"{} is too long for an offer: at most about {} letters.", what, most};
  if (!plain_text(text)) return Error{"{} has signs that cannot be shown.", what};
  return done();
}

Status check_texts(const Offer& offer) {
  std::vector<std::tuple<const std::string*, size_t, std::string>> texts{
      {&offer.title, kLongestTitle, said("The title")},
      {&offer.note, kLongestNote, said("The note")}};
  for (const OfferSize& size : offer.sizes) {
    texts.emplace_back(&size.size, kLongestSize, said("A size"));
    texts.emplace_back(&size.price, kLongestPrice, said("A price"));
  }
  for (const OfferPaper& paper : offer.papers) {
    texts.emplace_back(&paper.name, kLongestPaperName, said("A paper's name"));
    texts.emplace_back(&paper.description, kLongestDescription, said("A paper's description"));
  }
  for (const auto& [text, most, what] : texts)
    if (auto good = check_text(*text, most, what); !good) return good;
  return done();
}

Status check(const Offer& offer) {
  if (offer.papers.empty()) return Error{"An offer needs a paper."};
  if (offer.papers.size() > kMostOfferPapers) return Error{"An offer holds at most four papers."};
  if (offer.sizes.size() > kMostOfferSizes) return Error{"An offer holds at most twelve sizes."};
  if (offer.expires > kLastDay) return Error{"There is no such day for the offer to end."};
  return check_texts(offer);
}

void pack_lab(const Lab& lab, Packer& into) {
  for (const double value : {lab.l, lab.a, lab.b})
    into.signed_number(static_cast<int32_t>(std::lround(value * kLabSteps)));
}

Lab unpack_lab(Unpacker& from) {
  Lab lab;
  for (double* value : {&lab.l, &lab.a, &lab.b})
    *value = from.signed_number(kLargestLab) / kLabSteps;
  return lab;
}

uint32_t number_of_space(const std::string& space) {
  uint32_t number = 0;
  while (number < kOfferSpaces.size() && space != kOfferSpaces[number]) ++number;
  return number;
}

void unpack_texts(Unpacker& from, Offer& offer) {
  offer.title = from.text(kLongestTitle);
  offer.note = from.text(kLongestNote);
  offer.expires = from.number(kLastDay);
  offer.sizes.resize(from.number(kMostOfferSizes));
  for (OfferSize& size : offer.sizes) {
    size.size = from.text(kLongestSize);
    size.price = from.text(kLongestPrice);
  }
  offer.papers.resize(from.number(kMostOfferPapers));
  for (OfferPaper& paper : offer.papers) {
    paper.name = from.text(kLongestPaperName);
    paper.description = from.text(kLongestDescription);
    paper.white = unpack_lab(from);
    paper.black = unpack_lab(from);
  }
}

void pack_texts(const Offer& offer, Packer& into) {
  into.text(offer.title);
  into.text(offer.note);
  into.number(offer.expires);
  into.number(static_cast<uint32_t>(offer.sizes.size()));
  for (const OfferSize& size : offer.sizes) {
    into.text(size.size);
    into.text(size.price);
  }
  into.number(static_cast<uint32_t>(offer.papers.size()));
  for (const OfferPaper& paper : offer.papers) {
    into.text(paper.name);
    into.text(paper.description);
    pack_lab(paper.white, into);
    pack_lab(paper.black, into);
  }
}

}  // namespace

Result<Bytes> pack_offer(Offer& offer) {
  if (auto good = check(offer); !good) return good.error();
  const uint32_t space = number_of_space(offer.space);
  if (space == kOfferSpaces.size() || offer.jpeg.empty()) return Error{"An offer needs a picture."};
  Packer inner;
  pack_texts(offer, inner);
  inner.number(space);
  pack_node_set(offer.set, inner);
  for (const OfferPaper& paper : offer.papers) pack_nodes(offer.set, paper.nodes, inner);
  const Bytes packed = deflated(inner.bytes());
  Packer body;
  body.number(static_cast<uint32_t>(packed.size()));
  body.raw(packed);
  body.raw(offer.jpeg);
  offer.checksum = crc32_of(body.bytes());
  Packer whole;
  whole.byte(kOfferVersion);
  whole.fixed32(offer.checksum);
  whole.raw(body.bytes());
  return whole.bytes();
}

bool locked(ByteView bytes) {
  return bytes.size() > kLockedOfferBytes && bytes[0] == kLockedOfferVersion;
}

Result<Offer> unpack_offer(ByteView bytes, const OfferForm& form) {
  if (bytes.size() < kHead) return damaged();
  if (locked(bytes)) return Error{"This offer is locked with a passphrase."};
  if (bytes[0] != kOfferVersion)
    return Error{"This offer was made with another version of Proofleaf; open it with that one."};
  Offer offer;
  Unpacker head(bytes.subspan(1));
  offer.checksum = head.fixed32();
  if (offer.checksum != crc32_of(bytes.subspan(kHead))) return damaged();
  const ByteView packed = head.raw(head.number(static_cast<uint32_t>(kLargestPacked)));
  const ByteView jpeg = head.rest();
  if (!head.good() || jpeg.empty() || jpeg.size() > form.picture) return damaged();
  const Bytes unpacked = inflated(packed, kLargestPacked);
  Unpacker inner(unpacked);
  unpack_texts(inner, offer);
  offer.space = kOfferSpaces[inner.number(kOfferSpaces.size() - 1)];
  offer.set = unpack_node_set(inner);
  for (OfferPaper& paper : offer.papers) paper.nodes = unpack_nodes(offer.set, inner);
  if (!inner.good() || !inner.at_end() || offer.papers.empty()) return damaged();
  offer.jpeg.assign(jpeg.begin(), jpeg.end());
  return offer;
}

std::string link_of(ByteView packed) { return base64url(packed); }

Result<Bytes> packed_of(std::string_view link, const OfferForm& form) {
  // Generous beside what is ever written, since mail programs add white space.
  if (link.size() > 8 * form.letters) return damaged();
  auto bytes = from_base64url(link);
  if (!bytes) return damaged();
  return *std::move(bytes);
}

Result<Offer> offer_of(const std::string& link) {
  auto bytes = packed_of(link);
  if (!bytes) return bytes.error();
  return unpack_offer(bytes.value());
}

bool expired(const Offer& offer, uint32_t today) {
  return offer.expires != 0 && today > offer.expires;
}

Result<uint32_t> day_of(const std::string& date) {
  const Error none{"\"{}\" is not a day; write it as year-month-day, such as 2026-12-31.", date};
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') return none;
  std::array<uint32_t, 3> parts{};
  for (size_t i = 0; i < date.size(); ++i) {
    if (i == 4 || i == 7) continue;
    if (date[i] < '0' || date[i] > '9') return none;
    uint32_t& part = parts[i < 4 ? 0 : i < 7 ? 1 : 2];
    part = part * 10 + static_cast<uint32_t>(date[i] - '0');
  }
  using namespace std::chrono;
  const year_month_day day{year(static_cast<int>(parts[0])), month(parts[1]),
                           std::chrono::day(parts[2])};
  if (parts[0] < 1970 || !day.ok()) return none;
  return static_cast<uint32_t>(sys_days(day).time_since_epoch().count());
}

std::string date_of(uint32_t day) {
  using namespace std::chrono;
  const year_month_day date{sys_days(days(day))};
  const auto two = [](uint32_t number) {
    return (number < 10 ? "-0" : "-") + std::to_string(number);
  };
  return std::to_string(int(date.year())) + two(unsigned(date.month())) + two(unsigned(date.day()));
}

}  // namespace proofleaf
