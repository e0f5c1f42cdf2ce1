// The master pixel for pixel where the view is near enough to show it: square tiles, fetched from
// the file where they are looked at and kept while there is room.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "picture.h"

namespace proofleaf::shell {

inline constexpr uint32_t kTileSide = 512;  // [master pixels]
// Samples around a tile that belong to its neighbours, so that no seam shows at any size.
inline constexpr uint32_t kTileApron = 8;
inline constexpr size_t kMostTileBytes = 48'000'000;  // of all tiles' samples

struct DetailTile {
  uint32_t column = 0, row = 0;
  Picture picture;       // with its apron
  bool in_view = false;  // in the last frame
  double far = 0;        // from the view's middle [tiles]
  uint64_t used = 0;     // counts frames: when it was last in view
};

// Some tiles side by side: columns left..right-1, rows top..bottom-1.
struct TileBlock {
  uint32_t left = 0, top = 0, right = 0, bottom = 0;
  uint32_t count() const { return (right - left) * (bottom - top); }
  bool holds(uint32_t column, uint32_t row) const {
    return column >= left && column < right && row >= top && row < bottom;
  }
};

// An answer that is still to be cut up into tiles.
struct ArrivedTiles {
  TileBlock block;
  uint32_t next = 0;  // of the block's tiles, row by row
  uint32_t x = 0, y = 0, width = 0, height = 0;
  Bytes rgb, printed;
};

struct Detail {
  std::vector<std::unique_ptr<DetailTile>> tiles;  // the nearest to the view's middle first
  TileBlock asked;                                 // by the task under way
  std::optional<ArrivedTiles> arrived;
  uint64_t frame = 0;
  bool failed = false;       // an answer failed: this master's tiles are not asked for again
  uint32_t missing = 0;      // tiles in view that are not there, in the last frame
  uint32_t asked_count = 0;  // tiles asked for since the master was opened
  size_t bytes() const;      // of the tiles' samples
};

}  // namespace proofleaf::shell
