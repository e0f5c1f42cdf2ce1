#include "picture_gl.h"

#include <GLES3/gl3.h>

#include <algorithm>
#include <cmath>

#include "program_gl.h"

namespace proofleaf::shell {
namespace {

// One quad, its corners made from the vertex number; `place` is x, y, width, height in device
// pixels from the top left.
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

constexpr char kPlain[] = R"(#version 300 es
precision highp float;
uniform sampler2D layer;
in vec2 at;
out vec4 colour;
void main() { colour = vec4(texture(layer, at).rgb, 1.0); })";

// The marking is laid over the screen like the veins of a leaf: columns of short strokes that lean
// against those of the next column and stand between them, light inside and dark around so that
// they show on any colour. `unit` is one CSS pixel in device pixels; marks is the threshold in the
// fourth channel's range. Whether a place is marked is asked on the stroke's axis, for clean edges,
// and a little blurred.
constexpr char kMarked[] = R"(#version 300 es
precision highp float;
uniform sampler2D layer;
uniform vec4 place;
uniform float marks;
uniform float unit;
in vec2 at;
out vec4 colour;

const vec2 kCell = vec2(11.0, 10.0);
const vec2 kTip = vec2(3.6, 2.6);
const float kBlur = 1.6;

void main() {
  colour = vec4(texture(layer, at).rgb, 1.0);
  vec2 across = dFdx(at) * kBlur, down = dFdy(at) * kBlur;
  vec2 p = gl_FragCoord.xy / unit;
  float side = mod(floor(p.x / kCell.x), 2.0);
  p.y += side * kCell.y * 0.5;
  vec2 local = mod(p, kCell) - kCell * 0.5;
  vec2 tip = side < 0.5 ? vec2(kTip.x, -kTip.y) : kTip;
  vec2 axis = clamp(dot(local, tip) / dot(tip, tip), -1.0, 1.0) * tip;
  float d = length(local - axis);
  float soft = 0.5 / unit;
  if (d > 1.5 + soft) return;
  vec2 shift = (axis - local) * unit / place.zw;
  if (textureGrad(layer, at + vec2(shift.x, -shift.y), across, down).a < marks) return;
  float rim = 1.0 - smoothstep(1.5 - soft, 1.5 + soft, d);
  float core = 1.0 - smoothstep(0.7 - soft, 0.7 + soft, d);
  colour.rgb = mix(colour.rgb, vec3(0.10), rim * 0.8);
  colour.rgb = mix(colour.rgb, vec3(0.96), core);
})";

// A picture longer than the graphics card takes is shown with every step-th pixel.
std::vector<uint8_t> thinned(const Picture& picture, const std::vector<uint8_t>& rgba,
                             uint32_t step, uint32_t columns, uint32_t rows) {
  std::vector<uint8_t> out(size_t{columns} * rows * 4);
  for (uint32_t row = 0; row < rows; ++row)
    for (uint32_t column = 0; column < columns; ++column)
      std::copy_n(&rgba[(size_t{row} * step * picture.columns + size_t{column} * step) * 4], 4,
                  &out[(size_t{row} * columns + column) * 4]);
  return out;
}

}  // namespace

PictureGl::Pass::Pass(const char* vertex, const char* fragment)
    : program(make_program(vertex, fragment)),
      place(glGetUniformLocation(program, "place")),
      canvas(glGetUniformLocation(program, "canvas")),
      marks(glGetUniformLocation(program, "marks")),
      unit(glGetUniformLocation(program, "unit")) {}

void PictureGl::rebuild() {
  plain_ = Pass(kVertex, kPlain);
  marked_ = {};  // when first wanted
  glGenVertexArrays(1, &array_);
  glGetIntegerv(GL_MAX_TEXTURE_SIZE, &largest_side_);
  largest_side_ = std::clamp(largest_side_, 1024, 8192);
}

void blend_bound_texture() {
  glGenerateMipmap(GL_TEXTURE_2D);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
}

PictureGl::~PictureGl() {
  for (const Pass& pass : {plain_, marked_}) glDeleteProgram(pass.program);
  glDeleteVertexArrays(1, &array_);
}

void PictureGl::upload(const Picture& picture, Layer& layer) {
  if (layer.texture == 0) glGenTextures(1, &layer.texture);
  glBindTexture(GL_TEXTURE_2D, layer.texture);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  const uint32_t side = std::max(picture.columns, picture.rows);
  const uint32_t step = (side + uint32_t(largest_side_) - 1) / uint32_t(largest_side_);
  const uint32_t columns = std::max(1u, picture.columns / step);
  const uint32_t rows = std::max(1u, picture.rows / step);
  const std::vector<uint8_t> thin =
      step > 1 ? thinned(picture, layer.shown, step, columns, rows) : std::vector<uint8_t>{};
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, GLsizei(columns), GLsizei(rows), 0, GL_RGBA,
               GL_UNSIGNED_BYTE, step > 1 ? thin.data() : layer.shown.data());
  blend_bound_texture();
  texture_changed();
}

void PictureGl::drop(Layer& layer) {
  if (layer.texture != 0) glDeleteTextures(1, &layer.texture);
  layer = Layer{};
}

void PictureGl::begin(float width, float height, float ratio) {
  width_ = width;
  height_ = height;
  ratio_ = ratio;
  if (told_) return told_->add_values(width, height, ratio);
  glViewport(0, 0, GLsizei(std::lround(width * ratio)), GLsizei(std::lround(height * ratio)));
  glDisable(GL_SCISSOR_TEST);
  const float table = float(grey::kTable & 0xFF) / 255;
  glClearColor(table, table, table, 1);
  glClear(GL_COLOR_BUFFER_BIT);
  glDisable(GL_BLEND);
  glDisable(GL_CULL_FACE);
  glDisable(GL_DEPTH_TEST);
  glEnable(GL_SCISSOR_TEST);
  glBindVertexArray(array_);
  glActiveTexture(GL_TEXTURE0);
}

void PictureGl::cut_to(const Rect& clip) const {
  const float tall = std::round(height_ * ratio_);
  const float left = std::round(clip.x * ratio_), right = std::round(clip.right() * ratio_);
  const float top = std::round(clip.y * ratio_), bottom = std::round(clip.bottom() * ratio_);
  glScissor(GLint(left), GLint(tall - bottom), GLsizei(std::max(0.f, right - left)),
            GLsizei(std::max(0.f, bottom - top)));
}

void PictureGl::fill(const Rect& rect, ImU32 colour) const {
  if (told_) return told_->add_values(rect, colour);
  const ImVec4 parts = ImGui::ColorConvertU32ToFloat4(colour);
  cut_to(rect);
  glClearColor(parts.x, parts.y, parts.z, 1);
  glClear(GL_COLOR_BUFFER_BIT);
}

void PictureGl::draw(const Layer& layer, const Rect& place, const Rect& clip, int marks,
                     bool pixels) {
  if (layer.texture == 0 || clip.w <= 0 || clip.h <= 0) return;
  if (told_) return told_->add_values(layer.texture, place, clip, marks, pixels);
  cut_to(clip);
  glBindTexture(GL_TEXTURE_2D, layer.texture);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, pixels ? GL_NEAREST : GL_LINEAR);
  if (marks > 0 && marked_.program == 0) marked_ = Pass(kVertex, kMarked);
  const Pass& pass = marks > 0 ? marked_ : plain_;
  glUseProgram(pass.program);
  glUniform4f(pass.place, place.x * ratio_, place.y * ratio_, place.w * ratio_, place.h * ratio_);
  glUniform2f(pass.canvas, std::round(width_ * ratio_), std::round(height_ * ratio_));
  glUniform1f(pass.marks, float(marks) * 10 / 255 - 0.5f / 255);
  glUniform1f(pass.unit, ratio_);
  glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
}

void PictureGl::end() {
  if (told_) return;
  glDisable(GL_SCISSOR_TEST);
  glBindVertexArray(0);
  glUseProgram(0);
}

}  // namespace proofleaf::shell
