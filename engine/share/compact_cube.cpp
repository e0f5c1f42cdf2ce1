#include "share/compact_cube.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "proof/cube_build.h"

namespace proofleaf {
namespace {

constexpr int kRounds = 60;
constexpr float kWorstWeight = 24;  // of a colour far off, at most, to that of one near
constexpr int32_t kLargestStep = 2048;

// The four nodes a colour lies between, and how much of each.
struct Corner {
  std::array<uint32_t, 4> node;
  std::array<float, 4> weight;
};

Corner corner_of(const uint8_t* rgb, uint32_t grid) {
  const std::array<uint32_t, 3> stride{grid * grid, grid, 1};
  std::array<float, 3> rest{};
  uint32_t node = 0;
  for (size_t c = 0; c < 3; ++c) {
    // A code 255 is the last node itself: the cell before it, all the way.
    const uint32_t scaled = rgb[c] * (grid - 1);
    const uint32_t cell = std::min(scaled / 255, grid - 2);
    rest[c] = static_cast<float>(scaled - cell * 255) / 255;
    node += cell * stride[c];
  }
  std::array<size_t, 3> order{0, 1, 2};
  std::sort(order.begin(), order.end(), [&](size_t p, size_t q) { return rest[p] > rest[q]; });
  Corner corner{};
  corner.node[0] = node;
  corner.weight[0] = 1 - rest[order[0]];
  for (size_t i = 0; i < 3; ++i) {
    corner.node[i + 1] = node += stride[order[i]];
    corner.weight[i + 1] = rest[order[i]] - (i < 2 ? rest[order[i + 1]] : 0);
  }
  return corner;
}

size_t nodes_in(uint32_t grid) { return size_t{grid} * grid * grid; }

// Level 0..255 of a node in each channel.
std::array<double, 3> level_of(size_t node, uint32_t grid) {
  const double unit = 255.0 / (grid - 1);
  const size_t red = node / grid / grid, green = node / grid % grid, blue = node % grid;
  return {unit * double(red), unit * double(green), unit * double(blue)};
}

// Visits nodes in order with what is foretold of them from their lower neighbours: the mean of
// those in use, of any where none is.
template <class Visit>
void each_foretold(const NodeSet& set, const std::vector<int32_t>& values, const Visit& visit) {
  const uint32_t grid = set.grid;
  const std::array<size_t, 3> stride{size_t{grid} * grid, grid, 1};
  for (size_t node = 0; node < set.used.size(); ++node) {
    int32_t used_sum = 0, used = 0, sum = 0, count = 0;
    for (const size_t step : stride) {
      if (node / step % grid == 0) continue;
      const size_t before = node - step;
      sum += values[before];
      ++count;
      if (set.used[before] == 0) continue;
      used_sum += values[before];
      ++used;
    }
    visit(node, used > 0 ? used_sum / used : count > 0 ? sum / count : 0);
  }
}

}  // namespace

ColourCounts count_colours(std::span<const uint8_t> rgb) {
  std::vector<uint32_t> keys(rgb.size() / 3);
  for (size_t i = 0; i < keys.size(); ++i)
    keys[i] = uint32_t{rgb[i * 3]} << 16 | uint32_t{rgb[i * 3 + 1]} << 8 | rgb[i * 3 + 2];
  std::sort(keys.begin(), keys.end());
  ColourCounts found;
  for (size_t i = 0; i < keys.size(); ++i) {
    if (i > 0 && keys[i] == keys[i - 1]) {
      ++found.pixels.back();
      continue;
    }
    for (const int shift : {16, 8, 0}) found.rgb.push_back(static_cast<uint8_t>(keys[i] >> shift));
    found.pixels.push_back(1);
  }
  return found;
}

NodeSet nodes_between(std::span<const uint8_t> rgb, uint32_t grid) {
  NodeSet set{grid, std::vector<uint8_t>(nodes_in(grid), 0)};
  for (size_t i = 0; i + 2 < rgb.size(); i += 3) {
    const Corner corner = corner_of(&rgb[i], grid);
    for (size_t k = 0; k < 4; ++k)
      if (corner.weight[k] > 0) set.used[corner.node[k]] = 1;
  }
  return set;
}

std::vector<float> node_colours(uint32_t grid) {
  std::vector<float> rgb;
  rgb.reserve(nodes_in(grid) * 3);
  for (size_t node = 0; node < nodes_in(grid); ++node)
    for (const double level : level_of(node, grid)) rgb.push_back(static_cast<float>(level / 255));
  return rgb;
}

CompactNodes fit_nodes(const NodeSet& set, const ColourCounts& colours,
                       std::span<const float> screen, std::span<const float> start) {
  std::vector<Corner> corners(colours.pixels.size());
  std::vector<float> weight(corners.size());
  for (size_t i = 0; i < corners.size(); ++i) {
    corners[i] = corner_of(&colours.rgb[i * 3], set.grid);
    weight[i] = std::sqrt(static_cast<float>(colours.pixels[i]));
  }
  std::vector<float> values(start.begin(), start.end());
  std::vector<float> pull(values.size()), pulled(set.used.size());
  for (int round = 0; round < kRounds; ++round) {
    std::fill(pull.begin(), pull.end(), 0.0f);
    std::fill(pulled.begin(), pulled.end(), 0.0f);
    for (size_t i = 0; i < corners.size(); ++i) {
      const Corner& corner = corners[i];
      std::array<float, 3> off{};
      float most = 0;
      for (size_t c = 0; c < 3; ++c) {
        off[c] = screen[i * 3 + c];
        for (size_t k = 0; k < 4; ++k)
          off[c] -= corner.weight[k] * values[size_t{corner.node[k]} * 3 + c];
        most = std::max(most, std::abs(off[c]));
      }
      const float strength = weight[i] * std::min(kWorstWeight, 1 + most * 255 / 2);
      for (size_t k = 0; k < 4; ++k) {
        const float share = strength * corner.weight[k];
        const size_t node = corner.node[k];
        pulled[node] += share;
        for (size_t c = 0; c < 3; ++c) pull[node * 3 + c] += share * off[c];
      }
    }
    for (size_t node = 0; node < pulled.size(); ++node)
      if (pulled[node] > 0)
        for (size_t c = 0; c < 3; ++c)
          values[node * 3 + c] += 1.5f * pull[node * 3 + c] / pulled[node];
  }
  CompactNodes nodes(values.size(), 0);
  for (size_t node = 0; node < set.used.size(); ++node) {
    if (set.used[node] == 0) continue;
    const auto level = level_of(node, set.grid);
    for (size_t c = 0; c < 3; ++c) {
      const double steps = (255.0 * double(values[node * 3 + c]) - level[c]) / kCompactStep;
      nodes[node * 3 + c] = static_cast<int16_t>(
          std::lround(std::clamp(steps, -double(kLargestStep), double(kLargestStep))));
    }
  }
  return nodes;
}

Cube cube_of(const NodeSet& set, const CompactNodes& nodes) {
  Cube cube;
  cube.grid = set.grid;
  cube.lanes = 4;
  cube.shaper.resize(kCodes);
  std::iota(cube.shaper.begin(), cube.shaper.end(), uint16_t{0});
  cube.nodes.resize(set.used.size() * 4);
  for (size_t node = 0; node < set.used.size(); ++node) {
    const auto level = level_of(node, set.grid);
    for (size_t c = 0; c < 3; ++c)
      cube.nodes[node * 4 + c] =
          node_code(128 * (level[c] + kCompactStep * nodes[node * 3 + c] + 128));
    cube.nodes[node * 4 + 3] = node_code(128 * 128);
  }
  return cube;
}

void pack_node_set(const NodeSet& set, Packer& into) {
  into.number(set.grid);
  for (size_t i = 0; i < set.used.size(); i += 8) {
    uint8_t byte = 0;
    for (size_t bit = 0; bit < 8 && i + bit < set.used.size(); ++bit)
      byte = static_cast<uint8_t>(byte | set.used[i + bit] << bit);
    into.byte(byte);
  }
}

NodeSet unpack_node_set(Unpacker& from) {
  NodeSet set{from.number(kMostCompactGrid), {}};
  if (set.grid < 2) {
    from.spoil();
    return {};
  }
  const size_t count = nodes_in(set.grid);
  const ByteView bits = from.raw((count + 7) / 8);
  set.used.assign(count, 0);
  if (bits.empty()) return {};
  for (size_t i = 0; i < count; ++i) set.used[i] = bits[i / 8] >> i % 8 & 1;
  return set;
}

void pack_nodes(const NodeSet& set, const CompactNodes& nodes, Packer& into) {
  std::vector<int32_t> values(set.used.size());
  for (size_t c = 0; c < 3; ++c) {
    each_foretold(set, values, [&](size_t node, int32_t foretold) {
      values[node] = foretold;
      if (set.used[node] == 0) return;
      values[node] = nodes[node * 3 + c];
      into.signed_number(values[node] - foretold);
    });
  }
}

CompactNodes unpack_nodes(const NodeSet& set, Unpacker& from) {
  CompactNodes nodes(set.used.size() * 3);
  std::vector<int32_t> values(set.used.size());
  for (size_t c = 0; c < 3; ++c) {
    each_foretold(set, values, [&](size_t node, int32_t foretold) {
      values[node] = foretold;
      if (set.used[node] != 0) values[node] += from.signed_number(2 * kLargestStep);
      if (std::abs(values[node]) > kLargestStep) {
        from.spoil();
        values[node] = 0;
      }
      nodes[node * 3 + c] = static_cast<int16_t>(values[node]);
    });
  }
  return nodes;
}

}  // namespace proofleaf
