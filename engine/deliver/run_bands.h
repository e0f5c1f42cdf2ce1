// Work on a picture's bands: read in order, made in any order by several threads, joined in order,
// with a bound on how many are in hand. Builds without threads (WebAssembly) do all in place.
#pragma once

#include <cstdint>
#include <functional>

#include "base/bytes.h"
#include "base/result.h"
#include "raster/pixels.h"

namespace proofleaf {

struct BandWork {
  // What making needs: called once, on the thread that called run_bands(), while the first bands
  // are read.
  std::function<Status()> begin;
  // Fills rgb with a band's pixels; called in order, never twice at once, on a thread of its own.
  std::function<Status(uint32_t band, Pixels& rgb)> read;
  // maker: 0 .. makers-1, never the same one twice at once.
  std::function<Result<Bytes>(size_t maker, uint32_t band, PixelView rgb)> make;
  // Called in order on the thread that called run_bands().
  std::function<Status(uint32_t band, ByteView made)> join;
};

// makers, in_hand: at least 1. Error: the first in the order of the bands; no later band is joined.
// All threads have ended when it returns.
Status run_bands(uint32_t bands, size_t makers, size_t in_hand, const BandWork& work);

}  // namespace proofleaf
