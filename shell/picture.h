// A stretch of the master in memory and what its screen cubes made of it.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "proof/cube.h"
#include "proof/off_gamut.h"

namespace proofleaf::shell {

// A screen cube in use, and what it stands for.
struct ScreenCube {
  Cube cube;
  std::string key;     // everything it depends on, apart from its grid
  OffGamut off_gamut;  // of the preview
  uint32_t grid() const { return cube.grid; }
  size_t bytes() const {
    return 2 * (cube.nodes.size() + cube.fine.size() + cube.shaper.size()) +
           4 * cube.block_at.size();
  }
};

// The picture run through one cube. The last finished one stays until the next is whole.
struct Layer {
  // R G B, and tenths of dE00 off the gamut; empty: nothing yet, or made on the graphics card.
  std::vector<uint8_t> shown;
  std::string key;
  uint32_t grid = 0;
  unsigned texture = 0;  // owned by PictureGl

  std::vector<uint8_t> making;
  std::string making_key;
  uint32_t making_grid = 0;
  uint32_t rows_made = 0;

  bool shows(const ScreenCube& cube) const { return key == cube.key && grid == cube.grid(); }
};

// 16-bit RGB, row by row.
struct Samples {
  std::vector<uint16_t> rgb;
  unsigned source = 0;       // the samples on the graphics card; owned by ProofGl
  uint32_t source_rows = 0;  // that are there already
};

// Its own samples are the master's.
struct Picture : Samples {
  double x = 0, y = 0, width = 0, height = 0;  // where it lies on the master [master pixels]
  uint32_t columns = 0, rows = 0;
  Samples printed;  // with local contrast, as many; empty: as the master's
  Layer master, proof;

  bool empty() const { return rgb.empty(); }
  // What is run through the cube for a layer of its own.
  const Samples& samples_of(const Layer& layer) const {
    return &layer == &proof && !printed.rgb.empty() ? printed : *this;
  }
  Samples& samples_of(const Layer& layer) {
    return &layer == &proof && !printed.rgb.empty() ? printed : *this;
  }
  // The sample at a place of the master [master pixels], nullptr outside; what is printed of it.
  const uint16_t* at(double px, double py, bool as_printed = false) const;
};

// Runs more of the picture through the cube, for about `budget` seconds. True when the layer has
// just become whole.
bool run_layer(const Picture& picture, const ScreenCube& cube, Layer& layer, double budget);

}  // namespace proofleaf::shell
