// The pieces of "Last Light over the Saltings". Coordinates as in scene.h; each piece returns
// light, or light with how much it covers what lies behind.
#pragma once

#include "scene.h"

namespace proofleaf::demo {

inline constexpr float kHorizon = 0.44f;                  // y of the far shore
inline constexpr float kSunX = 0.90f, kSunY = 0.385f;     // the sun, just above the hills
inline constexpr float kBoatX = 0.565f, kBoatY = 0.600f;  // waterline amidships
inline constexpr float kBoatSize = 0.108f;                // half its length

struct Piece {
  Light light;
  float cover = 0;  // 0..1
};

// Sky, sun, clouds and the hills of the far shore; y at or above the horizon.
Light sky_and_hills(float x, float y, float pixel);

// A moored boat with lit cabin and mast, in its own coordinates: u along, -1 (bow) to 1; v up from
// the waterline, in half lengths. `fine` is a pixel in those units.
Piece boat(float u, float v, float fine);
// Light the lamps throw around themselves, to be added.
Light boat_glow(float u, float v);

// Reeds before everything else, right and left of the picture.
Piece reeds(const Place& at);
// Sea lavender and other flowers on the near bank.
Piece flowers(const Place& at);

}  // namespace proofleaf::demo
