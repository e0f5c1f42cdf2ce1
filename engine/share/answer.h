// What a client answers to an offer, as a short text to send back by any means.
#pragma once

#include <optional>

#include "share/offer.h"

namespace proofleaf {

inline constexpr uint8_t kOfferAnswerVersion = 1;
inline constexpr size_t kLongestAnswerNote = 600;  // [bytes of UTF-8]

struct OfferAnswer {
  uint32_t checksum = 0;         // of the offer it answers
  uint32_t paper = 0;            // its place in the offer
  std::optional<uint32_t> size;  // likewise; none where the offer has no sizes
  std::string note;
};

// base64url of version, CRC-32, fields: about 20 letters and the note.
// Error: the note is too long or has control characters.
Result<std::string> text_of_answer(const OfferAnswer& answer);
// White space is passed over. Error: damaged or cut off, of another version.
Result<OfferAnswer> answer_of(const std::string& text);

// "answer=", the text, a full stop: so it is found in whatever came back, a link or a whole mail.
std::string marked(const std::string& text_of_answer);
// Error: no answer in it; as answer_of().
Result<OfferAnswer> answer_within(const std::string& message);

// Whether the answer is to this very offer. Error: to another one or to an earlier state of it, or
// it chose what is not offered.
Status belongs(const OfferAnswer& answer, const Offer& offer);

}  // namespace proofleaf
