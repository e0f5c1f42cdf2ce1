#include "table_gl.h"

#include <GLES3/gl3.h>

#include <algorithm>

#include "proof_glsl.h"

namespace proofleaf::shell {
namespace {

constexpr size_t kRowsAtOnce = 64;

// One of the cube's tables as the card takes it.
struct Source {
  const void* data;
  size_t entries;
  int width;  // [entries] of a row
  GLenum internal, format, type;
  size_t bytes;  // of an entry
};

Source source_of(const Cube& cube, TableGl::Sheet sheet) {
  switch (sheet) {
    case TableGl::shaper:
      return {cube.shaper.data(), cube.shaper.size(), kShaperWidth,    GL_R16UI,
              GL_RED_INTEGER,     GL_UNSIGNED_SHORT,  sizeof(uint16_t)};
    case TableGl::block_at:
      return {cube.block_at.data(), cube.block_at.size(), kTableWidth,     GL_R32UI,
              GL_RED_INTEGER,       GL_UNSIGNED_INT,      sizeof(uint32_t)};
    default: {
      const auto& lanes = sheet == TableGl::nodes ? cube.nodes : cube.fine;
      return {lanes.data(),    lanes.size() / 4, kTableWidth,        GL_RGBA16I,
              GL_RGBA_INTEGER, GL_SHORT,         4 * sizeof(int16_t)};
    }
  }
}

size_t rows_in(const Source& source) {
  return (source.entries + size_t(source.width) - 1) / size_t(source.width);
}

// Rows of the texture that is bound; the last one of a table may be cut short.
void send_rows(const Source& source, size_t first, size_t count) {
  const auto width = size_t(source.width);
  const auto* data = static_cast<const uint8_t*>(source.data) + first * width * source.bytes;
  const size_t there = source.entries - first * width;
  const size_t whole = std::min(count, there / width), rest = there - whole * width;
  if (whole > 0)
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, GLint(first), source.width, GLsizei(whole), source.format,
                    source.type, data);
  if (whole < count && rest > 0)
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, GLint(first + whole), GLsizei(rest), 1, source.format,
                    source.type, data + whole * width * source.bytes);
}

}  // namespace

unsigned make_whole_texture(unsigned format, int columns, int rows) {
  unsigned texture = 0;
  glGenTextures(1, &texture);
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, texture);
  glTexStorage2D(GL_TEXTURE_2D, 1, format, columns, rows);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
  return texture;
}

TableGl::TableGl(std::shared_ptr<const ScreenCube> cube) : cube_(std::move(cube)) {}

TableGl::~TableGl() {
  for (const Sent& each : sent_)
    if (each.texture != 0) glDeleteTextures(1, &each.texture);
}

bool TableGl::holds(const ScreenCube& cube) const {
  return cube_->key == cube.key && cube_->grid() == cube.grid();
}

size_t TableGl::rows_of(const Cube& cube) {
  size_t most = 0;
  for (const Sheet sheet : {shaper, nodes, block_at, fine})
    most = std::max(most, rows_in(source_of(cube, sheet)));
  return most;
}

bool TableGl::send_sheet(Sheet sheet, ptrdiff_t& budget) {
  const Source source = source_of(cube_->cube, sheet);
  const size_t rows = rows_in(source);
  Sent& sent = sent_[sheet];
  if (sent.texture == 0)  // one that is not used has a texture all the same
    sent.texture =
        make_whole_texture(source.internal, source.width, GLsizei(std::max<size_t>(1, rows)));
  if (sent.rows == rows) return true;
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, sent.texture);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  while (sent.rows < rows && budget > 0) {
    const size_t count = std::min(kRowsAtOnce, rows - sent.rows);
    send_rows(source, sent.rows, count);
    sent.rows += count;
    budget -= ptrdiff_t(count * size_t(source.width) * source.bytes);
  }
  glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  return sent.rows == rows;
}

bool TableGl::send(ptrdiff_t& budget) {
  return send_sheet(shaper, budget) && send_sheet(nodes, budget) && send_sheet(block_at, budget) &&
         send_sheet(fine, budget);
}

void TableGl::bind() const {
  for (int sheet = 0; sheet < kSheets; ++sheet) {
    glActiveTexture(GLenum(GL_TEXTURE0 + kFirstUnit + sheet));
    glBindTexture(GL_TEXTURE_2D, sent_[size_t(sheet)].texture);
  }
  glActiveTexture(GL_TEXTURE0);
}

}  // namespace proofleaf::shell
