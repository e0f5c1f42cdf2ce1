// Draws rings over the picture with OpenGL ES 3: a ring's area grows with the difference there.
#pragma once

#include <cstdint>
#include <vector>

#include "drawn.h"
#include "look.h"

namespace proofleaf::shell {

inline constexpr float kRingCell = 11;    // rings stand that far apart [CSS px]
inline constexpr float kRingUnit = 1.1f;  // radius of a ring for 1 dE00 [CSS px]
inline constexpr float kRingMost = 20;    // [dE00] larger differences look like this one
inline constexpr float kRingLeast = 1;    // [dE00] smaller ones have none
// Area in proportion to the difference, so radius to its root. [CSS px]
float ring_radius(float delta_e);

class RingsGl {
 public:
  RingsGl() { rebuild(); }
  ~RingsGl();
  RingsGl(const RingsGl&) = delete;
  RingsGl& operator=(const RingsGl&) = delete;

  // Makes everything anew; what there was went with an earlier context.
  void rebuild();

  // tenths of dE00, width * height of them.
  void upload(const std::vector<uint8_t>& tenths, uint32_t width, uint32_t height);

  // Nothing is drawn but told, until told nullptr.
  void only_tell(Drawn* drawn) { told_ = drawn; }
  // Sizes in CSS pixels; the rings are fixed to the picture, which lies at `place`.
  void begin(float width, float height, float ratio);
  void draw(const Rect& place, const Rect& clip);
  void end();

 private:
  Drawn* told_ = nullptr;
  unsigned program_ = 0, array_ = 0, texture_ = 0;
  int place_ = -1, unit_ = -1, canvas_ = -1;
  float width_ = 0, height_ = 0, ratio_ = 1;
};

}  // namespace proofleaf::shell
