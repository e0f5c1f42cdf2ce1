#include "condition/clipping.h"

#include <algorithm>

namespace proofleaf::condition {
namespace {

constexpr int kDarkest = 15 * kUnit, kBrightest = 92 * kUnit;  // of a clipped colour
constexpr uint32_t kRimDistance = 3;                           // [pixels] outside of a run
// A reflection is at most this share of the long side across, and falls off by at least this much
// within kRimDistance (common practice, no source).
constexpr double kSpecularSide = 0.02;
constexpr double kSpecularFall = 8;     // L*
constexpr uint32_t kSpecularLeast = 6;  // [pixels] across is always small enough

uint64_t border_area(const Frame& frame, uint64_t width, uint64_t height) {
  const uint64_t inner = (width - frame.left - frame.right) * (height - frame.top - frame.bottom);
  return width * height - inner;
}

}  // namespace

ClippingCounter::ClippingCounter(uint32_t width, uint32_t height)
    : width_(width), height_(height), regions_([this](const Region& region) { sort_in(region); }) {}

ClippingCounter::Kind ClippingCounter::classify(const uint16_t* rgb, int16_t l) {
  int tops = 0, bottoms = 0;
  for (size_t c = 0; c < 3; ++c) {
    const bool top = rgb[c] >= kTopEnd, bottom = rgb[c] <= kBottomEnd;
    tops += top;
    bottoms += bottom;
    found_.top[c] += top;
    found_.bottom[c] += bottom;
  }
  if (tops == 3) return white;
  if (bottoms == 3) return black;
  return l > kDarkest && l < kBrightest ? colour : none;
}

void ClippingCounter::add_run(const Row& row, uint32_t first, uint32_t end, Kind kind) {
  (kind == white ? found_.white : kind == black ? found_.black : found_.colour) += end - first;
  Run run{first, end, kind};
  if (first >= kRimDistance) {
    run.rim_sum += row.l[first - kRimDistance];
    ++run.rim_count;
  }
  if (end + kRimDistance <= width_) {
    run.rim_sum += row.l[end + kRimDistance - 1];
    ++run.rim_count;
  }
  runs_.push_back(run);
}

void ClippingCounter::add_row(const Row& row) {
  runs_.clear();
  Kind open = none;
  uint32_t first = 0;
  const uint16_t* rgb = row.rgb.data();
  for (uint32_t x = 0; x < width_; ++x, rgb += 3) {
    const uint16_t high = std::max({rgb[0], rgb[1], rgb[2]});
    const uint16_t low = std::min({rgb[0], rgb[1], rgb[2]});
    Kind kind = none;
    if (high >= kTopEnd || low <= kBottomEnd) [[unlikely]]
      kind = classify(rgb, row.l[x]);
    if (kind == open) [[likely]]
      continue;
    if (open != none) add_run(row, first, x, open);
    open = kind;
    first = x;
  }
  if (open != none) add_run(row, first, width_, open);
  regions_.add_row(row.y, runs_);
}

bool ClippingCounter::is_specular(const Region& region) const {
  const uint32_t across = std::max(region.right - region.left, region.bottom - region.top);
  const double most = std::max<double>(kSpecularLeast, kSpecularSide * std::max(width_, height_));
  if (across > most || region.rim_count == 0) return false;
  return double(region.rim_sum) / double(region.rim_count) < (100 - kSpecularFall) * kUnit;
}

void ClippingCounter::sort_in(const Region& region) {
  if (region.left == 0 && region.top == 0 && region.kind != colour) {
    corner_ = region;  // the border may be part of it: decided at the end
  } else if (region.kind == black) {
    found_.blacks.add(region.area, region.box());
  } else if (region.kind == colour) {
    found_.colours.add(region.area, region.box());
  } else if (is_specular(region)) {
    found_.specular += region.area;
  } else {
    found_.whites.add(region.area, region.box());
  }
}

// Takes the border's pixels out of all sums and out of the corner's region.
void ClippingCounter::leave_out(const Frame& frame) {
  const bool top =
      std::all_of(frame.colour, frame.colour + 3, [](uint16_t v) { return v >= kTopEnd; });
  const bool bottom =
      std::all_of(frame.colour, frame.colour + 3, [](uint16_t v) { return v <= kBottomEnd; });
  if (!frame.any() || (!top && !bottom)) return;
  const uint64_t area = std::min(border_area(frame, width_, height_), corner_.area);
  (top ? found_.white : found_.black) -= area;
  (top ? found_.border_white : found_.border_black) = area;
  for (uint64_t& channel : top ? found_.top : found_.bottom) channel -= std::min(channel, area);
  corner_.area -= area;
  corner_.left = frame.left;
  corner_.top = frame.top;
  corner_.right = width_ - frame.right;
  corner_.bottom = height_ - frame.bottom;
}

Clipping ClippingCounter::finish(const Frame& frame) {
  regions_.finish();
  if (corner_.area > 0) leave_out(frame);
  if (corner_.area > 0)
    (corner_.kind == white ? found_.whites : found_.blacks).add(corner_.area, corner_.box());
  return found_;
}

}  // namespace proofleaf::condition
