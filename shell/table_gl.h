// A screen cube's tables as textures of whole numbers, for proof_glsl.h.
#pragma once

#include <array>
#include <cstddef>
#include <memory>

#include "picture.h"

namespace proofleaf::shell {

class TableGl {
 public:
  explicit TableGl(std::shared_ptr<const ScreenCube> cube);
  ~TableGl();
  TableGl(const TableGl&) = delete;
  TableGl& operator=(const TableGl&) = delete;

  // Sends more of it and takes that from `budget` [bytes], which may end a little below zero; true
  // once all of it is there. A card that is sent too much at once makes the page wait.
  bool send(ptrdiff_t& budget);
  bool holds(const ScreenCube& cube) const;
  size_t bytes() const { return cube_->bytes(); }
  // Rows of the longest of a cube's tables, which a texture must be able to have.
  static size_t rows_of(const Cube& cube);

  // In the order of their texture units, from kFirstUnit on.
  enum Sheet { shaper, nodes, block_at, fine, kSheets };
  static constexpr int kFirstUnit = 1;
  void bind() const;
  const Cube& cube() const { return cube_->cube; }

 private:
  struct Sent {
    unsigned texture = 0;
    size_t rows = 0;  // that are there already
  };
  bool send_sheet(Sheet sheet, ptrdiff_t& budget);

  std::shared_ptr<const ScreenCube> cube_;
  std::array<Sent, kSheets> sent_;
};

// Binds a new texture of whole numbers to unit 0, to be fetched from texel by texel.
unsigned make_whole_texture(unsigned format, int columns, int rows);

}  // namespace proofleaf::shell
