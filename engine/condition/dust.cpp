#include "condition/dust.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>

#include "condition/lightness.h"

namespace proofleaf::condition {
namespace {

constexpr int kRing = 5;                // [pixels] radius of the circle a spot stands out from
constexpr int kInner = 7, kOuter = 11;  // [pixels] radii of the surround
constexpr int kReach = kOuter;
constexpr int kStandOut = kUnit;        // from every point of the circle: 1 L*
constexpr double kLeastContrast = 1.5;  // [L*]
constexpr double kMostLight = 25;       // [L*] of a light spot; more is a lamp or glitter
constexpr double kDarkGround = 20;      // [L*] below it light spots are lights
constexpr double kRoughDark = 0.15, kRoughLight = 0.12;  // of the contrast, rms of the surround
constexpr double kSmallest = 2.2, kLargest = 7;          // [pixels] in one size
constexpr double kLongest = 2;                           // longer axis over shorter
constexpr uint32_t kCell = 12;                           // [pixels] of the grid of points
constexpr uint32_t kMostPoints = 5;                      // in 3 x 3 cells; more are a texture
constexpr size_t kMostFound = 20'000;
constexpr uint32_t kSizes = 3;

// Sixteen points of a circle of radius kRing, the four on the axes first.
constexpr std::array<std::array<int, 2>, 16> kCircle{{{5, 0},
                                                      {-5, 0},
                                                      {0, 5},
                                                      {0, -5},
                                                      {4, 3},
                                                      {-4, 3},
                                                      {4, -3},
                                                      {-4, -3},
                                                      {3, 4},
                                                      {-3, 4},
                                                      {3, -4},
                                                      {-3, -4},
                                                      {5, 2},
                                                      {-5, 2},
                                                      {5, -2},
                                                      {-5, -2}}};

struct Surround {
  double mean = 0, along_x = 0, along_y = 0, rms = 0;  // [1/256 L*]
  double at(int dx, int dy) const { return mean + along_x * dx + along_y * dy; }
};

// The plane through a ring of pixels; the ring is symmetric, so its terms are found apart.
template <class At>
Surround surround_of(At at) {
  Surround surround;
  double count = 0, sum_xx = 0, squares = 0;
  for (int dy = -kOuter; dy <= kOuter; ++dy) {
    for (int dx = -kOuter; dx <= kOuter; ++dx) {
      const int distance = dx * dx + dy * dy;
      if (distance < kInner * kInner || distance > kOuter * kOuter) continue;
      const double value = at(dx, dy);
      ++count;
      sum_xx += dx * dx;
      surround.mean += value;
      surround.along_x += value * dx;
      surround.along_y += value * dy;
      squares += value * value;
    }
  }
  surround.mean /= count;
  surround.along_x /= sum_xx;
  surround.along_y /= sum_xx;
  const double planes =
      (surround.along_x * surround.along_x + surround.along_y * surround.along_y) * sum_xx / count;
  surround.rms = std::sqrt(std::max(0.0, squares / count - surround.mean * surround.mean - planes));
  return surround;
}

struct Blob {
  double diameter = 0, x = 0, y = 0;  // middle, from the starting pixel
};

// The pixels connected with the middle that keep half of the contrast; empty where they reach out
// to the circle or are not compact.
template <class Inside>
std::optional<Blob> grow(Inside inside) {
  constexpr int kSide = 2 * kRing + 1;
  std::array<bool, kSide * kSide> seen{};
  std::array<std::array<int, 2>, kSide * kSide> stack{};
  size_t depth = 0;
  const auto visit = [&](int dx, int dy) {
    bool& mark = seen[index((dy + kRing) * kSide + dx + kRing)];
    if (mark || !inside(dx, dy)) return;
    mark = true;
    stack[depth++] = {dx, dy};
  };
  visit(0, 0);
  double n = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;
  while (depth > 0) {
    const auto [dx, dy] = stack[--depth];
    if (std::max(std::abs(dx), std::abs(dy)) >= kRing) return {};
    ++n;
    x += dx;
    y += dy;
    xx += dx * dx;
    yy += dy * dy;
    xy += dx * dy;
    visit(dx + 1, dy);
    visit(dx - 1, dy);
    visit(dx, dy + 1);
    visit(dx, dy - 1);
  }
  if (n == 0) return {};
  // Second moments, with that of a pixel itself; the square root of their ratio is that of the
  // axes.
  const double a = xx / n - x * x / (n * n) + 1 / 12.0, c = yy / n - y * y / (n * n) + 1 / 12.0;
  const double b = xy / n - x * y / (n * n);
  const double half = (a + c) / 2, spread = std::hypot((a - c) / 2, b);
  if (half - spread <= 0 || half + spread > kLongest * kLongest * (half - spread)) return {};
  return Blob{2 * std::sqrt(n / 3.14159265358979), x / n, y / n};
}

}  // namespace

SpotFinder::SpotFinder(uint32_t width, uint32_t scale, double least)
    : width_(width),
      scale_(scale),
      cells_(width / kCell + 1),
      least_(least),
      raw_(width, 3),
      ring_(width, 2 * kReach + 1) {}

void SpotFinder::add_row(std::span<const int16_t> l) {
  if (width_ <= 2 * kReach + 2) return;
  const uint32_t y = rows_++;
  std::copy(l.begin(), l.end(), raw_.slot(y).begin());
  if (y < 2) return;
  smooth(y - 1);
  if (y - 1 > 2 * kReach) search(y - 1 - kReach);
}

// Means of 3 x 3 pixels: noise falls to a third.
void SpotFinder::smooth(uint32_t y) {
  const int16_t *above = raw_.row(y - 1), *here = raw_.row(y), *below = raw_.row(y + 1);
  int16_t* out = ring_.slot(y).data();
  for (uint32_t x = 1; x + 1 < width_; ++x) {
    const int sum = above[x - 1] + above[x] + above[x + 1] + here[x - 1] + here[x] + here[x + 1] +
                    below[x - 1] + below[x] + below[x + 1];
    out[x] = static_cast<int16_t>(sum * 7282 >> 16);  // a ninth; sums stay below 2^18
  }
  out[0] = out[1];
  out[width_ - 1] = out[width_ - 2];
}

// 1 where the pixel is lighter than its circle and the lightest nearby, -1 for darker, else 0.
// rows: ring rows from -kRing to kRing.
int SpotFinder::candidate(const int16_t* const* rows, uint32_t x) const {
  const int value = rows[kRing][x];
  const int sign = value > rows[kRing][x - kRing] ? 1 : -1;
  for (const auto& point : kCircle) {
    if ((value - rows[kRing + point[1]][static_cast<int>(x) + point[0]]) * sign < kStandOut)
      return 0;
  }
  for (int dy = -2; dy <= 2; ++dy) {
    for (int dx = -2; dx <= 2; ++dx) {
      const int ahead = (rows[kRing + dy][static_cast<int>(x) + dx] - value) * sign;
      const bool later = dy > 0 || (dy == 0 && dx > 0);  // of two equal ones the first counts
      if (ahead > 0 || (ahead == 0 && !later && (dx != 0 || dy != 0))) return 0;
    }
  }
  return sign;
}

void SpotFinder::search(uint32_t y) {
  const int16_t* rows[2 * kRing + 1];
  for (uint32_t i = 0; i <= 2 * kRing; ++i) rows[i] = ring_.row(y + i - kRing);
  const size_t row_cells = size_t{y / kCell} * cells_;
  if (points_.size() < row_cells + cells_) points_.resize(row_cells + cells_);
  const int16_t *here = rows[kRing], *up = rows[0], *down = rows[2 * kRing];
  for (uint32_t x = kReach + 1; x + kReach + 1 < width_; ++x) {
    const int value = here[x];
    const int a = value - up[x], b = value - down[x];
    // Most pixels end here: not both a whole step above, or both below.
    if (!((a >= kStandOut && b >= kStandOut) || (a <= -kStandOut && b <= -kStandOut))) continue;
    const int sign = candidate(rows, x);
    if (sign == 0) continue;
    uint16_t& points = points_[row_cells + x / kCell];
    if (points < UINT16_MAX) ++points;
    if (points <= kMostPoints && found_.size() < kMostFound) verify(x, y, sign);
  }
}

void SpotFinder::verify(uint32_t x, uint32_t y, int sign) {
  const auto at = [&](int dx, int dy) {
    return ring_.row(static_cast<uint32_t>(static_cast<int>(y) + dy))[static_cast<int>(x) + dx];
  };
  const Surround surround = surround_of(at);
  const double contrast = (at(0, 0) - surround.mean) / kUnit;
  if (contrast * sign < kLeastContrast) return;
  if (sign > 0 && (contrast > kMostLight || surround.mean < kDarkGround * kUnit)) return;
  const double rough = sign > 0 ? kRoughLight : kRoughDark;
  if (surround.rms > rough * std::abs(contrast) * kUnit) return;
  const double half = std::abs(contrast) * kUnit / 2;
  const auto blob =
      grow([&](int dx, int dy) { return (at(dx, dy) - surround.at(dx, dy)) * sign >= half; });
  if (!blob || blob->diameter < kSmallest || blob->diameter > kLargest) return;
  // The means over pixels and over 3 x 3 of them widen a soft spot: their variance, 3/4 of a pixel
  // squared, is taken off as for a bell curve (full width at half height = 2.3548 sigma).
  const double diameter = std::sqrt(std::max(0.25, blob->diameter * blob->diameter - 4.16));
  if (diameter * scale_ < least_) return;
  const uint32_t cell = y / kCell * cells_ + x / kCell;
  found_.push_back({{x + blob->x, y + blob->y, diameter, contrast}, cell});
}

uint32_t SpotFinder::points_near(uint32_t cell) const {
  uint32_t points = 0;
  const uint32_t column = cell % cells_, row = cell / cells_;
  for (uint32_t r = row > 0 ? row - 1 : 0; r <= row + 1; ++r) {
    for (uint32_t c = column > 0 ? column - 1 : 0; c <= std::min(column + 1, cells_ - 1); ++c) {
      const size_t at = size_t{r} * cells_ + c;
      if (at < points_.size()) points += points_[at];
    }
  }
  return points;
}

std::vector<Spot> SpotFinder::spots() const {
  std::vector<Spot> spots;
  for (const Found& found : found_) {
    if (points_near(found.cell) > kMostPoints) continue;
    Spot spot = found.spot;
    spot.x = (spot.x + 0.5) * scale_;
    spot.y = (spot.y + 0.5) * scale_;
    spot.diameter *= scale_;
    spots.push_back(spot);
  }
  return spots;
}

DustFinder::DustFinder(uint32_t width, double dust_px) {
  // The smallest spot that counts is three pixels across in the first size.
  auto factor = static_cast<uint32_t>(std::clamp(std::lround(dust_px / 3), 1L, 64L));
  uint32_t scale = 1, across = width;
  for (uint32_t i = 0; i < kSizes; ++i) {
    RowShrinker shrinker(across, factor);
    across = shrinker.width();
    scale *= factor;
    sizes_.push_back({std::move(shrinker), SpotFinder(across, scale, 0.75 * dust_px)});
    factor = 2;
  }
}

void DustFinder::add_row(std::span<const int16_t> l) {
  for (Size& size : sizes_) {
    if (!size.shrinker.add(l)) return;
    l = size.shrinker.row();
    size.finder.add_row(l);
  }
}

std::vector<Spot> DustFinder::spots() const {
  std::vector<Spot> all;
  for (const Size& size : sizes_) {
    const auto more = size.finder.spots();
    all.insert(all.end(), more.begin(), more.end());
  }
  std::stable_sort(all.begin(), all.end(), [](const Spot& a, const Spot& b) {
    return std::abs(a.contrast) > std::abs(b.contrast);
  });
  std::vector<Spot> told;
  for (const Spot& spot : all) {
    const bool again = std::any_of(told.begin(), told.end(), [&](const Spot& other) {
      return std::hypot(spot.x - other.x, spot.y - other.y) <
             std::max(spot.diameter, other.diameter);
    });
    if (!again) told.push_back(spot);
    if (told.size() == kMostSpots) break;
  }
  return told;
}

}  // namespace proofleaf::condition
