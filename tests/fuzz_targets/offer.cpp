// An offer's link. Checksums and Deflate would keep changed bytes out, so the first byte says what
// the rest is: 0 a link as it stands, 1 the bytes after the checksum, which is made to fit, 2 the
// length (two bytes) of the unpacked texts and nodes, those, and the JPEG.
#include "share/offer.h"

#include <algorithm>

#include "proof/cube.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

namespace {

Bytes with_head(ByteView body) {
  Packer whole;
  whole.byte(kOfferVersion);
  whole.fixed32(crc32_of(body));
  whole.raw(body);
  return whole.bytes();
}

Bytes body_of(ByteView input) {
  if (input.size() < 2) return {};
  const size_t length = std::min<size_t>(input[0] | input[1] << 8, input.size() - 2);
  const Bytes texts = deflated(input.subspan(2, length));
  Packer body;
  body.number(static_cast<uint32_t>(texts.size()));
  body.raw(texts);
  body.raw(input.subspan(2 + length));
  return with_head(body.bytes());
}

void look_at(Offer& offer) {
  auto picture = read_small_jpeg(offer.jpeg, offer.space);
  if (value_of(picture) == nullptr) return;
  expect(picture.value().rgb.size() == size_t{picture.value().width} * picture.value().height * 3);
  for (const OfferPaper& paper : offer.papers) {
    const Cube cube = cube_of(offer.set, paper.nodes);
    const std::array<uint8_t, 6> rgb{0, 128, 255, 17, 18, 19};
    std::array<uint8_t, 8> screen{};
    proof_to_screen8(cube, rgb, screen);
  }
  auto packed = pack_offer(offer);
  if (value_of(packed) == nullptr) return;
  expect(unpack_offer(packed.value()).ok());
}

}  // namespace

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  if (size == 0) return;
  const ByteView rest(data + 1, size - 1);
  auto read = data[0] == 0   ? offer_of(fuzz::text_of(data + 1, size - 1))
              : data[0] == 1 ? unpack_offer(with_head(rest))
                             : unpack_offer(body_of(rest));
  if (value_of(read) != nullptr) look_at(read.value());
}
