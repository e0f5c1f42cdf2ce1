#include "share/answer.h"

#include "share/base64url.h"

namespace proofleaf {
namespace {

constexpr size_t kHead = 5;  // [bytes] version and checksum of its own
constexpr size_t kLongestText = 8192, kLongestMessage = 64 * 1024;
constexpr char kMark[] = "answer=";
constexpr char kSpace[] = " \r\n\t";

Error damaged() { return Error{"This answer is damaged or was cut off; please ask for it again."}; }

}  // namespace

Result<std::string> text_of_answer(const OfferAnswer& answer) {
  if (answer.note.size() > kLongestAnswerNote)
    return Error{"The note is too long for an answer: at most about 600 letters."};
  if (!plain_text(answer.note)) return Error{"The note has signs that cannot be shown."};
  Packer body;
  body.fixed32(answer.checksum);
  body.number(answer.paper);
  body.number(answer.size ? *answer.size + 1 : 0);
  body.text(answer.note);
  Packer whole;
  whole.byte(kOfferAnswerVersion);
  whole.fixed32(crc32_of(body.bytes()));
  whole.raw(body.bytes());
  return base64url(whole.bytes());
}

Result<OfferAnswer> answer_of(const std::string& text) {
  if (text.size() > kLongestText) return damaged();
  const auto bytes = from_base64url(text);
  if (!bytes || bytes->size() < kHead) return damaged();
  if (bytes->front() != kOfferAnswerVersion)
    return Error{"This answer was made with another version of Proofleaf; open it with that one."};
  Unpacker from(ByteView(*bytes).subspan(1));
  if (from.fixed32() != crc32_of(ByteView(*bytes).subspan(kHead))) return damaged();
  OfferAnswer answer;
  answer.checksum = from.fixed32();
  answer.paper = from.number(kMostOfferPapers - 1);
  if (const uint32_t size = from.number(kMostOfferSizes); size > 0) answer.size = size - 1;
  answer.note = from.text(kLongestAnswerNote);
  if (!from.good() || !from.at_end()) return damaged();
  return answer;
}

std::string marked(const std::string& text_of_answer) { return kMark + text_of_answer + "."; }

Result<OfferAnswer> answer_within(const std::string& message) {
  if (message.size() > kLongestMessage)
    return Error{"This is too long for an answer; paste only the message it came in."};
  const size_t mark = message.rfind(kMark);
  if (mark == std::string::npos) {
    auto bare = answer_of(message);  // perhaps the text alone was copied
    if (bare ||
        message.find_first_not_of(std::string(kBase64UrlLetters) + kSpace) == std::string::npos)
      return bare;
    return Error{"There is no answer in this; paste the whole message, or the link in it."};
  }
  const std::string after = message.substr(mark + sizeof(kMark) - 1);
  // Mail programs break long lines, so white space may stand inside it, or end it.
  const size_t end = after.find_first_not_of(std::string(kBase64UrlLetters) + kSpace);
  auto whole = answer_of(after.substr(0, end));
  return whole ? whole : answer_of(after.substr(0, after.find_first_of(kSpace)));
}

Status belongs(const OfferAnswer& answer, const Offer& offer) {
  if (answer.checksum != offer.checksum)
    return Error{"This answer belongs to another offer, or to an earlier state of this one."};
  if (answer.paper >= offer.papers.size() || answer.size.has_value() == offer.sizes.empty() ||
      (answer.size && *answer.size >= offer.sizes.size()))
    return Error{"This answer chooses what the offer does not have."};
  return done();
}

}  // namespace proofleaf
