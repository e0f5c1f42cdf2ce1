// A screen proof made small for one picture: few nodes, and only those the picture's colours lie
// between, fitted so that the picture comes out right rather than the nodes.
//
//   8-bit R, G, B --tetrahedral interpolation--> screen R, G, B
#pragma once

#include <span>
#include <vector>

#include "proof/cube.h"
#include "share/packing.h"

namespace proofleaf {

inline constexpr uint32_t kMostCompactGrid = 21;

// The nodes that colours lie between.
struct NodeSet {
  uint32_t grid = 0;          // nodes along each side, 2..kMostCompactGrid
  std::vector<uint8_t> used;  // grid^3 flags; blue fastest, then green, then red
};

// The colours of a picture, each once.
struct ColourCounts {
  std::vector<uint8_t> rgb;      // three to a colour
  std::vector<uint32_t> pixels;  // how many have it
};
ColourCounts count_colours(std::span<const uint8_t> rgb);

NodeSet nodes_between(std::span<const uint8_t> rgb, uint32_t grid);

// A node's R, G, B: steps of kCompactStep of the screen's 8-bit levels, less the node's own level.
// Nodes out of use are 0.
using CompactNodes = std::vector<int16_t>;
inline constexpr double kCompactStep = 0.75;

// Nodes whose interpolation comes closest to `screen` (encoded screen RGB, 1.0 is white) at the
// colours. `start`: what the nodes themselves show, three to a node. Colours are weighted by the
// square root of their pixels, and those furthest off the more. Kaczmarz's method in its
// simultaneous form (G. Cimmino, "Calcolo approssimato per le soluzioni dei sistemi di equazioni
// lineari", La Ricerca Scientifica 9, 1938).
CompactNodes fit_nodes(const NodeSet& set, const ColourCounts& colours,
                       std::span<const float> screen, std::span<const float> start);

// The encoded levels 0..1 of all nodes of a grid, three to a node, in their order.
std::vector<float> node_colours(uint32_t grid);

// As a cube for apply_cube(); its fourth lane says "within the gamut" everywhere.
Cube cube_of(const NodeSet& set, const CompactNodes& nodes);

// Each value as its difference from what the nodes before it foretell, R, G, B apart.
void pack_node_set(const NodeSet& set, Packer& into);
void pack_nodes(const NodeSet& set, const CompactNodes& nodes, Packer& into);
// Fault of `from`: values no screen has, flags of no grid.
NodeSet unpack_node_set(Unpacker& from);
CompactNodes unpack_nodes(const NodeSet& set, Unpacker& from);

}  // namespace proofleaf
