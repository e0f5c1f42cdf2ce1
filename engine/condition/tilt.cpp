#include "condition/tilt.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

#include "condition/lightness.h"

namespace proofleaf::condition {
namespace {

constexpr int kContrast = 2 * kUnit;  // [over two pixels] least gradient of an edge point
constexpr double kNear = 1.2;         // [pixels] from where a chain is expected to go on
constexpr uint32_t kMostMissing = 2;  // [pixels] a chain may be interrupted
constexpr double kShortest = 0.2;     // of the side, and at least kFewest pixels
constexpr size_t kFewest = 80;
constexpr double kStraight = 0.8;  // [pixels] rms
constexpr double kSteepest = 12;   // [degrees]
constexpr double kAgree = 0.3;     // [degrees]
constexpr double kEnough = 0.5;    // of the side, in summed length, for full confidence
constexpr double kSure = 0.5;      // confidence from which something is said

// The picture with x along the edges that are looked for: turned for upright ones.
struct View {
  const SmallPicture& picture;
  bool upright;
  uint32_t along() const {
    return upright ? picture.bottom - picture.top : picture.right - picture.left;
  }
  uint32_t across() const {
    return upright ? picture.right - picture.left : picture.bottom - picture.top;
  }
  int at(uint32_t u, uint32_t v) const {
    return upright ? picture.at(picture.left + v, picture.top + u)
                   : picture.at(picture.left + u, picture.top + v);
  }
};

struct Point {
  double u, v;
};
struct Chain {
  std::vector<Point> points;
  int sign;
  double expected(double u) const {
    const Point& last = points.back();
    if (points.size() < 12) return last.v;
    const Point& back = points[points.size() - 12];
    return last.v + (last.v - back.v) / (last.u - back.u) * (u - last.u);
  }
};

struct Segment {
  double slope = 0, weight = 0;
  Point first{}, last{};
};

// The gradient across, smoothed over three pixels along.
int gradient(const View& view, uint32_t u, uint32_t v) {
  int sum = 0;
  for (uint32_t i = u - 1; i <= u + 1; ++i) sum += view.at(i, v + 1) - view.at(i, v - 1);
  return sum / 3;
}

// A straight piece of the chain, points first..end; halves it while it is bent.
void add_segments(const Chain& chain, size_t first, size_t end, double shortest,
                  std::vector<Segment>& segments) {
  const double n = double(end - first);
  if (n < shortest) return;
  double u = 0, v = 0, uu = 0, uv = 0, vv = 0;
  for (size_t i = first; i < end; ++i) {
    u += chain.points[i].u / n;
    v += chain.points[i].v / n;
  }
  for (size_t i = first; i < end; ++i) {
    const double du = chain.points[i].u - u, dv = chain.points[i].v - v;
    uu += du * du;
    uv += du * dv;
    vv += dv * dv;
  }
  const double slope = uv / uu;
  const double rms = std::sqrt(std::max(0.0, vv - slope * uv) / n);
  if (rms > kStraight) {
    const size_t middle = (first + end) / 2;
    add_segments(chain, first, middle, shortest, segments);
    add_segments(chain, middle, end, shortest, segments);
    return;
  }
  if (std::abs(std::atan(slope)) * 180 / std::numbers::pi > kSteepest) return;
  // Longer lines say the angle more exactly.
  segments.push_back({slope, std::pow(n, 1.5), chain.points[first], chain.points[end - 1]});
}

class Follower {
 public:
  explicit Follower(const View& view)
      : view_(view), shortest_(std::max<double>(kFewest, kShortest * view.along())) {}

  std::vector<Segment> follow() {
    if (view_.along() < kFewest || view_.across() < 8) return {};
    for (uint32_t u = 1; u + 1 < view_.along(); ++u) column(u);
    for (const Chain& chain : chains_)
      add_segments(chain, 0, chain.points.size(), shortest_, done_);
    return std::move(done_);
  }

 private:
  void column(uint32_t u) {
    int before = 0, here = gradient(view_, u, 2);
    for (uint32_t v = 2; v + 3 < view_.across(); ++v) {
      const int after = gradient(view_, u, v + 1);
      const int size = std::abs(here);
      if (size >= kContrast && size >= std::abs(before) && size > std::abs(after)) {
        const int sign = here > 0 ? 1 : -1;
        const double bend = 2.0 * size - sign * (before + after);
        const double part =
            bend > 0 ? std::clamp(sign * (after - before) / (2 * bend), -0.5, 0.5) : 0;
        take({double(u), v + part}, sign);
      }
      before = here;
      here = after;
    }
    close_old(u);
  }

  // Chains are kept in the order of their last place, nearly; a point goes to the nearest.
  void take(Point point, int sign) {
    Chain* best = nullptr;
    double nearest = kNear;
    for (Chain& chain : chains_) {
      const Point& last = chain.points.back();
      if (chain.sign != sign || last.u >= point.u) continue;
      if (std::abs(last.v - point.v) > 4) continue;
      const double off = std::abs(chain.expected(point.u) - point.v);
      if (off < nearest) {
        nearest = off;
        best = &chain;
      }
    }
    if (best != nullptr) {
      best->points.push_back(point);
    } else {
      chains_.push_back({{point}, sign});
    }
  }

  void close_old(uint32_t u) {
    std::erase_if(chains_, [&](const Chain& chain) {
      if (chain.points.back().u + kMostMissing >= u) return false;
      add_segments(chain, 0, chain.points.size(), shortest_, done_);
      return true;
    });
  }

  const View& view_;
  double shortest_;
  std::vector<Chain> chains_;
  std::vector<Segment> done_;
};

Place place_of(const Segment& segment, const View& view) {
  const SmallPicture& picture = view.picture;
  const double v0 = std::min(segment.first.v, segment.last.v);
  const double v1 = std::max(segment.first.v, segment.last.v) + 1;
  double x = segment.first.u, y = v0, w = segment.last.u + 1 - segment.first.u, h = v1 - v0;
  if (view.upright) {
    std::swap(x, y);
    std::swap(w, h);
  }
  const auto pixels = [&](double side) { return static_cast<uint32_t>(side * picture.factor); };
  return {pixels(x + picture.left), pixels(y + picture.top), pixels(w), pixels(h)};
}

Lean lean_of(const View& view) {
  std::vector<Segment> segments = Follower(view).follow();
  Lean lean;
  if (segments.empty()) return lean;
  std::sort(segments.begin(), segments.end(),
            [](const Segment& a, const Segment& b) { return a.slope < b.slope; });
  double total = 0, sum = 0;
  for (const Segment& segment : segments) total += segment.weight;
  size_t middle = 0;
  while (middle + 1 < segments.size() && sum + segments[middle].weight < total / 2) {
    sum += segments[middle++].weight;
  }
  const auto degrees = [](double slope) { return std::atan(slope) * 180 / std::numbers::pi; };
  const double median = degrees(segments[middle].slope);
  double agreeing = 0, length = 0, mean = 0;
  std::erase_if(segments,
                [&](const Segment& s) { return std::abs(degrees(s.slope) - median) > kAgree; });
  for (const Segment& segment : segments) {
    agreeing += segment.weight;
    length += segment.last.u - segment.first.u;
    mean += segment.weight * degrees(segment.slope);
  }
  lean.degrees = mean / agreeing * (view.upright ? -1 : 1);
  lean.lines = segments.size();
  lean.confidence = agreeing / total * std::min(1.0, length / (kEnough * view.along()));
  std::sort(segments.begin(), segments.end(),
            [](const Segment& a, const Segment& b) { return a.weight > b.weight; });
  for (size_t i = 0; i < std::min(kMostPlaces, segments.size()); ++i) {
    lean.places.push_back(place_of(segments[i], view));
  }
  return lean;
}

}  // namespace

Tilt find_tilt(const SmallPicture& picture) {
  Tilt tilt;
  tilt.level = lean_of({picture, false});
  tilt.upright = lean_of({picture, true});
  const bool level = tilt.level.confidence >= kSure, upright = tilt.upright.confidence >= kSure;
  tilt.known = level || upright;
  const Lean& chosen = level ? tilt.level : tilt.upright;
  tilt.degrees = chosen.degrees;
  tilt.confidence = chosen.confidence;
  return tilt;
}

}  // namespace proofleaf::condition
