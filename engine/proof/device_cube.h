// A cube from the master to the paper's device values that is filled where pictures have colours: a
// picture uses a small part of the cube, and the exact chain is slow. Threads may share one.
#pragma once

#include <atomic>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <set>
#include <shared_mutex>

#include "proof/cube.h"
#include "raster/pixels.h"

namespace proofleaf {

class DeviceCube {
 public:
  // grid: 33 <= grid <= kLargestGrid with grid - 1 a multiple of 32. Error: another grid.
  static Result<std::shared_ptr<DeviceCube>> make(std::shared_ptr<const ProofChain> chain,
                                                  uint32_t grid);
  // Run RGB pixels through the cube like the functions of cube.h, four lanes a pixel, and
  // fill the nodes they stand between as far as they are empty; each node gets the value it would
  // have in a cube filled as a whole. Several threads may call them at once.
  void apply(std::span<const uint16_t> rgb, std::span<uint16_t> out);
  void apply_dithered(PixelView rgb, DitherLifts lifts, std::span<uint8_t> out);
  // Only fills.
  void cover(PixelView rgb);
  // Fills all nodes.
  void cover_all();
  // Good for covered pixels, while no thread fills any; 1, 3 or 4 lanes, code = 65535 * x. Where
  // the fourth is free it is 65535 in filled nodes and less in others.
  const Cube& cube() const { return cube_; }
  // Nodes filled so far; not while another thread fills some.
  size_t filled() const { return filled_count_; }

 private:
  DeviceCube(std::shared_ptr<const ProofChain> chain, uint32_t grid);
  // As the nodes are; answers as apply_cube_dithered().
  bool run(PixelView rgb, DitherLifts lifts, std::span<uint8_t> out);
  void fill(const std::vector<uint32_t>& blocks);
  // Adds the block's nodes that no one has claimed, and claims them.
  void claim(uint32_t block, std::vector<uint32_t>& nodes);
  void fill_nodes(std::span<const uint32_t> nodes);
  bool tells_filled() const { return cube_.lanes < 4; }

  std::shared_ptr<const ProofChain> chain_;
  std::shared_mutex changing_;  // guards the nodes
  Cube cube_;
  ByteShaper byte_shaper_;
  std::vector<float> levels_;               // of the nodes along a side, 0..1
  std::vector<uint8_t> along_;              // which block a code stands in, along a side
  std::vector<std::atomic<bool>> covered_;  // blocks all of whose nodes are filled
  std::mutex claiming_;                     // guards what follows
  std::condition_variable filled_some_;
  std::vector<uint8_t> claimed_;  // nodes filled or being filled, 0 or 1
  uint64_t turns_ = 0;            // a number for each fill
  std::set<uint64_t> under_way_;  // those that fill nodes just now
  size_t filled_count_ = 0;
};

}  // namespace proofleaf
