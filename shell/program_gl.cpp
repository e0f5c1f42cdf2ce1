#include "program_gl.h"

#include <GLES3/gl3.h>

#include <array>

namespace proofleaf::shell {

static unsigned compile(GLenum kind, const char* source) {
  const unsigned shader = glCreateShader(kind);
  glShaderSource(shader, 1, &source, nullptr);
  glCompileShader(shader);
  return shader;
}

unsigned make_program(const char* vertex, const char* fragment) {
  const unsigned program = glCreateProgram();
  const std::array<unsigned, 2> shaders{compile(GL_VERTEX_SHADER, vertex),
                                        compile(GL_FRAGMENT_SHADER, fragment)};
  for (const unsigned shader : shaders) glAttachShader(program, shader);
  glLinkProgram(program);
  for (const unsigned shader : shaders) glDeleteShader(shader);
  return program;
}

bool program_works(unsigned program, std::string* why) {
  GLint linked = 0;
  glGetProgramiv(program, GL_LINK_STATUS, &linked);
  if (linked != 0) return true;
  std::array<char, 512> said{};
  glGetProgramInfoLog(program, GLsizei(said.size()), nullptr, said.data());
  *why = said.data();
  return false;
}

}  // namespace proofleaf::shell
