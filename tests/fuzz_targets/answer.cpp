// A client's answer, as it stands and, after a first byte of 1, with the checksum made to fit.
#include "share/answer.h"

#include "share/base64url.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  if (size == 0) return;
  std::string text = fuzz::text_of(data + 1, size - 1);
  if (data[0] == 1) {
    Packer whole;
    whole.byte(kOfferAnswerVersion);
    whole.fixed32(crc32_of({data + 1, size - 1}));
    whole.raw({data + 1, size - 1});
    text = base64url(whole.bytes());
  }
  auto read = answer_of(text);
  if (value_of(read) == nullptr) return;
  auto again = text_of_answer(read.value());
  expect(again && answer_of(again.value()).ok());
  Offer offer;
  offer.papers.resize(2);
  offer.checksum = read.value().checksum;
  auto belonging = belongs(read.value(), offer);
  value_of(belonging);
}
