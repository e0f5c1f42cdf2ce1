// Whether the print has the shape that was ordered, and all of it.
#include <algorithm>
#include <cmath>

#include "print/ranges.h"
#include "returned/compare.h"

namespace proofleaf::returned {
namespace {

constexpr double kLeastPpi = 20;   // of a scan; less is no resolution but a placeholder
constexpr double kMargin = 0.06;   // looked at around the front [shares of it]
constexpr double kFar = 0.045;     // an edge may lie that far from where it is ordered
constexpr uint32_t kLonger = 900;  // [pixels] of the front, looked at so large
constexpr int kStripes = 48;       // along a side
constexpr double kClear = 5;       // [L*] of an edge, in the mean over its stripes
constexpr double kHeld = 40;       // [L*] one stripe counts no more than so much
// Common practice, no source: what lens and flatness leave open.
constexpr double kLens = 0.4, kFlatScan = 0.2;  // [per cent] of the shape

// The photo and the promise side by side, with room around the front; L*.
struct Around {
  Plane photo, promise;
  double inner_x = 0, inner_y = 0;  // where the front begins [pixels]
};

Around around(const Promise& promise, const Photo& photo, const Homography& place,
              const Bend& bend) {
  const double scale = std::min(1.0, double(kLonger) / std::max(promise.l.width, promise.l.height));
  const double w = promise.l.width * scale, h = promise.l.height * scale;
  const auto wide = static_cast<uint32_t>(std::lround(w * (1 + 2 * kMargin))),
             high = static_cast<uint32_t>(std::lround(h * (1 + 2 * kMargin)));
  Around all;
  all.photo = flattened(photo.l, place, bend, wide, high, -1, kMargin);
  all.promise = Plane(wide, high, -1);
  all.inner_x = wide * kMargin / (1 + 2 * kMargin);
  all.inner_y = high * kMargin / (1 + 2 * kMargin);
  for (uint32_t y = 0; y < high; ++y) {
    const double v = (y + 0.5) / high * (1 + 2 * kMargin) - kMargin;
    for (uint32_t x = 0; x < wide; ++x) {
      const double u = (x + 0.5) / wide * (1 + 2 * kMargin) - kMargin;
      if (u >= 0 && v >= 0 && u <= 1 && v <= 1) all.promise.at(x, y) = promise.l.sample(u, v);
    }
  }
  return all;
}

// One side, seen as if it were the left one: `across` runs inwards from the outer edge.
class Side {
 public:
  Side(const Around& all, int side)
      : all_(all), upright_(side == 0 || side == 2), far_(side >= 2) {}
  double length() const { return upright_ ? all_.photo.height : all_.photo.width; }
  double inner() const { return upright_ ? all_.inner_x : all_.inner_y; }
  double begin() const { return upright_ ? all_.inner_y : all_.inner_x; }
  // -1 outside of the photo, or of the promise.
  float at(const Plane& plane, double across, double along) const {
    if (across < 0) return -1;
    const auto a = static_cast<uint32_t>(across), b = static_cast<uint32_t>(along);
    const uint32_t depth = upright_ ? plane.width : plane.height;
    if (a >= depth || b >= uint32_t(length())) return -1;
    const uint32_t from = far_ ? depth - 1 - a : a;
    return upright_ ? plane.at(from, b) : plane.at(b, from);
  }
  // How much lightness changes across a place; below 0: cannot be told.
  double change(const Plane& plane, double across, double along) const {
    float outer = 0, inner = 0;
    for (int i = 1; i <= 3; ++i) {
      const float o = at(plane, across - i, along), n = at(plane, across + i - 1, along);
      if (o < 0 || n < 0) return -1;
      outer += o / 3, inner += n / 3;
    }
    return std::abs(outer - inner);
  }

 private:
  const Around& all_;
  bool upright_, far_;
};

// How clear an edge from one place to another is: in the mean over its stripes, what the promise
// itself shows there taken off.
double clearness(const Side& side, const Around& all, double from, double to) {
  double sum = 0;
  int seen = 0;
  for (int i = 0; i < kStripes; ++i) {
    const double t = (i + 0.5) / kStripes;
    const double along = side.begin() + t * (side.length() - 2 * side.begin());
    const double across = from + t * (to - from);
    const double photo = side.change(all.photo, across, along);
    if (photo < 0) continue;
    const double own = std::max(0.0, side.change(all.promise, across, along));
    sum += std::clamp(photo - own * 1.3, 0.0, kHeld);
    ++seen;
  }
  return seen >= kStripes / 2 ? sum / seen : 0;
}

// Where the sheet ends at that side: pixels inwards from where it was ordered; empty: not told.
std::optional<double> edge_at(const Around& all, int which) {
  const Side side(all, which);
  const auto reach = static_cast<int>(kFar * side.inner() / kMargin);
  double best = 0;
  int from = 0, to = 0;
  for (int a = -reach; a <= reach; ++a) {
    for (int b = std::max(-reach, a - 4); b <= std::min(reach, a + 4); b += 2) {
      const double clear = clearness(side, all, side.inner() + a, side.inner() + b);
      if (clear > best) best = clear, from = a, to = b;
    }
  }
  if (best < kClear) return std::nullopt;
  return (from + to) / 2.0;
}

}  // namespace

SizeFound find_size(const Promise& promise, const Photo& photo, const Comparison& so_far,
                    const Settings& settings, const Bend& bend) {
  SizeFound size;
  const double photo_ratio = double(photo.width()) / photo.height();
  const ShapeSeen shape = shape_seen(so_far.print_to_photo, photo_ratio, settings.scan);
  const double ordered = promise.width_mm / promise.height_mm;
  size.wider = (shape.ratio / ordered - 1) * 100;
  size.wider_within = shape.within * 100 + (settings.scan ? kFlatScan : kLens) + so_far.bend * 100;
  const Around all = around(promise, photo, so_far.print_to_photo, bend);
  const double mm = promise.width_mm * (1 + 2 * kMargin) / all.photo.width;  // a pixel
  size.cut_within = 1.5 * mm + so_far.bend * std::max(promise.width_mm, promise.height_mm);
  double worst = 0, scan_off = 0;  // [mm]; [per cent]
  for (int side = 0; side < 4; ++side) {
    if (const auto edge = edge_at(all, side)) {
      size.cut[size_t(side)] = *edge * mm;
      worst = std::max(worst, std::abs(*edge * mm) - size.cut_within);
    }
  }
  if (settings.scan && settings.photo_ppi && *settings.photo_ppi >= kLeastPpi) {
    const double each = print::kMmPerInch / *settings.photo_ppi;
    const Point lengths = middle_lengths(so_far.print_to_photo, photo.width(), photo.height());
    size.width_mm = lengths.x * each;
    size.height_mm = lengths.y * each;
    scan_off = 100 * std::max(std::abs(*size.width_mm / promise.width_mm - 1),
                              std::abs(*size.height_mm / promise.height_mm - 1));
  }
  const double shape_off = std::abs(size.wider) - size.wider_within;
  const double cut_allowed = std::max(1.0, 0.003 * std::max(promise.width_mm, promise.height_mm));
  size.verdict = shape_off > 1 || scan_off > 1.5 || worst > cut_allowed          ? Found::wrong
                 : shape_off > 0.3 || scan_off > 0.75 || worst > cut_allowed / 2 ? Found::look
                                                                                 : Found::fine;
  return size;
}

}  // namespace proofleaf::returned
