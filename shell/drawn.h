// What a frame draws, so that one that would look like the frame before it need not be drawn: a
// tablet's battery, or a processor that stands in for a graphics card, pays for each.
#pragma once

#include <cstddef>
#include <cstdint>
#include <type_traits>

struct ImDrawData;

namespace proofleaf::shell {

class Drawn {
 public:
  void add(const void* bytes, size_t count);
  // Values without gaps between their members.
  template <typename... T>
  void add_values(const T&... values) {
    static_assert((std::is_trivially_copyable_v<T> && ...));
    (add(&values, sizeof values), ...);
  }
  void add(const ImDrawData& data);
  uint64_t sum() const { return sum_; }

 private:
  uint64_t sum_ = 0xCBF29CE484222325;  // FNV-1a, 64 bits (its authors' offset and prime)
};

// To be called wherever a texture that is on the screen gets other content.
void texture_changed();
uint32_t texture_changes();

}  // namespace proofleaf::shell
