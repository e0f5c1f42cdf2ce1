// Sharpness and halos, from the strongest straight edges all over the picture.
#pragma once

#include <vector>

#include "condition/condition.h"
#include "condition/edge_profile.h"
#include "condition/frame.h"
#include "condition/shrink_rows.h"

namespace proofleaf::condition {

struct Sharpness {
  size_t edges = 0;       // measured
  double sharpest = 0;    // 10-90 % rise of the sharpest fifth [pixels]
  double median = 0;      // [pixels]
  size_t halo_edges = 0;  // edges that could show a halo on either side
  double bright = 0;      // medians of over- and undershoot, share of the step
  double dark = 0;
  double both = 0;                  // median of the lesser of the two: sharpening makes both
  std::vector<Place> sharp, halos;  // the clearest
};

// Every eighth row is searched for upright edges, every eighth column for level ones; of each of
// 16 x 16 fields of the picture the eight edges with the largest step are kept.
class EdgeCollector {
 public:
  EdgeCollector(uint32_t width, uint32_t height);
  void add_row(const Row& row);
  // Edges on the border itself are left out.
  Sharpness sharpness(const Frame& frame) const;

 private:
  struct Edge {
    uint32_t x, y;
    EdgeProfile profile;
  };
  void search(uint32_t y);
  void search_upright(uint32_t y);
  void search_level(uint32_t y);
  bool try_edge(uint32_t x, uint32_t y, bool upright);
  void keep(const Edge& edge);
  bool on_border(const Edge& edge, const Frame& frame) const;

  uint32_t width_, height_;
  RowRing ring_;
  std::vector<std::vector<Edge>> fields_;
};

}  // namespace proofleaf::condition
