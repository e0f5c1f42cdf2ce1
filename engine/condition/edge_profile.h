// The profile across one straight edge.
//
// After the slanted-edge idea of ISO 12233: the edge is found in each line that crosses it, a
// straight line is laid through those places, and every pixel is put down by its distance from that
// line, so that lines at different phases make one finely sampled profile. Unlike there, values are
// L*, the edges are the picture's own, and the answers are read off the profile itself: the
// distance from 10 to 90 per cent of the step, and how far the profile runs past either side.
#pragma once

#include <array>
#include <cstdint>
#include <optional>

namespace proofleaf::condition {

inline constexpr int kAcross = 16, kAlong = 8;  // [pixels] to either side of the middle

// Lightness (lightness.h) around an edge: value[v][u], u across the edge, v along it.
struct EdgePatch {
  std::array<std::array<int16_t, 2 * kAcross + 1>, 2 * kAlong + 1> value;
};

struct EdgeProfile {
  double step_l = 0;  // between the two sides [L*]
  double rise = 0;    // 10-90 % [pixels]
  double bright = 0;  // overshoot of the bright side, share of the step; negative: cannot tell
  double dark = 0;    // undershoot of the dark side
};

// Nothing where the patch holds no single straight edge between two even sides at least kLeastEdge
// apart, within 27 degrees of upright.
std::optional<EdgeProfile> measure_edge(const EdgePatch& patch);

inline constexpr double kLeastEdge = 12;  // [L*]

}  // namespace proofleaf::condition
