#include "proof/cube.h"

#include <algorithm>
#include <cmath>

#include "proof/cube_build.h"

namespace proofleaf {
namespace {

constexpr uint32_t kHalvedAbove = 33;

bool buildable(uint32_t grid) { return grid >= 2 && grid <= kLargestGrid; }
Error not_buildable() { return Error{"A proof cube of that size cannot be built."}; }

// The RGB of the grid^2 colours of one plane.
void plane_colours(const std::vector<float>& levels, uint32_t red, std::vector<float>& rgb) {
  const size_t grid = levels.size();
  rgb.resize(grid * grid * 3);
  for (size_t i = 0; i < grid * grid; ++i) {
    rgb[i * 3] = levels[red];
    rgb[i * 3 + 1] = levels[i / grid];
    rgb[i * 3 + 2] = levels[i % grid];
  }
}

// The fourth lane of a node that is so far off the gamut.
int16_t mark_code(double delta_e) { return node_code(128 * (10 * delta_e + 128)); }

int16_t* plane_of(Cube& cube, uint32_t red) {
  return cube.nodes.data() + size_t{red} * cube.grid * cube.grid * 4;
}

// fill(red, the plane's colours), for each plane of the cube. Error: stopped.
template <class Fill>
Status fill_planes(const Cube& cube, const Watch& watch, Fill fill) {
  const std::vector<float> levels = node_levels(cube.shaper, cube.grid);
  std::vector<float> rgb;
  for (uint32_t red = 0; red < cube.grid; ++red) {
    if (!keep_going(watch, double(red) / cube.grid)) return stopped();
    plane_colours(levels, red, rgb);
    fill(red, rgb);
  }
  return done();
}

// One plane of distances off the gamut; with `halved` only even rows and columns are asked for.
void off_gamut_plane(const ProofChain& chain, const std::vector<float>& rgb, uint32_t grid,
                     bool halved, std::vector<float>& off) {
  if (!halved) return chain.off_gamut(rgb, off);
  const size_t side = (grid + 1) / 2;
  std::vector<float> some(side * side * 3), found(side * side);
  for (size_t i = 0; i < found.size(); ++i) {
    const size_t at = (i / side * 2) * grid + i % side * 2;
    std::copy_n(&rgb[at * 3], 3, &some[i * 3]);
  }
  chain.off_gamut(some, found);
  for (size_t i = 0; i < off.size(); ++i) {
    const size_t row = i / grid, column = i % grid;
    const size_t r0 = row / 2, r1 = (row + 1) / 2, c0 = column / 2, c1 = (column + 1) / 2;
    off[i] = (found[r0 * side + c0] + found[r0 * side + c1] + found[r1 * side + c0] +
              found[r1 * side + c1]) /
             4;
  }
}

// The fourth lane of every odd plane as the mean of the planes beside it.
void fill_odd_planes(Cube& cube) {
  const size_t plane = size_t{cube.grid} * cube.grid * 4;
  for (size_t red = 1; red < cube.grid; red += 2) {
    int16_t* here = cube.nodes.data() + red * plane;
    for (size_t i = 3; i < plane; i += 4) {
      here[i] = static_cast<int16_t>((*(here + i - plane) + *(here + i + plane)) / 2);
    }
  }
}

}  // namespace

std::vector<uint16_t> shaper_from(std::vector<float> l) {
  constexpr float kOfCode = 0.1f;
  float highest = 0;
  for (float& value : l) value = highest = std::clamp(value, highest, 100.0f);
  const float first = l.front(), range = std::max(1.0f, l.back() - first);
  std::vector<uint16_t> shaper(kCodes);
  for (size_t code = 0; code < kCodes; ++code) {
    const float level = static_cast<float>(code) / (kCodes - 1);
    const float at = level * (kShaperLevels - 1);
    const size_t i = std::min(static_cast<size_t>(at), kShaperLevels - 2);
    const float between = at - static_cast<float>(i);
    const float lightness = ((l[i] + (l[i + 1] - l[i]) * between) - first) / range;
    const float position = (1 - kOfCode) * lightness + kOfCode * level;
    shaper[code] = static_cast<uint16_t>(std::lround(position * 65535));
  }
  shaper.back() = 65535;
  return shaper;
}

Cube empty_cube(const ProofChain& chain, uint32_t grid, uint32_t lanes) {
  std::vector<float> levels(kShaperLevels), l(kShaperLevels);
  for (size_t i = 0; i < kShaperLevels; ++i) {
    levels[i] = static_cast<float>(i) / (kShaperLevels - 1);
  }
  chain.lightness(levels, l);
  Cube cube{grid, lanes, shaper_from(std::move(l)), {}, {}, {}};
  cube.nodes.assign(size_t{grid} * grid * grid * 4, 0);
  return cube;
}

std::vector<float> node_levels(const std::vector<uint16_t>& shaper, uint32_t grid) {
  std::vector<float> levels(grid);
  for (uint32_t node = 0; node < grid; ++node) {
    levels[node] = level_at(shaper, 65535.0 * node / (grid - 1));
  }
  return levels;
}

float level_at(const std::vector<uint16_t>& shaper, double position) {
  if (position <= shaper.front()) return 0;
  if (position >= 65535) return 1;
  const auto at = std::lower_bound(shaper.begin(), shaper.end(), position);
  const auto hi = static_cast<size_t>(at - shaper.begin()), lo = hi - 1;
  const double between = (position - shaper[lo]) / (double(shaper[hi]) - shaper[lo]);
  return static_cast<float>((double(lo) + between) / (kCodes - 1));
}

int16_t node_code(double code) {
  return static_cast<int16_t>(std::lround(std::clamp(code, 0.0, 65535.0)) - 32768);
}

void put_screen_lanes(const std::vector<float>& screen, int16_t* nodes) {
  for (size_t i = 0; i < screen.size() / 3; ++i) {
    for (size_t c = 0; c < 3; ++c) {
      nodes[i * 4 + c] = node_code(128 * (255.0 * screen[i * 3 + c] + 128));
    }
  }
}

Result<Cube> build_master_cube(const ProofChain& to_screen, uint32_t grid, const Watch& watch) {
  if (!buildable(grid) || to_screen.device_channels() != 3) return not_buildable();
  Cube cube = empty_cube(to_screen, grid, 4);
  std::vector<float> screen(size_t{grid} * grid * 3);
  const auto filled = fill_planes(cube, watch, [&](uint32_t red, const std::vector<float>& rgb) {
    to_screen.to_device(rgb, screen);
    put_screen_lanes(screen, plane_of(cube, red));
  });
  if (!filled) return filled.error();
  for (size_t i = 3; i < cube.nodes.size(); i += 4) cube.nodes[i] = mark_code(0);
  return cube;
}

Result<Cube> build_screen_cube(const ProofChain& chain, uint32_t grid, const Watch& watch) {
  if (!buildable(grid)) return not_buildable();
  Cube cube = empty_cube(chain, grid, 4);
  std::vector<float> screen(size_t{grid} * grid * 3), off(size_t{grid} * grid);
  // The fourth lane only marks the picture: on fine cubes every second node is enough, and the
  // rest are means of their neighbours.
  const bool halved = grid > kHalvedAbove && grid % 2 == 1;
  const auto filled = fill_planes(cube, watch, [&](uint32_t red, const std::vector<float>& rgb) {
    int16_t* nodes = plane_of(cube, red);
    chain.to_screen(rgb, screen);
    put_screen_lanes(screen, nodes);
    if (red % 2 == 1 && halved) return;
    off_gamut_plane(chain, rgb, grid, halved, off);
    for (size_t i = 0; i < off.size(); ++i) nodes[i * 4 + 3] = mark_code(off[i]);
  });
  if (!filled) return filled.error();
  if (halved) fill_odd_planes(cube);
  return cube;
}

}  // namespace proofleaf
