// A profile's card of numbers, as far as a moment goes.
#include "paper/card.h"

#include <cmath>

#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  auto read = read_paper(bytes_of(data, size), "paper.icc");
  const Paper* paper = value_of(read);
  if (paper == nullptr) return;
  auto card = read_card(*paper, {});
  if (value_of(card) == nullptr) return;
  expect(std::isfinite(card.value().density_range) && std::isfinite(card.value().gamut_volume));
}
