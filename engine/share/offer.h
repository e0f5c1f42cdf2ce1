// What a photographer puts before a client, whole within a link: a small picture, up to four
// papers with their proofs, sizes with prices. The client's browser shows it without asking anyone.
//
//   version (1) | CRC-32 of what follows (4) | length of the packed part | deflated texts, nodes |
//   JPEG
//
// or, locked with a passphrase by who holds the means (web/page/seal.js):
//
//   version (2) | salt (16) | nonce (12) | AES-GCM of the above
//
// The part of a link behind "#" never leaves a browser (RFC 9110 section 7.1: it is no part of a
// request); in base64url it holds kLinkForm.letters letters. A file holds kFileForm.letters.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "colour/lab.h"
#include "share/compact_cube.h"
#include "share/offer_picture.h"

namespace proofleaf {

inline constexpr uint8_t kOfferVersion = 1;
inline constexpr uint8_t kLockedOfferVersion = 2;
inline constexpr size_t kLockedOfferBytes = 1 + 16 + 12 + 16;  // beside what is locked
inline constexpr size_t kMostOfferPapers = 4, kMostOfferSizes = 12;
// Longest texts [bytes of UTF-8].
inline constexpr size_t kLongestTitle = 120, kLongestNote = 600, kLongestSize = 60,
                        kLongestPrice = 40, kLongestPaperName = 80, kLongestDescription = 300;

struct OfferSize {
  std::string size, price;  // as the photographer writes them: "40 x 60 cm", "180"
};

struct OfferPaper {
  std::string name, description;
  Lab white, black;    // absolute L*a*b* D50, kept to 0.01
  CompactNodes nodes;  // picture's space -> screen (sRGB), of the offer's node set
};

struct Offer {
  std::string title, note;
  std::vector<OfferSize> sizes;    // 0..kMostOfferSizes
  std::vector<OfferPaper> papers;  // 1..kMostOfferPapers
  uint32_t expires = 0;            // the last day it holds, in days from 1970-01-01; 0: for good
  std::string space;               // of the picture: srgb, p3, romm
  NodeSet set;
  Bytes jpeg;
  uint32_t checksum = 0;  // tells offers and their states apart; set by pack and unpack
};

// Error: a text too long or with control characters, too many or too few papers or sizes, with the
// name of what is wrong.
Result<Bytes> pack_offer(Offer& offer);
// Safe with any bytes. Error: damaged or cut off, of another version, locked, beyond the limits.
// The JPEG itself is first looked at by read_small_jpeg().
Result<Offer> unpack_offer(ByteView bytes, const OfferForm& form = kLinkForm);
bool locked(ByteView bytes);

// The link's part and back; white space in it is passed over.
std::string link_of(ByteView packed);
// Error: letters no offer has, or more of them than ever are.
Result<Bytes> packed_of(std::string_view link, const OfferForm& form = kLinkForm);
Result<Offer> offer_of(const std::string& link);

// today: days from 1970-01-01.
bool expired(const Offer& offer, uint32_t today);

// "2026-12-31" (ISO 8601, calendar date), years 1970..9999, as days from 1970-01-01 and back.
// Error: no such day.
Result<uint32_t> day_of(const std::string& date);
std::string date_of(uint32_t day);

}  // namespace proofleaf
