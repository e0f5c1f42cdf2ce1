// What the builders of cubes share.
#pragma once

#include <vector>

#include "proof/cube.h"

namespace proofleaf {

// A cube of zeros with the chain's shaper.
Cube empty_cube(const ProofChain& chain, uint32_t grid, uint32_t lanes);
// The shaper of a master space; l: L* of its neutrals at kShaperLevels levels, evenly spaced 0..1.
// Position = mostly that L*, with a little of the code itself so that it never stands still where a
// profile's tone curve is flat.
inline constexpr size_t kShaperLevels = 1025;
std::vector<uint16_t> shaper_from(std::vector<float> l);
// The levels 0..1 of the nodes along a side.
std::vector<float> node_levels(const std::vector<uint16_t>& shaper, uint32_t grid);
// The level 0..1 that a shaper puts at a position 0..65535 of the cube's side.
float level_at(const std::vector<uint16_t>& shaper, double position);
// A lane's code 0..65535 as a node holds it.
int16_t node_code(double code);
// Screen RGB, three to a colour, into the first three lanes of nodes.
void put_screen_lanes(const std::vector<float>& screen, int16_t* nodes);

}  // namespace proofleaf
