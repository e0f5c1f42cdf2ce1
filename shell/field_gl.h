// Test fields drawn at the screen's own pixels: no scaling, no blending, each pixel worked out from
// its place.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "screen/plan.h"

namespace proofleaf::shell {

// A part of the canvas in device pixels from its top left.
struct Patch {
  int x = 0, y = 0, width = 0, height = 0;
  std::array<uint8_t, 3> colour{};  // R, G, B
  std::array<uint8_t, 3> other{};   // of what is not lit
  screen::Pattern pattern{1, 1};    // 1 of 1: all of it has `colour`
  bool board = false;               // single pixels, every second of them, instead of rows
  bool operator==(const Patch&) const = default;
};

class FieldGl {
 public:
  FieldGl() = default;
  ~FieldGl();
  FieldGl(const FieldGl&) = delete;
  FieldGl& operator=(const FieldGl&) = delete;

  // What there was went with an earlier context; all is made when first drawn.
  void forget() { program_ = array_ = 0; }
  // One over the other. height: of the canvas [device pixels]. Leaves program, array, scissor and
  // blending changed.
  void draw(const std::vector<Patch>& patches, int height);

 private:
  void make();

  unsigned program_ = 0, array_ = 0;
  int corner_ = -1, height_ = -1, pattern_ = -1, board_ = -1, colour_ = -1, other_ = -1;
};

}  // namespace proofleaf::shell
