#include "condition/banding.h"

#include <algorithm>
#include <cstdlib>

namespace proofleaf::condition {
namespace {

constexpr uint32_t kEvery = 8;         // [pixels] between the lines that are followed
constexpr int kStill = 2;              // [1/256 L*] less is rounding
constexpr int kLeastStep = kUnit / 5;  // 0.2 L*
constexpr int kMostStep = 4 * kUnit;   // more is an edge
constexpr uint16_t kLeastRun = 6;      // [pixels] of a plateau
constexpr uint16_t kStairs = 3;        // steps of one direction
constexpr double kFull = 0.2;          // share of a cell's followed pixels that makes it striped

}  // namespace

StairFinder::StairFinder(uint32_t width, uint32_t height)
    : width_(width), height_(height), cell_(32) {
  while (uint64_t{width} * height / (uint64_t{cell_} * cell_) > 300'000) cell_ *= 2;
  across_ = (width + cell_ - 1) / cell_;
  const size_t cells = size_t{across_} * ((height + cell_ - 1) / cell_);
  columns_.resize((width + kEvery - 1) / kEvery);
  along_x_.resize(cells);
  along_y_.resize(cells);
}

// Takes a change that is no rounding; true where it is one more step of stairs.
bool StairFinder::take_step(Line& line, int difference) {
  const int size = std::abs(difference);
  const auto sign = static_cast<int16_t>(difference > 0 ? 1 : -1);
  if (size < kLeastStep) {
    line.drift += size;
    return false;
  }
  const bool spread = line.run <= 1 && line.sign == sign && line.steps > 0 && size <= kMostStep;
  if (spread) {  // the second pixel of one step
    line.step += size;
    return false;
  }
  const bool plateau = line.run >= kLeastRun && line.drift * 4 <= size && size <= kMostStep;
  line.steps = static_cast<uint16_t>(!plateau            ? 0
                                     : line.sign == sign ? std::min(line.steps + 1, 1000)
                                                         : 1);
  line.sign = sign;
  line.step = size;
  return line.steps >= kStairs;
}

template <class Mark>
inline void StairFinder::follow(Line& line, int16_t value, Mark mark) {
  const int difference = value - line.last;
  line.last = value;
  if (std::abs(difference) > kStill) {
    if (take_step(line, difference)) mark();
    if (std::abs(difference) >= kLeastStep) {
      line.run = 0;
      line.drift = 0;
    }
  }
  line.run = static_cast<uint16_t>(std::min<int>(line.run + 1, UINT16_MAX));
}

void StairFinder::count(const Line& line, uint32_t x, uint32_t y, std::vector<uint16_t>& cells) {
  ++steps_;
  step_sum_ += static_cast<uint64_t>(line.step);
  run_sum_ += line.run;
  // The plateau lies before (x, y); it is put down where it ends, as far as one cell goes.
  uint16_t& cell = cells[size_t{y / cell_} * across_ + x / cell_];
  cell = static_cast<uint16_t>(
      std::min<uint32_t>(cell + std::min<uint32_t>(line.run, cell_), UINT16_MAX));
}

void StairFinder::add_row(const Row& row) {
  if (row.y == 0) {
    for (size_t i = 0; i < columns_.size(); ++i) columns_[i].last = row.l[i * kEvery];
  }
  for (size_t i = 0; i < columns_.size(); ++i) {
    const auto x = static_cast<uint32_t>(i * kEvery);
    follow(columns_[i], row.l[x], [&] { count(columns_[i], x, row.y, along_y_); });
  }
  if (row.y % kEvery != 0) return;
  Line line;
  line.last = row.l[0];
  for (uint32_t x = 0; x < width_; ++x) {
    follow(line, row.l[x], [&] { count(line, x, row.y, along_x_); });
  }
}

Banding StairFinder::banding() const {
  Banding banding;
  std::vector<bool> marked(along_x_.size());
  const double followed = double(cell_) * cell_ / kEvery;
  size_t count = 0;
  for (size_t i = 0; i < marked.size(); ++i) {
    marked[i] = std::max(along_x_[i], along_y_[i]) >= kFull * followed;
    count += marked[i];
  }
  banding.share = marked.empty() ? 0 : double(count) / double(marked.size());
  if (steps_ > 0) {
    banding.step_l = double(step_sum_) / double(steps_) / kUnit;
    banding.width = double(run_sum_) / double(steps_);
  }
  banding.places = places_of_cells(marked, across_, cell_, width_, height_);
  return banding;
}

}  // namespace proofleaf::condition
