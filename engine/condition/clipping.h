// Where tones have run into the end of the scale.
//
// A sample is at an end when an 8-bit file would hold 255 or 0 for it. White: all three channels at
// the top. Black: all three at the bottom. Colour: one or two channels at an end while L* is
// between 15 and 92, so that the working space and not the light was too small.
#pragma once

#include <array>

#include "condition/frame.h"
#include "condition/regions.h"

namespace proofleaf::condition {

// All areas in pixels, without a border (frame.h).
struct Clipping {
  std::array<uint64_t, 3> top{}, bottom{};  // a channel at its end
  uint64_t white = 0, black = 0, colour = 0;
  uint64_t specular = 0;  // of white: small and falling off within three pixels, as reflections do
  uint64_t border_white = 0, border_black = 0;
  LargestPlaces whites, blacks, colours;  // specular regions are not among the whites
};

class ClippingCounter {
 public:
  ClippingCounter(uint32_t width, uint32_t height);
  void add_row(const Row& row);
  Clipping finish(const Frame& frame);

 private:
  enum Kind : uint32_t { none, white, black, colour };
  Kind classify(const uint16_t* rgb, int16_t l);
  void add_run(const Row& row, uint32_t first, uint32_t end, Kind kind);
  void sort_in(const Region& region);
  void leave_out(const Frame& frame);
  bool is_specular(const Region& region) const;

  uint32_t width_, height_;
  Clipping found_;
  Region corner_;  // the region that holds the first pixel
  Regions regions_;
  std::vector<Run> runs_;
};

}  // namespace proofleaf::condition
