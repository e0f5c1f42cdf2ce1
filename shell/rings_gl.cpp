#include "rings_gl.h"

#include <GLES3/gl3.h>

#include <algorithm>
#include <cmath>

#include "program_gl.h"

namespace proofleaf::shell {
namespace {

constexpr char kVertex[] = R"(#version 300 es
precision highp float;
uniform vec4 place;
uniform vec2 canvas;
out vec2 at;
void main() {
  at = vec2(float(gl_VertexID & 1), float(gl_VertexID >> 1));
  vec2 pixel = place.xy + at * place.zw;
  gl_Position = vec4(pixel.x / canvas.x * 2.0 - 1.0, 1.0 - pixel.y / canvas.y * 2.0, 0.0, 1.0);
})";

// Rings stand in rows, each row shifted by half a cell. A pale line with a dark rim on both sides
// shows on any colour, and the picture shows through the middle of large ones. sizes: cell, radius
// of 1 dE00, least and most dE00. The texture holds 0..25.5 dE00.
constexpr char kFragment[] = R"(#version 300 es
precision highp float;
uniform sampler2D differences;
uniform vec4 place;
uniform vec4 sizes;
uniform float unit;
in vec2 at;
out vec4 colour;

void main() {
  vec2 p = at * place.zw / unit;
  float row = floor(p.y / sizes.x);
  float shift = mod(row, 2.0) * 0.5 * sizes.x;
  vec2 middle = vec2((floor((p.x + shift) / sizes.x) + 0.5) * sizes.x - shift,
                     (row + 0.5) * sizes.x);
  float difference = texture(differences, middle * unit / place.zw).r * 25.5;
  if (difference < sizes.z) discard;
  float radius = sizes.y * sqrt(min(difference, sizes.w));
  float d = abs(length(p - middle) - radius);
  float soft = 0.5 / unit;
  float rim = 1.0 - smoothstep(1.2 - soft, 1.2 + soft, d);
  float core = 1.0 - smoothstep(0.55 - soft, 0.55 + soft, d);
  if (rim <= 0.0) discard;
  colour = vec4(mix(vec3(0.10), vec3(0.96), core), max(core, rim * 0.75));
})";

}  // namespace

float ring_radius(float delta_e) {
  return kRingUnit * std::sqrt(std::clamp(delta_e, 0.f, kRingMost));
}

void RingsGl::rebuild() {
  texture_ = 0;
  program_ = make_program(kVertex, kFragment);
  place_ = glGetUniformLocation(program_, "place");
  unit_ = glGetUniformLocation(program_, "unit");
  canvas_ = glGetUniformLocation(program_, "canvas");
  glUseProgram(program_);
  glUniform4f(glGetUniformLocation(program_, "sizes"), kRingCell, kRingUnit, kRingLeast, kRingMost);
  glUseProgram(0);
  glGenVertexArrays(1, &array_);
}

RingsGl::~RingsGl() {
  glDeleteProgram(program_);
  glDeleteVertexArrays(1, &array_);
  if (texture_ != 0) glDeleteTextures(1, &texture_);
}

void RingsGl::upload(const std::vector<uint8_t>& tenths, uint32_t width, uint32_t height) {
  if (texture_ == 0) glGenTextures(1, &texture_);
  glBindTexture(GL_TEXTURE_2D, texture_);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, GLsizei(width), GLsizei(height), 0, GL_RED,
               GL_UNSIGNED_BYTE, tenths.data());
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  texture_changed();
}

void RingsGl::begin(float width, float height, float ratio) {
  width_ = width;
  height_ = height;
  ratio_ = ratio;
  if (told_) return;
  glEnable(GL_SCISSOR_TEST);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glUseProgram(program_);
  glBindVertexArray(array_);
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, texture_);
}

void RingsGl::draw(const Rect& place, const Rect& clip) {
  if (texture_ == 0 || clip.w <= 0 || clip.h <= 0) return;
  if (told_) return told_->add_values(place, clip);
  const float tall = std::round(height_ * ratio_);
  const float left = std::round(clip.x * ratio_), right = std::round(clip.right() * ratio_);
  const float top = std::round(clip.y * ratio_), bottom = std::round(clip.bottom() * ratio_);
  glScissor(GLint(left), GLint(tall - bottom), GLsizei(std::max(0.f, right - left)),
            GLsizei(std::max(0.f, bottom - top)));
  glUniform4f(place_, place.x * ratio_, place.y * ratio_, place.w * ratio_, place.h * ratio_);
  glUniform2f(canvas_, std::round(width_ * ratio_), tall);
  glUniform1f(unit_, ratio_);
  glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
}

void RingsGl::end() {
  if (told_) return;
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_BLEND);
  glBindVertexArray(0);
  glUseProgram(0);
}

}  // namespace proofleaf::shell
