// Pictures as functions of place, and as rows of any size.
#pragma once

#include <memory>
#include <string>

#include "colour.h"
#include "raster/rows.h"

namespace proofleaf::demo {

// A place in the picture: y from 0 (top) to 1, x from 0 to the picture's aspect as composed (4/3
// for the saltings, 3/4 for the stairwell); `pixel` is the side of a pixel in the same unit, the
// finest detail that may be drawn.
struct Place {
  float x = 0, y = 0, pixel = 0.001f;
};

Light saltings(const Place& at);   // "Last Light over the Saltings"
float stairwell(const Place& at);  // "Stairwell, Noon": linear light 0..1

enum class Scene { saltings, stairwell };

// A scene as 16-bit rows: ROMM RGB for the saltings, grey with gamma 2.2 for the stairwell. A fine
// grain is added, and values keep only their upper `keep_bits` (8..16), rounded, so that a small
// example need not store noise to the last bit. Several threads may be used for one read.
std::unique_ptr<RowSource> render(Scene scene, uint32_t width, uint32_t height, int keep_bits);

}  // namespace proofleaf::demo
