#include "field_gl.h"

#include <GLES3/gl3.h>

#include "program_gl.h"
#include "proof_glsl.h"

namespace proofleaf::shell {
namespace {

// `pattern` is lit, rows; rows are counted down from the patch's own top.
constexpr char kFragment[] = R"(#version 300 es
precision highp float;
precision highp int;
uniform ivec2 corner;
uniform int height;
uniform ivec2 pattern;
uniform bool board;
uniform vec3 colour;
uniform vec3 other;
out vec4 drawn;
void main() {
  ivec2 at = ivec2(int(gl_FragCoord.x), height - 1 - int(gl_FragCoord.y)) - corner;
  bool lit = board ? ((at.x + at.y) & 1) == 0 : at.y % pattern.y < pattern.x;
  drawn = vec4(lit ? colour : other, 1.0);
})";

void set_colour(int place, const std::array<uint8_t, 3>& colour) {
  glUniform3f(place, float(colour[0]) / 255, float(colour[1]) / 255, float(colour[2]) / 255);
}

}  // namespace

FieldGl::~FieldGl() {
  glDeleteProgram(program_);
  glDeleteVertexArrays(1, &array_);
}

void FieldGl::make() {
  program_ = make_program(kWholeVertex, kFragment);
  glGenVertexArrays(1, &array_);
  corner_ = glGetUniformLocation(program_, "corner");
  height_ = glGetUniformLocation(program_, "height");
  pattern_ = glGetUniformLocation(program_, "pattern");
  board_ = glGetUniformLocation(program_, "board");
  colour_ = glGetUniformLocation(program_, "colour");
  other_ = glGetUniformLocation(program_, "other");
}

void FieldGl::draw(const std::vector<Patch>& patches, int height) {
  if (program_ == 0) make();
  glUseProgram(program_);
  glBindVertexArray(array_);
  glDisable(GL_BLEND);
  glEnable(GL_SCISSOR_TEST);
  for (const Patch& patch : patches) {
    glScissor(patch.x, height - patch.y - patch.height, patch.width, patch.height);
    glUniform2i(corner_, patch.x, patch.y);
    glUniform1i(height_, height);
    glUniform2i(pattern_, patch.pattern.lit, patch.pattern.rows);
    glUniform1i(board_, patch.board ? 1 : 0);
    set_colour(colour_, patch.colour);
    set_colour(other_, patch.other);
    glDrawArrays(GL_TRIANGLES, 0, 3);
  }
  glBindVertexArray(0);
  glUseProgram(0);
}

}  // namespace proofleaf::shell
