// Finer nodes where a picture has its colours.
//
// A profile with 8-bit tables is a staircase finer than any cube that is worth building whole, but
// a picture uses only a small part of the cube, and there 321 nodes along each side are affordable.
#include <algorithm>
#include <array>
#include <numeric>

#include "proof/cube_build.h"

namespace proofleaf {
namespace {

constexpr size_t kBlockCount = size_t{kBlocks} * kBlocks * kBlocks;
constexpr size_t kNodesInBlock = size_t{kBlockNodes} * kBlockNodes * kBlockNodes;
constexpr uint32_t kFineCells = kBlocks * kBlockCells;

// As the kernel counts.
uint32_t block_along(uint16_t position) { return position / (65536 / kBlocks); }

// The colours of one block's nodes as levels 0..1.
void block_colours(const Cube& cube, size_t block, std::vector<float>& rgb) {
  const std::array<size_t, 3> along{block / (kBlocks * kBlocks), block / kBlocks % kBlocks,
                                    block % kBlocks};
  std::array<std::array<float, kBlockNodes>, 3> levels{};
  for (size_t axis = 0; axis < 3; ++axis) {
    for (uint32_t i = 0; i < kBlockNodes; ++i) {
      levels[axis][i] =
          level_at(cube.shaper, 65535.0 * double(along[axis] * kBlockCells + i) / kFineCells);
    }
  }
  for (size_t i = 0; i < kNodesInBlock; ++i) {
    rgb[i * 3] = levels[0][i / (kBlockNodes * kBlockNodes)];
    rgb[i * 3 + 1] = levels[1][i / kBlockNodes % kBlockNodes];
    rgb[i * 3 + 2] = levels[2][i % kBlockNodes];
  }
}

// The fourth lane comes from the cube's own nodes: it only marks the picture.
void copy_mark_lane(const Cube& cube, const std::vector<float>& rgb, int16_t* nodes) {
  std::vector<uint16_t> codes(rgb.size()), lanes(rgb.size() / 3 * 4);
  std::transform(rgb.begin(), rgb.end(), codes.begin(),
                 [](float v) { return static_cast<uint16_t>(v * 65535 + 0.5f); });
  apply_cube(cube, codes, lanes);
  for (size_t i = 3; i < lanes.size(); i += 4) nodes[i] = static_cast<int16_t>(lanes[i] - 32768);
}

}  // namespace

std::vector<uint8_t> blocks_used(const Cube& cube, std::span<const uint16_t> rgb) {
  std::vector<uint32_t> pixels(kBlockCount, 0);
  for (size_t i = 0; i + 3 <= rgb.size(); i += 3) {
    const uint32_t r = block_along(cube.shaper[rgb[i]]), g = block_along(cube.shaper[rgb[i + 1]]),
                   b = block_along(cube.shaper[rgb[i + 2]]);
    ++pixels[(r * kBlocks + g) * kBlocks + b];
  }
  std::vector<uint32_t> order(kBlockCount);
  std::iota(order.begin(), order.end(), 0u);
  const auto last = order.begin() + kMostFineBlocks;
  std::partial_sort(order.begin(), last, order.end(),
                    [&](uint32_t a, uint32_t b) { return pixels[a] > pixels[b]; });
  std::vector<uint8_t> used(kBlockCount, 0);
  for (auto block = order.begin(); block != last; ++block) used[*block] = pixels[*block] > 0;
  return used;
}

Status refine_screen_cube(const ProofChain& chain, std::span<const uint8_t> used, Cube& cube,
                          const Watch& watch) {
  if (used.size() != kBlockCount) return Error{"The list of the picture's colours is damaged."};
  std::vector<size_t> blocks;
  for (size_t block = 0; block < kBlockCount && blocks.size() < kMostFineBlocks; ++block) {
    if (used[block] != 0) blocks.push_back(block);
  }
  std::vector<uint32_t> block_at(kBlockCount, 0);
  std::vector<int16_t> fine(blocks.size() * kNodesInBlock * 4);
  std::vector<float> rgb(kNodesInBlock * 3), screen(kNodesInBlock * 3);
  for (size_t i = 0; i < blocks.size(); ++i) {
    if (!keep_going(watch, double(i) / double(blocks.size()))) return stopped();
    int16_t* nodes = fine.data() + i * kNodesInBlock * 4;
    block_colours(cube, blocks[i], rgb);
    chain.to_screen(rgb, screen);
    copy_mark_lane(cube, rgb, nodes);
    put_screen_lanes(screen, nodes);
    block_at[blocks[i]] = static_cast<uint32_t>(i + 1);
  }
  if (blocks.empty()) return done();
  cube.block_at = std::move(block_at);
  cube.fine = std::move(fine);
  return done();
}

}  // namespace proofleaf
