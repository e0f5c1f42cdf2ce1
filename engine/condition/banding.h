// Stairs in smooth gradients: plateaus without noise, each a small step from the next.
//
// Every eighth row is followed along x and every eighth column along y. A plateau is at least six
// pixels that hardly change; a step is 0.2 to 4 L* from one pixel to the next or over two; three
// steps of one direction with plateaus between them are stairs. Noise of a level or more hides
// stairs from the eye, and from this count as well.
#pragma once

#include <vector>

#include "condition/lightness.h"
#include "condition/regions.h"

namespace proofleaf::condition {

struct Banding {
  double share = 0;   // of the picture, 0..1: cells with stairs in them
  double step_l = 0;  // mean step [L*]
  double width = 0;   // mean plateau [pixels]
  LargestPlaces places;
};

class StairFinder {
 public:
  StairFinder(uint32_t width, uint32_t height);
  void add_row(const Row& row);
  Banding banding() const;

 private:
  // What is known of the line so far.
  struct Line {
    int16_t last = 0;
    int16_t sign = 0;    // of the last step
    uint16_t steps = 0;  // of one sign, in a row
    uint16_t run = 0;    // [pixels] since the last step
    int32_t drift = 0;   // summed small changes since
    int32_t step = 0;    // size of the last step
  };
  bool take_step(Line& line, int difference);
  void count(const Line& line, uint32_t x, uint32_t y, std::vector<uint16_t>& cells);
  template <class Mark>
  void follow(Line& line, int16_t value, Mark mark);

  uint32_t width_, height_, cell_, across_;
  std::vector<Line> columns_;
  std::vector<uint16_t> along_x_, along_y_;  // [pixels followed] on stairs, by cell
  uint64_t steps_ = 0, step_sum_ = 0, run_sum_ = 0;
};

}  // namespace proofleaf::condition
