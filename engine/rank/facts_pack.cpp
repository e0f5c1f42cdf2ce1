// Facts as bytes, for passing between workers: a head of counts, then the arrays one after another.
#include <cstring>

#include "rank/facts.h"

namespace proofleaf {
namespace {

constexpr uint32_t kMark = 0x32464c50;  // "PLF2", should two builds ever meet

// Field by field, in one order for writing and reading.
template <class Facts, class Visit>
void each_array(Facts& facts, const Visit& visit) {
  for (auto* picture : {&facts.tone, &facts.colour, &facts.thumbnail}) visit(picture->rgb);
  visit(facts.tone_lightness);
  visit(facts.colour_lightness);
  visit(facts.shaper);
  visit(facts.nodes);
  visit(facts.colours);
  visit(facts.spread);
  for (auto* samples : {&facts.accents, &facts.skin, &facts.neutrals}) {
    visit(samples->rgb);
    visit(samples->lab);
  }
}

struct Head {
  uint32_t mark = kMark;
  uint32_t grid = 0;
  uint32_t sides[6] = {};  // width and height of tone, colour, thumbnail
  double shares[3] = {};
};

bool sound(const PictureFacts& facts) {
  auto pixels = [](const Picture& picture) { return uint64_t{picture.width} * picture.height; };
  bool good = facts.grid >= 2 && facts.grid <= kLargestGrid && facts.shaper.size() == kCodes &&
              facts.tone_lightness.size() == pixels(facts.tone) &&
              facts.colour_lightness.size() == pixels(facts.colour) &&
              facts.colours.size() == facts.nodes.size();
  for (const auto* picture : {&facts.tone, &facts.colour, &facts.thumbnail}) {
    good = good && pixels(*picture) > 0 && picture->rgb.size() == pixels(*picture) * 3;
  }
  for (const uint32_t node : facts.nodes) {
    good = good && node < facts.grid * facts.grid * facts.grid;
  }
  good = good && !facts.spread.empty() && facts.spread.size() % 3 == 0;
  for (const auto* samples : {&facts.accents, &facts.skin, &facts.neutrals}) {
    good = good && samples->rgb.size() == samples->lab.size() * 3;
  }
  return good;
}

}  // namespace

Bytes pack_facts(const PictureFacts& facts) {
  const Head head{kMark,
                  facts.grid,
                  {facts.tone.width, facts.tone.height, facts.colour.width, facts.colour.height,
                   facts.thumbnail.width, facts.thumbnail.height},
                  {facts.accents.share, facts.skin.share, facts.neutrals.share}};
  Bytes bytes;
  auto append = [&](const void* from, size_t length) {
    const size_t end = bytes.size();
    bytes.resize(end + length);
    if (length > 0) std::memcpy(bytes.data() + end, from, length);
  };
  append(&head, sizeof head);
  each_array(facts, [&](const auto& values) {
    const uint64_t length = values.size() * sizeof values[0];
    append(&length, sizeof length);
    append(values.data(), length);
  });
  return bytes;
}

Result<PictureFacts> unpack_facts(ByteView bytes) {
  const Error damaged{"What was found out about the picture is damaged."};
  Head head;
  if (bytes.size() < sizeof head) return damaged;
  std::memcpy(&head, bytes.data(), sizeof head);
  bytes = bytes.subspan(sizeof head);
  if (head.mark != kMark) return damaged;
  PictureFacts facts;
  size_t side = 0;
  for (auto* picture : {&facts.tone, &facts.colour, &facts.thumbnail}) {
    picture->width = head.sides[side++];
    picture->height = head.sides[side++];
  }
  facts.grid = head.grid;
  facts.accents.share = head.shares[0];
  facts.skin.share = head.shares[1];
  facts.neutrals.share = head.shares[2];
  bool fits = true;
  each_array(facts, [&](auto& values) {
    uint64_t length = 0;
    fits = fits && bytes.size() >= sizeof length;
    if (!fits) return;
    std::memcpy(&length, bytes.data(), sizeof length);
    bytes = bytes.subspan(sizeof length);
    fits = length <= bytes.size() && length % sizeof values[0] == 0;
    if (!fits) return;
    values.resize(length / sizeof values[0]);
    if (length > 0) std::memcpy(static_cast<void*>(values.data()), bytes.data(), length);
    bytes = bytes.subspan(length);
  });
  if (!fits || !bytes.empty() || !sound(facts)) return damaged;
  return facts;
}

}  // namespace proofleaf
