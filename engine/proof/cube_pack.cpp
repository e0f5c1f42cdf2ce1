// Cubes as bytes, for passing between workers.
#include <algorithm>
#include <array>
#include <cstring>

#include "proof/cube.h"

namespace proofleaf {
namespace {

constexpr size_t kBlockCount = size_t{kBlocks} * kBlocks * kBlocks;

// grid, lanes, number of fine blocks, cells along their sides; then shaper, nodes, block_at, fine.
constexpr size_t kHeadWords = 4;
using Head = std::array<uint32_t, kHeadWords>;

template <class T>
void append(Bytes& bytes, const std::vector<T>& values) {
  const auto* from = reinterpret_cast<const uint8_t*>(values.data());
  bytes.insert(bytes.end(), from, from + values.size() * sizeof(T));
}

template <class T>
void take(ByteView& bytes, size_t count, std::vector<T>& values) {
  values.resize(count);
  if (count > 0) std::memcpy(values.data(), bytes.data(), count * sizeof(T));
  bytes = bytes.subspan(count * sizeof(T));
}

}  // namespace

Bytes pack_cube(const Cube& cube) {
  const size_t blocks = cube.fine.size() / block_samples(cube.block_cells);
  const Head head{cube.grid, cube.lanes, static_cast<uint32_t>(blocks), cube.block_cells};
  Bytes bytes(sizeof head);
  std::memcpy(bytes.data(), head.data(), sizeof head);
  bytes.reserve(bytes.size() + (cube.shaper.size() + cube.nodes.size() + cube.fine.size()) * 2 +
                cube.block_at.size() * 4);
  append(bytes, cube.shaper);
  append(bytes, cube.nodes);
  append(bytes, cube.block_at);
  append(bytes, cube.fine);
  return bytes;
}

Result<Cube> unpack_cube(ByteView bytes) {
  const Error no_cube{"The proof cube is damaged."};
  Head head{};
  if (bytes.size() < sizeof head) return no_cube;
  std::memcpy(head.data(), bytes.data(), sizeof head);
  bytes = bytes.subspan(sizeof head);
  Cube cube;
  cube.grid = head[0];
  cube.lanes = head[1];
  cube.block_cells = head[3];
  const size_t blocks = head[2];
  if (cube.grid < 2 || cube.grid > kLargestGrid || cube.lanes < 1 || cube.lanes > 4 ||
      blocks > kBlockCount || cube.block_cells > kMostBlockCells ||
      (blocks > 0) != (cube.block_cells > 0)) {
    return no_cube;
  }
  const size_t fine = blocks * block_samples(cube.block_cells);
  const size_t nodes = size_t{cube.grid} * cube.grid * cube.grid * 4;
  const size_t table = blocks > 0 ? kBlockCount : 0;
  if (bytes.size() != (kCodes + nodes + fine) * 2 + table * 4) return no_cube;
  take(bytes, kCodes, cube.shaper);
  take(bytes, nodes, cube.nodes);
  take(bytes, table, cube.block_at);
  take(bytes, fine, cube.fine);
  const bool sound = std::all_of(cube.block_at.begin(), cube.block_at.end(),
                                 [&](uint32_t number) { return number <= blocks; });
  if (!sound) return no_cube;
  return cube;
}

}  // namespace proofleaf
