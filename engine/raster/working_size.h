// How large the picture is that proofs are made of: the working size. Print files have nothing to
// do with it; they are made from the master itself.
#pragma once

#include <cstdint>

namespace proofleaf {

// [pixels] Enough for a large screen, little enough to run in a blink; and the least in which a
// person still sees what the paper does.
inline constexpr uint32_t kUsualWorkingPixels = 2'000'000, kSmallestWorkingPixels = 250'000;

// The size to begin with on a machine with that much memory [GiB]: the usual one from 4 on, in
// proportion below (common practice, no source). 0 or no such number: the platform does not tell,
// the usual one.
uint32_t working_pixels_for(double memory);

// The size to go on with after `tried` [pixels] was too much: half of it, no less than the
// smallest. shown: how many pixels the picture had at that size, 0 where nobody knows; half of
// these, where they are fewer. 0: there is nothing smaller.
uint32_t smaller_working_pixels(uint32_t tried, uint64_t shown);

}  // namespace proofleaf
