// One value a pixel, in memory. Internal to the engine.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace proofleaf::returned {

struct Plane {
  uint32_t width = 0, height = 0;  // [pixels]
  std::vector<float> values;       // row by row

  Plane() = default;
  Plane(uint32_t its_width, uint32_t its_height, float fill = 0)
      : width(its_width), height(its_height), values(size_t{its_width} * its_height, fill) {}
  float& at(uint32_t x, uint32_t y) { return values[size_t{y} * width + x]; }
  float at(uint32_t x, uint32_t y) const { return values[size_t{y} * width + x]; }
  bool empty() const { return values.empty(); }
  // Bilinear; u, v: shares of the sides [0..1], 0 the outer edge of the first pixel. Places outside
  // are the nearest edge's. The plane is not empty.
  float sample(double u, double v) const;
};

// Three box means one after another, close to a Gaussian of that standard deviation [pixels]; edges
// are repeated. A deviation under half a pixel changes nothing.
Plane blurred(const Plane& plane, double sigma);

// Means of 2 x 2 pixels; odd sides are rounded up.
Plane halved(const Plane& plane);

// A picture and its halvings down to a side of about 32 pixels, the largest first.
using Pyramid = std::vector<Plane>;
Pyramid pyramid_of(Plane plane);

// Means over whole cells of a plane: width x height of them, at most the plane's own.
Plane shrunk(const Plane& plane, uint32_t width, uint32_t height);

// The middle value, 0 of none; the order of `values` changes.
double median_of(std::vector<float>& values);

}  // namespace proofleaf::returned
