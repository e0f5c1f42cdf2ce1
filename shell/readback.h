// Pixels brought back from the graphics card without waiting for it.
#pragma once

#include <cstddef>
#include <optional>

#include "base/bytes.h"

namespace proofleaf::shell {

class Readback {
 public:
  Readback() = default;
  ~Readback() { drop(); }
  Readback(const Readback&) = delete;
  Readback& operator=(const Readback&) = delete;

  // Begins to read width x height pixels of the framebuffer that is bound, from its first row on;
  // an earlier reading is forgotten. format, type: as glReadPixels takes them. size: of all
  // [bytes].
  void begin(int width, int height, unsigned format, unsigned type, size_t size);
  void drop();
  bool waiting() const { return buffer_ != 0; }
  // The pixels once they have arrived, in a later frame than begin's; empty where the context was
  // lost meanwhile.
  std::optional<Bytes> take();

 private:
  unsigned buffer_ = 0;
  void* fence_ = nullptr;
  size_t size_ = 0;
};

}  // namespace proofleaf::shell
