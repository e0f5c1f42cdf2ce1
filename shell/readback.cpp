#include "readback.h"

#include <GLES3/gl3.h>
#ifdef __EMSCRIPTEN__
#include <webgl/webgl2.h>
#endif

namespace proofleaf::shell {

void Readback::begin(int width, int height, unsigned format, unsigned type, size_t size) {
  drop();
  size_ = size;
  glGenBuffers(1, &buffer_);
  glBindBuffer(GL_PIXEL_PACK_BUFFER, buffer_);
  glBufferData(GL_PIXEL_PACK_BUFFER, GLsizeiptr(size), nullptr, GL_STREAM_READ);
  glReadPixels(0, 0, width, height, format, type, nullptr);
  glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
  fence_ = glFenceSync(GL_SYNC_GPU_COMMANDS_COMPLETE, 0);
  glFlush();
}

void Readback::drop() {
  if (buffer_ != 0) glDeleteBuffers(1, &buffer_);
  if (fence_ != nullptr) glDeleteSync(GLsync(fence_));
  buffer_ = 0;
  fence_ = nullptr;
}

std::optional<Bytes> Readback::take() {
  if (!waiting()) return std::nullopt;
  const GLenum status =
      fence_ != nullptr ? glClientWaitSync(GLsync(fence_), 0, 0) : GLenum(GL_WAIT_FAILED);
  if (status == GL_TIMEOUT_EXPIRED) return std::nullopt;
  Bytes bytes;
  if (status != GL_WAIT_FAILED) {
    bytes.resize(size_);
    glBindBuffer(GL_PIXEL_PACK_BUFFER, buffer_);
    glGetBufferSubData(GL_PIXEL_PACK_BUFFER, 0, GLsizeiptr(size_), bytes.data());
    glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
  }
  drop();
  return bytes;
}

}  // namespace proofleaf::shell
