#include "condition/sharpness.h"

#include <algorithm>
#include <cstdlib>

namespace proofleaf::condition {
namespace {

constexpr uint32_t kSearchEvery = 8;        // [pixels] between searched lines
constexpr uint32_t kFields = 16;            // a side
constexpr size_t kMostEdges = 8;            // of a field
constexpr int kSlope = 3 * kUnit;           // [per two pixels] least steepness of a candidate
constexpr int kFarEnd = 12, kFarBegin = 8;  // [pixels] as edge_profile.cpp's sides
constexpr double kLooseness = 0.2;          // of the step, across one side of a single line
constexpr size_t kFewestEdges = 5;          // below it nothing is said

// Whether the line through the middle has two sides, each even, far enough apart; at(i) is its
// lightness i pixels from the middle.
template <class At>
bool promising(At at) {
  int low[2] = {INT16_MAX, INT16_MAX}, high[2] = {0, 0};
  for (int i = kFarBegin; i <= kFarEnd; ++i) {
    for (int side : {0, 1}) {
      const int value = at(side == 0 ? -i : i);
      low[side] = std::min(low[side], value);
      high[side] = std::max(high[side], value);
    }
  }
  const int step = std::abs(low[0] + high[0] - low[1] - high[1]) / 2;
  if (step < kLeastEdge * kUnit) return false;
  // Noise on a single line is larger than on the mean of seventeen; allow some whatever the step.
  const double loose = kLooseness * step + 2 * kUnit;
  return high[0] - low[0] <= loose && high[1] - low[1] <= loose;
}

double quantile(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(share * double(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

Place around(uint32_t x, uint32_t y, uint32_t width, uint32_t height) {
  constexpr uint32_t kHalf = 32;
  const uint32_t left = x > kHalf ? x - kHalf : 0, top = y > kHalf ? y - kHalf : 0;
  return {left, top, std::min(width - left, 2 * kHalf), std::min(height - top, 2 * kHalf)};
}

}  // namespace

EdgeCollector::EdgeCollector(uint32_t width, uint32_t height)
    : width_(width), height_(height), ring_(width, 2 * kAcross + 1), fields_(kFields * kFields) {}

void EdgeCollector::add_row(const Row& row) {
  std::copy(row.l.begin(), row.l.end(), ring_.slot(row.y).begin());
  if (row.y >= 2 * kAcross && width_ > 2 * kAcross) search(row.y - kAcross);
}

void EdgeCollector::search(uint32_t y) {
  if (y % kSearchEvery == 0) search_upright(y);
  search_level(y);
}

void EdgeCollector::search_upright(uint32_t y) {
  const int16_t* l = ring_.row(y);
  for (uint32_t x = kAcross; x + kAcross < width_; ++x) {
    const int slope = std::abs(l[x + 1] - l[x - 1]);
    if (slope < kSlope) continue;
    if (slope < std::abs(l[x] - l[x - 2]) || slope < std::abs(l[x + 2] - l[x])) continue;
    if (!promising([&](int i) { return l[static_cast<int>(x) + i]; })) continue;
    if (try_edge(x, y, true)) x += kFarEnd;
  }
}

void EdgeCollector::search_level(uint32_t y) {
  const int16_t* rows[5];
  for (uint32_t i = 0; i < 5; ++i) rows[i] = ring_.row(y + i - 2);
  for (uint32_t x = 2 * kSearchEvery; x + kAcross < width_; x += kSearchEvery) {
    const int slope = std::abs(rows[3][x] - rows[1][x]);
    if (slope < kSlope) continue;
    if (slope < std::abs(rows[2][x] - rows[0][x]) || slope < std::abs(rows[4][x] - rows[2][x]))
      continue;
    const auto at = [&](int i) {
      return ring_.row(static_cast<uint32_t>(static_cast<int>(y) + i))[x];
    };
    if (promising(at)) try_edge(x, y, false);
  }
}

bool EdgeCollector::try_edge(uint32_t x, uint32_t y, bool upright) {
  EdgePatch patch;
  for (int v = -kAlong; v <= kAlong; ++v) {
    for (int u = -kAcross; u <= kAcross; ++u) {
      const int dx = upright ? u : v, dy = upright ? v : u;
      patch.value[index(v + kAlong)][index(u + kAcross)] =
          ring_.row(static_cast<uint32_t>(static_cast<int>(y) + dy))[static_cast<int>(x) + dx];
    }
  }
  const auto profile = measure_edge(patch);
  if (profile) keep({x, y, *profile});
  return profile.has_value();
}

void EdgeCollector::keep(const Edge& edge) {
  const size_t column = size_t{edge.x} * kFields / width_, row = size_t{edge.y} * kFields / height_;
  auto& field = fields_[row * kFields + column];
  if (field.size() < kMostEdges) {
    field.push_back(edge);
    return;
  }
  const auto least = std::min_element(field.begin(), field.end(), [](const Edge& a, const Edge& b) {
    return a.profile.step_l < b.profile.step_l;
  });
  if (edge.profile.step_l > least->profile.step_l) *least = edge;
}

bool EdgeCollector::on_border(const Edge& edge, const Frame& frame) const {
  if (!frame.any()) return false;
  constexpr uint32_t kNear = kAcross;
  return edge.x < frame.left + kNear || edge.y < frame.top + kNear ||
         edge.x + frame.right + kNear >= width_ || edge.y + frame.bottom + kNear >= height_;
}

Sharpness EdgeCollector::sharpness(const Frame& frame) const {
  std::vector<Edge> edges;
  for (const auto& field : fields_) {
    for (const Edge& edge : field) {
      if (!on_border(edge, frame)) edges.push_back(edge);
    }
  }
  Sharpness sharpness;
  if (edges.size() < kFewestEdges) return sharpness;
  std::vector<double> rise, bright, dark, both;
  for (const Edge& edge : edges) {
    const EdgeProfile& profile = edge.profile;
    rise.push_back(profile.rise);
    if (profile.bright < 0 || profile.dark < 0) continue;
    bright.push_back(profile.bright);
    dark.push_back(profile.dark);
    both.push_back(std::min(profile.bright, profile.dark));
  }
  sharpness.edges = edges.size();
  sharpness.sharpest = quantile(rise, 0.2);
  sharpness.median = quantile(rise, 0.5);
  sharpness.halo_edges = both.size();
  sharpness.bright = quantile(bright, 0.5);
  sharpness.dark = quantile(dark, 0.5);
  sharpness.both = quantile(both, 0.5);
  const auto places = [&](auto better) {
    std::stable_sort(edges.begin(), edges.end(), better);
    std::vector<Place> list;
    for (const Edge& edge : edges) {
      if (list.size() < kMostPlaces) list.push_back(around(edge.x, edge.y, width_, height_));
    }
    return list;
  };
  sharpness.sharp =
      places([](const Edge& a, const Edge& b) { return a.profile.rise < b.profile.rise; });
  sharpness.halos = places([](const Edge& a, const Edge& b) {
    return std::min(a.profile.bright, a.profile.dark) > std::min(b.profile.bright, b.profile.dark);
  });
  return sharpness;
}

}  // namespace proofleaf::condition
