// Connected regions of a picture that is only seen row by row.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "condition/condition.h"

namespace proofleaf::condition {

// Pixels first <= x < end of one row that are of one kind.
struct Run {
  uint32_t first = 0, end = 0;
  uint32_t kind = 0;
  int32_t rim_sum = 0;     // lightness just outside of its two ends
  uint32_t rim_count = 0;  // 0..2
};

// Pixels of one kind that touch, over a side or a corner.
struct Region {
  uint64_t area = 0;  // [pixels]
  uint32_t kind = 0;
  uint32_t left = 0, top = 0, right = 0, bottom = 0;  // right and bottom are one past the last
  int64_t rim_sum = 0;
  uint64_t rim_count = 0;
  Place box() const { return {left, top, right - left, bottom - top}; }
};

// Union-find over the runs of two neighbouring rows (Rosenfeld and Pfaltz, "Sequential operations
// in digital picture processing", J. ACM 13 (1966), on runs). Memory: two rows of runs.
class Regions {
 public:
  // done is called with each region once no later row can add to it.
  explicit Regions(std::function<void(const Region&)> done) : done_(std::move(done)) {}
  // The runs of row y, from left to right. Rows come in order; a row without runs may be left out.
  void add_row(uint32_t y, const std::vector<Run>& runs);
  void finish();

 private:
  uint32_t root(uint32_t node);
  void join(uint32_t one, uint32_t two);
  void keep_living();

  struct Placed {
    Run run;
    uint32_t node;
  };
  std::function<void(const Region&)> done_;
  std::vector<Placed> above_, here_;
  std::vector<Region> regions_;
  std::vector<uint32_t> parent_;
  uint32_t last_row_ = 0;
};

// The largest places seen, at most kMostPlaces.
class LargestPlaces {
 public:
  void add(uint64_t size, const Place& place);
  // Biggest first.
  std::vector<Place> places() const;
  uint64_t largest() const { return held_.empty() ? 0 : held_.front().first; }

 private:
  std::vector<std::pair<uint64_t, Place>> held_;  // sorted
};

// Connected cells (over a side or a corner) of a grid, where marked, as boxes in pixels; the size
// is the number of cells. cell: side of a cell [pixels]; boxes end at width x height.
LargestPlaces places_of_cells(const std::vector<bool>& marked, uint32_t across, uint32_t cell,
                              uint32_t width, uint32_t height);

}  // namespace proofleaf::condition
