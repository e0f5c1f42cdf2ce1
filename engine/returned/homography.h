// How a flat print lies in a photo of it: a homography of the plane.
//
//   (x, y, w) = H (u, v, 1),   the place in the photo is (x / w, y / w)
//
// Both sides are shares of a width and a height [0..1]: u, v of the print's front, x / w, y / w of
// the photo as it stands upright.
#pragma once

#include <array>
#include <optional>

namespace proofleaf::returned {

struct Point {
  double x = 0, y = 0;
};

// Of the print's front in the photo: its own top left, top right, bottom right, bottom left.
using Corners = std::array<Point, 4>;

class Homography {
 public:
  Homography() = default;  // changes nothing
  explicit Homography(const std::array<double, 9>& rows) : h_(rows) {}
  // The one that takes the unit square's corners to these, by the direct linear transform with the
  // scale set by h33 = 1: eight equations, eight unknowns (Hartley and Zisserman, "Multiple View
  // Geometry", 2nd ed., 4.1, from memory). Nothing where three corners lie on one line or a number
  // is none.
  static std::optional<Homography> to(const Corners& corners);

  Point operator()(const Point& p) const;
  Homography after(const Homography& first) const;  // this one's matrix times first's
  std::optional<Homography> inverse() const;
  Corners corners() const;  // where the unit square's corners go
  const std::array<double, 9>& rows() const { return h_; }

 private:
  std::array<double, 9> h_{1, 0, 0, 0, 1, 0, 0, 0, 1};
};

// Four corners that go round one way, none inside of the others, no three on one line.
bool is_convex(const Corners& corners);
// Of the quadrilateral, in shares of the photo's area; below 0 where it is seen mirrored.
double area_of(const Corners& corners);

// Width over height of the flat thing itself, from a photo of it: square pixels and a lens whose
// axis meets the photo's middle are taken for granted, its focal length is not known. With H's
// columns h1, h2 in pixels from the middle and w = diag(1/f^2, 1/f^2, 1),
//
//   (width / height)^2 = (h1' w h1) / (h2' w h2)
//
// (Zhang and He, "Whiteboard scanning and image enhancement", Digital Signal Processing 17 (2007),
// from memory). f from kShortest to kLongest times the photo's longer side are tried; where the
// sides lean enough, f is known from h1' w h2 = 0 and the range is narrowed around it.
struct ShapeSeen {
  double ratio = 1;   // width over height
  double within = 0;  // [share of ratio] half the spread of what f leaves open
};
inline constexpr double kShortest = 0.6, kLongest = 2.5;  // common practice: 22 to 90 mm at 36 mm
// flat: a scan, which has no lens; photo_ratio: the photo's width over height.
ShapeSeen shape_seen(const Homography& print_to_photo, double photo_ratio, bool flat);

// How long the front's two middle lines are in a photo of that width and height, in their unit: x
// the one across, y the one down.
Point middle_lengths(const Homography& print_to_photo, double width, double height);

}  // namespace proofleaf::returned
