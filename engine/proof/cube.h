// A proof precomputed on a cube of colours, and the fast kernel that runs pictures through it.
//
//   16-bit R, G, B --shaper--> position in the cube --tetrahedral interpolation--> four lanes
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "base/watch.h"
#include "proof/chain.h"

namespace proofleaf {

inline constexpr size_t kCodes = 65536;  // of 16 bits

// grid^3 nodes of four 16-bit lanes. One curve shapes all three inputs, so that dark tones get as
// many nodes as the eye needs.
struct Cube {
  uint32_t grid = 0;             // nodes along each side, 2..kLargestGrid
  uint32_t lanes = 0;            // meaningful lanes of the four
  std::vector<uint16_t> shaper;  // kCodes entries: 16-bit code -> position 0..65535, never falling
  std::vector<int16_t> nodes;    // code - 32768; blue fastest, then green, then red; 4 lanes a node

  // Finer nodes for the parts of the cube a picture really uses; both empty without refinement.
  std::vector<uint32_t> block_at;  // kBlocks^3: 0 for none, else one more than the block's number
  std::vector<int16_t> fine;       // blocks of (block_cells + 1)^3 nodes, in the order above
  uint32_t block_cells = 0;        // along a block's side, 1..kMostBlockCells; 0 without any
};
inline constexpr uint32_t kLargestGrid = 161;

// Refinement: kBlocks^3 blocks of as many cells as the accuracy promised needs, 193 nodes along a
// side in all, 321 where the chain is stepped.
inline constexpr uint32_t kBlocks = 64, kMostBlockCells = 5;
constexpr uint32_t block_cells(bool stepped) { return stepped ? kMostBlockCells : 3; }
// Samples of one block, four lanes to a node.
constexpr size_t block_samples(uint32_t cells) {
  return size_t{cells + 1} * (cells + 1) * (cells + 1) * 4;
}
inline constexpr size_t kMostFineBlocks = 20000;  // 10 MB or 35 MB

// Screen cubes: code = 128 * (255 * x + 128) for the lanes R, G, B with x the encoded screen value,
// so that clipping happens after interpolation (x may be -0.5..1.5); the fourth lane is the
// distance off the gamut, code = 128 * (10 * dE00 + 128). Device cubes (device_cube.h): code =
// 65535 * x.
inline constexpr uint32_t kQuickGrid = 25;  // shown first
inline constexpr uint32_t kProofGrid = 65;  // refined for the picture: the accuracy promised
// The accuracy promised, wherever in the cube colours lie; stepped: the chain's. Rare random
// colours come out as far as 0.63 dE00 from the exact ones (tests/bench/README.md).
constexpr uint32_t delivery_grid(bool stepped) { return stepped ? 161 : 97; }

// Builds master -> paper -> screen; watch is told the share done. Error: stopped.
Result<Cube> build_screen_cube(const ProofChain& chain, uint32_t grid, const Watch& watch);
// Builds master -> screen from a chain whose paper is the screen itself. Nothing is marked: the
// fourth lane is 0 dE00. Error: stopped, or that paper's values are not RGB.
Result<Cube> build_master_cube(const ProofChain& to_screen, uint32_t grid, const Watch& watch);

// Which blocks a picture uses, one byte each (0 or 1), kBlocks^3 of them; where there are more than
// kMostFineBlocks, those with the most pixels. The shaper is the cube's.
std::vector<uint8_t> blocks_used(const Cube& cube, std::span<const uint16_t> rgb);
// Adds the finer nodes of those blocks to a screen cube made from the same chain.
// Error: stopped, or not kBlocks^3 flags; the cube is then as before.
Status refine_screen_cube(const ProofChain& chain, std::span<const uint8_t> used, Cube& cube,
                          const Watch& watch);

// For passing between workers, in this machine's byte order. Error on reading: not a cube, or a
// length that does not fit.
Bytes pack_cube(const Cube& cube);
Result<Cube> unpack_cube(ByteView bytes);

// Runs rgb.size() / 3 pixels; out has four lanes a pixel. Integer arithmetic with 14-bit weights:
// the fast and the plain way give the same values bit for bit on every machine.
void apply_cube(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint16_t> out);
// The same written plainly, one lane at a time: what the fast one is tested against.
void apply_cube_plain(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint16_t> out);

// A device cube's lanes as 8 bits, of a value between two levels now the one and now the other:
// code + lift is divided by 257. lifts: 0..256, four for each of kLiftPixels pixels; they repeat.
// Answers whether all nodes that count have 65535 in their fourth lane.
inline constexpr uint32_t kLiftPixels = 64;
using DitherLifts = std::span<const uint16_t, kLiftPixels * 4>;
bool apply_cube_dithered(const Cube& cube, std::span<const uint16_t> rgb, DitherLifts lifts,
                         std::span<uint8_t> out);

// The shaper for 8-bit codes.
using ByteShaper = std::array<uint16_t, 256>;
ByteShaper byte_shaper(const Cube& cube);
// The same of 8-bit R, G, B; shaper: the cube's.
bool apply_cube_dithered(const Cube& cube, const ByteShaper& shaper, std::span<const uint8_t> rgb,
                         DitherLifts lifts, std::span<uint8_t> out);

// A device cube's lanes as 8 bits, rounded to the nearest; 8-bit R, G, B in.
void apply_cube8(const Cube& cube, std::span<const uint8_t> rgb, std::span<uint8_t> out);

// A screen cube's picture as 8-bit R, G, B and, as the fourth byte, tenths of dE00 off the gamut;
// from 16-bit or from 8-bit R, G, B.
void proof_to_screen8(const Cube& cube, std::span<const uint16_t> rgb, std::span<uint8_t> rgba);
void proof_to_screen8(const Cube& cube, std::span<const uint8_t> rgb, std::span<uint8_t> rgba);

}  // namespace proofleaf
