// Corrections as the map they make of colours.
#pragma once

#include "doctest.h"
#include "fit/monochrome.h"

namespace proofleaf::test {

inline std::shared_ptr<const ColourMap> map_of(const Profile& master, const Correction& correction,
                                               const Monochrome& monochrome = {}) {
  auto map = correction_map(master, correction, monochrome);
  REQUIRE_MESSAGE(map.ok(), (map.ok() ? "" : map.error().message));
  return map.take();
}

}  // namespace proofleaf::test
