// Tetrahedral interpolation written plainly: what every faster path must equal bit for bit.
//
// A colour's place in its cell has three fractions. Walking from the cell's first node along the
// axis of the largest fraction, then the middle, then the smallest, meets the four nodes of its
// tetrahedron; their weights are 1-most, most-middle, middle-least, least.
#include <algorithm>
#include <array>

#include "proof/cube.h"
#include "proof/kernel.h"

namespace proofleaf::kernel {
namespace {

struct Place {
  uint32_t node;
  int32_t fraction;
};

Place place_of(uint32_t position, uint32_t cells) {
  const uint32_t t = position * cells, node = t >> 16;
  // A little more the further up, so that the last position reaches the last node.
  const uint32_t in_cell = std::min((t & 0xffff) + node, 0xffffu);
  return {node, static_cast<int32_t>((in_cell >> 2) + (in_cell >> 15))};
}

void blend(const int16_t* nodes, uint32_t grid, const std::array<Place, 3>& places,
           int32_t* lanes) {
  struct Axis {
    int32_t fraction;
    size_t step;  // [samples]
  };
  const size_t red = size_t{grid} * grid * 4, green = size_t{grid} * 4, blue = 4;
  std::array<Axis, 3> axes{
      {{places[0].fraction, red}, {places[1].fraction, green}, {places[2].fraction, blue}}};
  std::sort(axes.begin(), axes.end(),
            [](const Axis& a, const Axis& b) { return a.fraction > b.fraction; });
  const int16_t* a = nodes + places[0].node * red + places[1].node * green + places[2].node * blue;
  const int16_t *b = a + axes[0].step, *c = b + axes[1].step, *d = c + axes[2].step;
  const int32_t most = axes[0].fraction, middle = axes[1].fraction, least = axes[2].fraction;
  for (size_t lane = 0; lane < 4; ++lane) {
    lanes[lane] = (a[lane] * (kOne - most) + b[lane] * (most - middle) +
                   c[lane] * (middle - least) + d[lane] * least + kOne / 2) >>
                  kWeightBits;
  }
}

template <Output output, class Code>
Answer<output> run(const Plan& plan, const Code* rgb, size_t count, Sample<output>* out) {
  [[maybe_unused]] bool full = true;
  for (size_t i = 0; i < count; ++i, rgb += 3, out += 4) {
    const std::array<uint16_t, 3> position{plan.shaper[rgb[0]], plan.shaper[rgb[1]],
                                           plan.shaper[rgb[2]]};
    std::array<int32_t, 4> lanes{};
    plain_lanes(plan, position.data(), lanes.data());
    for (size_t lane = 0; lane < 4; ++lane) {
      out[lane] = finish<output>(plan, i, lane, lanes[lane]);
    }
    full = full && lanes[3] == kFull;
  }
  if constexpr (output == Output::dithered) return full;
}

}  // namespace

void plain_lanes(const Plan& plan, const uint16_t* position, int32_t* lanes) {
  const auto places_in = [position](uint32_t cells) {
    return std::array<Place, 3>{place_of(position[0], cells), place_of(position[1], cells),
                                place_of(position[2], cells)};
  };
  if (plan.block_at == nullptr) {
    return blend(plan.whole, plan.whole_grid, places_in(plan.whole_grid - 1), lanes);
  }
  std::array<Place, 3> fine = places_in(plan.cells);
  const uint32_t block_cells = plan.grid - 1;
  size_t at = 0;
  for (Place& place : fine) {
    at = at * kBlocks + place.node / block_cells;
    place.node %= block_cells;
  }
  const uint32_t block = plan.block_at[at];
  if (block == 0) return blend(plan.whole, plan.whole_grid, places_in(plan.whole_grid - 1), lanes);
  blend(plan.nodes + (block - 1) * block_samples(block_cells), plan.grid, fine, lanes);
}

const Routines* plain_routines() {
  static constexpr Routines all{run<Output::codes, uint16_t>,    run<Output::screen, uint16_t>,
                                run<Output::screen, uint8_t>,    run<Output::device, uint8_t>,
                                run<Output::dithered, uint16_t>, run<Output::dithered, uint8_t>};
  return &all;
}

}  // namespace proofleaf::kernel
