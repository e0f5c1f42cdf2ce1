// Finer nodes where a picture has its colours.
//
// A profile with 8-bit tables is a staircase finer than any cube that is worth building whole, but
// a picture uses only a small part of the cube, and there many more nodes are affordable.
#include <algorithm>
#include <numeric>
#include <utility>

#include "proof/cube_build.h"

namespace proofleaf {
namespace {

constexpr size_t kBlocksInRed = size_t{kBlocks} * kBlocks, kBlockCount = kBlocksInRed * kBlocks;

// As the kernel counts.
uint32_t block_along(uint16_t position) { return position / (65536 / kBlocks); }

// The fourth lane comes from the cube's own nodes: it only marks the picture.
void copy_mark_lane(const Cube& cube, const std::vector<float>& rgb, int16_t* nodes) {
  std::vector<uint16_t> codes(rgb.size()), lanes(rgb.size() / 3 * 4);
  std::transform(rgb.begin(), rgb.end(), codes.begin(),
                 [](float v) { return static_cast<uint16_t>(v * 65535 + 0.5f); });
  apply_cube(cube, codes, lanes);
  for (size_t i = 3; i < lanes.size(); i += 4) nodes[i] = static_cast<int16_t>(lanes[i] - 32768);
}

// The nodes of one red of all blocks that have any there. Neighbours share those between them,
// which are worked out once.
class FinePlane {
 public:
  // cells: along a block's side.
  FinePlane(const ProofChain& chain, const Cube& cube, uint32_t cells)
      : chain_(chain),
        cube_(cube),
        cells_(cells),
        side_(kBlocks * cells + 1),
        levels_(node_levels(cube.shaper, side_)),
        number_(size_t{side_} * side_, 0) {}

  void begin(uint32_t red) {
    for (const uint32_t place : places_) number_[place] = 0;
    places_.clear();
    rgb_.clear();
    red_ = red;
  }

  void add(size_t block) {
    for_nodes(block, [&](size_t, uint32_t green, uint32_t blue) {
      uint32_t& number = number_[green * side_ + blue];
      if (number != 0) return;
      places_.push_back(green * side_ + blue);
      number = static_cast<uint32_t>(places_.size());
      rgb_.insert(rgb_.end(), {levels_[red_], levels_[green], levels_[blue]});
    });
  }

  void work_out() {
    screen_.resize(rgb_.size());
    nodes_.resize(places_.size() * 4);
    chain_.to_screen(rgb_, screen_);
    copy_mark_lane(cube_, rgb_, nodes_.data());
    put_screen_lanes(screen_, nodes_.data());
  }

  // into: (cells + 1)^2 nodes.
  void copy(size_t block, int16_t* into) const {
    for_nodes(block, [&](size_t i, uint32_t green, uint32_t blue) {
      std::copy_n(&nodes_[(number_[green * side_ + blue] - 1) * size_t{4}], 4, into + i * 4);
    });
  }

 private:
  // visit(which of the block's nodes in this plane, green, blue)
  template <class Visit>
  void for_nodes(size_t block, Visit visit) const {
    const auto green = static_cast<uint32_t>(block / kBlocks % kBlocks) * cells_;
    const auto blue = static_cast<uint32_t>(block % kBlocks) * cells_;
    const uint32_t nodes = cells_ + 1;
    for (uint32_t i = 0; i < nodes * nodes; ++i) visit(i, green + i / nodes, blue + i % nodes);
  }

  const ProofChain& chain_;
  const Cube& cube_;
  uint32_t cells_, side_;
  std::vector<float> levels_;
  std::vector<uint32_t> number_;  // by place in the plane: one more than in the lists below, or 0
  std::vector<uint32_t> places_;
  std::vector<float> rgb_, screen_;
  std::vector<int16_t> nodes_;
  uint32_t red_ = 0;
};

// Those of `blocks` whose cells begin at this red or end there, as [first, last).
std::pair<size_t, size_t> blocks_at(const std::vector<size_t>& blocks, uint32_t cells,
                                    uint32_t red) {
  const size_t to = red / cells, from = red % cells == 0 && red > 0 ? to - 1 : to;
  const auto place = [&](size_t row) {
    return static_cast<size_t>(std::lower_bound(blocks.begin(), blocks.end(), row * kBlocksInRed) -
                               blocks.begin());
  };
  return {place(from), place(to + 1)};
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
  if (blocks.empty()) return done();
  std::vector<uint32_t> block_at(kBlockCount, 0);
  for (size_t i = 0; i < blocks.size(); ++i) block_at[blocks[i]] = static_cast<uint32_t>(i + 1);
  const uint32_t cells = block_cells(chain.stepped()), side = kBlocks * cells + 1;
  const size_t samples = block_samples(cells), in_plane = samples / (cells + 1);
  std::vector<int16_t> fine(blocks.size() * samples);
  FinePlane plane(chain, cube, cells);
  for (uint32_t red = 0; red < side; ++red) {
    if (!keep_going(watch, double(red) / side)) return stopped();
    const auto [first, last] = blocks_at(blocks, cells, red);
    plane.begin(red);
    for (size_t i = first; i < last; ++i) plane.add(blocks[i]);
    plane.work_out();
    for (size_t i = first; i < last; ++i) {
      const size_t row = red - blocks[i] / kBlocksInRed * cells;
      plane.copy(blocks[i], &fine[i * samples + row * in_plane]);
    }
  }
  cube.block_at = std::move(block_at);
  cube.fine = std::move(fine);
  cube.block_cells = cells;
  return done();
}

}  // namespace proofleaf
