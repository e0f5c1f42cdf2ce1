#include "returned/even.h"

#include <algorithm>
#include <cmath>

#include "returned/solve_small.h"

namespace proofleaf::returned {
namespace {

constexpr uint32_t kCells = 120;  // along the longer side
constexpr double kFloor = 0.004;  // [Y] that keeps the logarithm calm near black
constexpr float kBlown = 0.02f;   // share of clipped pixels that spoils a cell
constexpr size_t kFall = 5, kKnots = 11, kAll = kFall + kKnots;

struct Cell {
  std::array<double, kFall> place;
  double log_y, l, weight;
};

std::array<double, kFall> terms(double u, double v) {
  const double x = u - 0.5, y = v - 0.5;
  return {x, y, x * x, x * y, y * y};
}

double log_light(double y) { return std::log(std::max(y, 0.0) + kFloor); }

// Means over whole cells; what lies partly outside, is blown out or full of contrast counts less or
// not at all, since an edge's mean says little of its tone.
std::vector<Cell> cells_of(const Laid& laid, const Promise& promise) {
  const double longer = std::max(promise.l.width, promise.l.height);
  const auto side = [&](uint32_t s) {
    return std::max(4u, uint32_t(std::lround(kCells * s / longer)));
  };
  const uint32_t w = side(promise.l.width), h = side(promise.l.height);
  Plane outside(promise.l.width, promise.l.height), square = promise.l;
  for (size_t i = 0; i < outside.values.size(); ++i) {
    outside.values[i] = laid.outside(i) ? 1.f : 0.f;
    square.values[i] *= square.values[i];
  }
  const Plane y = shrunk(laid.xyz[1], w, h), l = shrunk(promise.l, w, h), l2 = shrunk(square, w, h),
              gone = shrunk(outside, w, h), blown = shrunk(laid.clipped, w, h);
  std::vector<Cell> cells;
  for (uint32_t cy = 0; cy < y.height; ++cy) {
    for (uint32_t cx = 0; cx < y.width; ++cx) {
      const double spread =
          std::max(0.0, double(l2.at(cx, cy)) - double(l.at(cx, cy)) * l.at(cx, cy));
      if (gone.at(cx, cy) > 0 || blown.at(cx, cy) > kBlown) continue;
      cells.push_back({terms((cx + 0.5) / w, (cy + 0.5) / h), log_light(y.at(cx, cy)),
                       std::clamp<double>(l.at(cx, cy), 0, 100), 1 / (1 + spread / 4)});
    }
  }
  return cells;
}

std::array<double, kAll> row_of(const Cell& cell) {
  std::array<double, kAll> row{};
  std::copy(cell.place.begin(), cell.place.end(), row.begin());
  const double at = std::min(cell.l / 10, 9.9999);
  const auto knot = static_cast<size_t>(at);
  row[kFall + knot] = 1 - (at - double(knot));
  row[kFall + knot + 1] = at - double(knot);
  return row;
}

double predicted(const std::array<double, kAll>& x, const Cell& cell) {
  const auto row = row_of(cell);
  double sum = 0;
  for (size_t i = 0; i < kAll; ++i) sum += row[i] * x[i];
  return sum;
}

std::array<double, kAll> solved(const std::vector<Cell>& cells, const std::vector<double>& trust) {
  std::array<double, kAll * kAll> a{};
  std::array<double, kAll> b{};
  const auto add = [&](const std::array<double, kAll>& row, double value, double weight) {
    for (size_t r = 0; r < kAll; ++r) {
      if (row[r] == 0) continue;
      b[r] += weight * row[r] * value;
      for (size_t c = 0; c < kAll; ++c) a[r * kAll + c] += weight * row[r] * row[c];
    }
  };
  for (size_t i = 0; i < cells.size(); ++i) {
    add(row_of(cells[i]), cells[i].log_y, cells[i].weight * trust[i]);
  }
  // Knots without cells follow their neighbours in a straight line; a fall needs some proof.
  const double all = double(cells.size());
  for (size_t k = 1; k + 1 < kKnots; ++k) {
    std::array<double, kAll> row{};
    row[kFall + k - 1] = row[kFall + k + 1] = 1;
    row[kFall + k] = -2;
    add(row, 0, all * 1e-3);
  }
  for (size_t k = 0; k < kFall; ++k) {
    std::array<double, kAll> row{};
    row[k] = 1;
    add(row, 0, all * 1e-4);
  }
  for (size_t k = 0; k < kKnots; ++k) a[(kFall + k) * kAll + kFall + k] += 1e-9 * all;
  return solve_small<kAll>(a, b) ? b : std::array<double, kAll>{};
}

constexpr double kBradford[9] = {0.8951, 0.2664, -0.1614, -0.7502, 1.7135,
                                 0.0367, 0.0389, -0.0685, 1.0296};

std::array<double, 3> times(const double* m, const std::array<double, 3>& v) {
  return {m[0] * v[0] + m[1] * v[1] + m[2] * v[2], m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
          m[6] * v[0] + m[7] * v[1] + m[8] * v[2]};
}

Lab promised(const Promise& promise, size_t i) {
  return {promise.l.values[i], promise.a.values[i], promise.b.values[i]};
}

XYZ medians(std::array<std::vector<float>, 3>& values) {
  return {median_of(values[0]), median_of(values[1]), median_of(values[2])};
}

}  // namespace

double Fall::at(double u, double v) const {
  const auto t = terms(u, v);
  double sum = 0;
  for (size_t i = 0; i < kFall; ++i) sum += of[i] * t[i];
  return sum;
}

double Fall::darkest() const {
  double least = 1e9, most = -1e9;
  for (int y = 0; y <= 10; ++y) {
    for (int x = 0; x <= 10; ++x) {
      const double value = at(x / 10.0, y / 10.0);
      least = std::min(least, value);
      most = std::max(most, value);
    }
  }
  return std::exp(least - most);
}

Result<Evened> even_out(const Laid& laid, const Promise& promise) {
  constexpr size_t kLeast = 200;
  const std::vector<Cell> cells = cells_of(laid, promise);
  if (cells.size() < kLeast) return Error{"Too little of the print lies in this photo to compare."};
  std::vector<double> trust(cells.size(), 1);
  std::array<double, kAll> x{};
  Evened evened;
  for (int turn = 0; turn < 6; ++turn) {
    x = solved(cells, trust);
    std::vector<float> off(cells.size());
    for (size_t i = 0; i < cells.size(); ++i) {
      off[i] = static_cast<float>(std::abs(cells[i].log_y - predicted(x, cells[i])));
    }
    std::vector<float> sorted = off;
    evened.off = std::max(0.005, 1.4826 * median_of(sorted));
    for (size_t i = 0; i < cells.size(); ++i) {
      trust[i] = std::min(1.0, 1.5 * evened.off / std::max(1e-6, double(off[i])));
    }
  }
  std::copy(x.begin(), x.begin() + kFall, evened.fall.of.begin());
  std::copy(x.begin() + kFall, x.end(), evened.curve.begin());
  return evened;
}

void apply(const Fall& fall, Laid& laid) {
  const uint32_t w = laid.xyz[1].width, h = laid.xyz[1].height;
  for (uint32_t y = 0; y < h; ++y) {
    for (uint32_t x = 0; x < w; ++x) {
      const size_t i = size_t{y} * w + x;
      if (laid.outside(i)) continue;
      const auto gain = static_cast<float>(std::exp(-fall.at((x + 0.5) / w, (y + 0.5) / h)));
      for (Plane& plane : laid.xyz) plane.values[i] *= gain;
    }
  }
}

std::optional<White> border_white(const Laid& laid, const Promise& promise) {
  const uint32_t w = promise.l.width, h = promise.l.height;
  const double wide = promise.left * w, high = promise.top * h;
  if (std::min(wide, high) < 5) return std::nullopt;
  std::array<std::array<std::vector<float>, 3>, 4> sides;
  std::array<std::vector<float>, 3> all;
  size_t seen = 0, blown = 0;
  for (uint32_t y = 0; y < h; ++y) {
    for (uint32_t x = 0; x < w; ++x) {
      // Not the outer third, where a cut or a curl would show, nor the picture's rim.
      const double left = (x + 0.5) / wide, top = (y + 0.5) / high;
      const double right = (w - x - 0.5) / wide, bottom = (h - y - 0.5) / high;
      const double least = std::min({left, top, right, bottom});
      if (least < 0.35 || least > 0.85) continue;
      const size_t i = size_t{y} * w + x;
      if (laid.outside(i) || promise.l.values[i] < 99) continue;
      ++seen;
      blown += laid.clipped.values[i] > 0.5f ? 1 : 0;
      const size_t side = least == left ? 0 : least == top ? 1 : least == right ? 2 : 3;
      for (size_t c = 0; c < 3; ++c) {
        sides[side][c].push_back(laid.xyz[c].values[i]);
        all[c].push_back(laid.xyz[c].values[i]);
      }
    }
  }
  constexpr size_t kLeast = 100;
  if (seen < kLeast || blown * 5 > seen) return std::nullopt;  // blown out: no colour is left
  White white{WhiteFrom::border, medians(all), 0};
  if (!(white.seen.x > 0.01 && white.seen.y > 0.01 && white.seen.z > 0.01)) return std::nullopt;
  for (auto& side : sides) {
    if (side[0].size() < kLeast / 4) continue;
    const XYZ own = medians(side);
    const double k = own.y > 0 ? white.seen.y / own.y : 1;  // colour alone
    const Lab off =
        lab_from_xyz({own.x * k / white.seen.x * kD50.x, 1, own.z * k / white.seen.z * kD50.z});
    white.uneven = std::max(white.uneven, std::hypot(off.a, off.b));
  }
  return white;
}

White neutral_white(const XYZ& place, const Promise& promise, const Evened& evened) {
  // The level is the curve's at paper white; the colour is the place's, beside the paper's own.
  const XYZ paper = xyz_from_lab(promise.paper_white);
  const double level = std::max(0.01, std::exp(evened.curve[kKnots - 1]) - kFloor);
  White white{WhiteFrom::neutral, {}, 0};
  white.seen = {place.x / kD50.x * paper.x, place.y / kD50.y * paper.y, place.z / kD50.z * paper.z};
  const double scale = level / std::max(1e-6, white.seen.y);
  white.seen = {white.seen.x * scale, level, white.seen.z * scale};
  return white;
}

White fitted_white(const Laid& laid, const Promise& promise) {
  std::array<std::vector<float>, 3> ratios;
  for (size_t i = 0; i < promise.l.values.size(); i += 7) {
    if (laid.outside(i) || laid.clipped.values[i] > 0 || promise.l.values[i] < 15) continue;
    const XYZ own = xyz_from_lab(promised(promise, i));
    const double aim[3] = {own.x / kD50.x, own.y, own.z / kD50.z};
    for (size_t c = 0; c < 3; ++c) {
      ratios[c].push_back(static_cast<float>(laid.xyz[c].values[i] / std::max(1e-4, aim[c])));
    }
  }
  White white{WhiteFrom::none, medians(ratios), 0};
  for (double* part : {&white.seen.x, &white.seen.y, &white.seen.z}) *part = std::max(*part, 0.01);
  return white;
}

Seen seen_under(const White& white, const Laid& laid) {
  const std::array<double, 3> from = times(kBradford, {white.seen.x, white.seen.y, white.seen.z}),
                              to = times(kBradford, {kD50.x, kD50.y, kD50.z});
  std::array<double, 9> back{};
  for (size_t c = 0; c < 3; ++c) {  // the inverse, column by column
    std::array<double, 9> m{};
    std::copy(std::begin(kBradford), std::end(kBradford), m.begin());
    std::array<double, 3> unit{};
    unit[c] = 1;
    solve_small<3>(m, unit);
    for (size_t r = 0; r < 3; ++r) back[r * 3 + c] = unit[r];
  }
  std::array<double, 9> matrix{};
  for (size_t r = 0; r < 3; ++r) {
    for (size_t c = 0; c < 3; ++c) {
      for (size_t k = 0; k < 3; ++k) {
        matrix[r * 3 + c] +=
            back[r * 3 + k] * to[k] / std::max(1e-6, from[k]) * kBradford[k * 3 + c];
      }
    }
  }
  const uint32_t w = laid.xyz[1].width, h = laid.xyz[1].height;
  Seen seen{Plane(w, h, -1), Plane(w, h), Plane(w, h)};
  for (size_t i = 0; i < seen.l.values.size(); ++i) {
    if (laid.outside(i)) continue;
    const auto v =
        times(matrix.data(), {laid.xyz[0].values[i], laid.xyz[1].values[i], laid.xyz[2].values[i]});
    const Lab lab = lab_from_xyz({v[0], v[1], v[2]});
    seen.l.values[i] = static_cast<float>(std::clamp(lab.l, 0.0, 130.0));
    seen.a.values[i] = static_cast<float>(lab.a);
    seen.b.values[i] = static_cast<float>(lab.b);
  }
  return seen;
}

}  // namespace proofleaf::returned
