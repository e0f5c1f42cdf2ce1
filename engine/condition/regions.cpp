#include "condition/regions.h"

#include <algorithm>

namespace proofleaf::condition {
namespace {

Region region_of(const Run& run, uint32_t y) {
  Region region;
  region.area = run.end - run.first;
  region.kind = run.kind;
  region.left = run.first;
  region.right = run.end;
  region.top = y;
  region.bottom = y + 1;
  region.rim_sum = run.rim_sum;
  region.rim_count = run.rim_count;
  return region;
}

void merge(Region& into, const Region& other) {
  into.area += other.area;
  into.left = std::min(into.left, other.left);
  into.top = std::min(into.top, other.top);
  into.right = std::max(into.right, other.right);
  into.bottom = std::max(into.bottom, other.bottom);
  into.rim_sum += other.rim_sum;
  into.rim_count += other.rim_count;
}

}  // namespace

uint32_t Regions::root(uint32_t node) {
  while (parent_[node] != node) {
    parent_[node] = parent_[parent_[node]];
    node = parent_[node];
  }
  return node;
}

void Regions::join(uint32_t one, uint32_t two) {
  one = root(one);
  two = root(two);
  if (one == two) return;
  if (two < one) std::swap(one, two);
  merge(regions_[one], regions_[two]);
  parent_[two] = one;
}

void Regions::add_row(uint32_t y, const std::vector<Run>& runs) {
  if (runs.empty()) return;
  if (!above_.empty() && y != last_row_ + 1) finish();
  last_row_ = y;
  here_.clear();
  size_t first_above = 0;
  for (const Run& run : runs) {
    const auto node = static_cast<uint32_t>(regions_.size());
    regions_.push_back(region_of(run, y));
    parent_.push_back(node);
    here_.push_back({run, node});
    while (first_above < above_.size() && above_[first_above].run.end < run.first) ++first_above;
    for (size_t i = first_above; i < above_.size() && above_[i].run.first <= run.end; ++i) {
      if (above_[i].run.kind == run.kind) join(above_[i].node, node);
    }
  }
  keep_living();
}

// Regions with no run in this row are done; the others get new, dense numbers.
void Regions::keep_living() {
  constexpr uint32_t kNone = UINT32_MAX;
  std::vector<uint32_t> number(regions_.size(), kNone);
  std::vector<Region> living;
  for (Placed& placed : here_) {
    const uint32_t old = root(placed.node);
    if (number[old] == kNone) {
      number[old] = static_cast<uint32_t>(living.size());
      living.push_back(regions_[old]);
    }
    placed.node = number[old];
  }
  for (uint32_t i = 0; i < regions_.size(); ++i) {
    if (parent_[i] == i && number[i] == kNone) done_(regions_[i]);
  }
  regions_ = std::move(living);
  parent_.resize(regions_.size());
  for (uint32_t i = 0; i < parent_.size(); ++i) parent_[i] = i;
  std::swap(above_, here_);
}

void Regions::finish() {
  for (const Region& region : regions_) done_(region);
  regions_.clear();
  parent_.clear();
  above_.clear();
}

void LargestPlaces::add(uint64_t size, const Place& place) {
  if (held_.size() == kMostPlaces && size <= held_.back().first) return;
  const auto after =
      std::find_if(held_.begin(), held_.end(), [&](const auto& held) { return held.first < size; });
  held_.insert(after, {size, place});
  if (held_.size() > kMostPlaces) held_.pop_back();
}

std::vector<Place> LargestPlaces::places() const {
  std::vector<Place> places;
  places.reserve(held_.size());
  for (const auto& held : held_) places.push_back(held.second);
  return places;
}

LargestPlaces places_of_cells(const std::vector<bool>& marked, uint32_t across, uint32_t cell,
                              uint32_t width, uint32_t height) {
  LargestPlaces largest;
  Regions regions([&](const Region& region) {
    const uint32_t x = region.left * cell, y = region.top * cell;
    largest.add(region.area, {x, y, std::min(region.right * cell, width) - x,
                              std::min(region.bottom * cell, height) - y});
  });
  std::vector<Run> runs;
  for (uint32_t row = 0; across > 0 && size_t{row} * across < marked.size(); ++row) {
    runs.clear();
    for (uint32_t x = 0; x < across; ++x) {
      if (!marked[size_t{row} * across + x]) continue;
      if (!runs.empty() && runs.back().end == x) {
        ++runs.back().end;
      } else {
        runs.push_back({x, x + 1});
      }
    }
    regions.add_row(row, runs);
  }
  regions.finish();
  return largest;
}

}  // namespace proofleaf::condition
