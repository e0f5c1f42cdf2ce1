// The light a photo was taken in, and what a camera made of tones, told apart from the print.
//
//   log Y(photo) = fall(u, v) + curve(L*(promise))
//
// fall: a plane and its squares over the front, at most that smooth; curve: straight between knots
// ten L* apart. Both at once by least squares in which differences beyond three spreads count less
// (iteratively reweighted, Huber's weights), on means of small cells.
#pragma once

#include <array>
#include <optional>

#include "returned/photo.h"
#include "returned/promise.h"

namespace proofleaf::returned {

// The photo as the print lies in it, pixel for pixel with the promise.
struct Laid {
  std::array<Plane, 3> xyz;  // relative to the photo's white; below 0: outside of the photo
  Plane clipped;             // shares
  bool outside(size_t pixel) const { return xyz[1].values[pixel] < 0; }
};

struct Fall {
  std::array<double, 5> of{};           // of u, v, u^2, u v, v^2, from the front's middle
  double at(double u, double v) const;  // natural logarithm of the light, 0 in the middle
  double darkest() const;               // the least over the front as a share of the most [0..1]
};

// 11 knots of log Y at promised L* 0, 10, .. 100.
using ToneKnots = std::array<double, 11>;

struct Evened {
  Fall fall;
  ToneKnots curve{};
  double off = 0;  // the usual departure from both [log Y]
};
// Error: too little of the print lies in the photo.
Result<Evened> even_out(const Laid& laid, const Promise& promise);
// Takes the fall off: all three of xyz.
void apply(const Fall& fall, Laid& laid);

// Where white is known from.
enum class WhiteFrom { border, neutral, none };

struct White {
  WhiteFrom from = WhiteFrom::none;
  XYZ seen;           // of the photo, to become the paper's white
  double uneven = 0;  // [C*] how far the border's four sides are from one another in colour
};
// The border's white, where there is one at least three pixels wide and not blown out.
std::optional<White> border_white(const Laid& laid, const Promise& promise);
// A neutral place's light (XYZ, of the photo, evened) as the white it stands for: its colour is
// that of a perfect neutral, and the promise's paper white is seen beside it.
White neutral_white(const XYZ& place, const Promise& promise, const Evened& evened);
// Without either: what makes the whole picture's colours agree with the promise in the middle. It
// hides a cast.
White fitted_white(const Laid& laid, const Promise& promise);

// L*a*b* relative to the paper's white, adapted by Bradford (ICC.1:2022 annex E, the matrix from
// memory); outside of the photo L* is below 0.
struct Seen {
  Plane l, a, b;
};
Seen seen_under(const White& white, const Laid& laid);

}  // namespace proofleaf::returned
