// The print that came back, seen in a photo or a scan, against what was promised.
//
// A photo tells no absolute colour: the light it was taken in and the camera's own tone curve stand
// between. Both are taken out as far as they can be told apart from the print (even.h), and what
// that hides is said beside each finding.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "returned/align.h"
#include "returned/even.h"
#include "returned/photo.h"
#include "returned/promise.h"

namespace proofleaf::returned {

enum class Found { fine, look, wrong, untold };

// Shape, and what was cut off. Lengths by the promise's own scale, so that the picture's content is
// the ruler; a scan whose resolution is known measures by itself.
struct SizeFound {
  Found verdict = Found::untold;
  double wider = 0;         // [per cent] width over height against the order; above 0: wider
  double wider_within = 0;  // [per cent] what the photo leaves open
  std::optional<double> width_mm, height_mm;  // of the front, from a scan's own resolution
  // How much of the front is missing at each side [mm], left, top, right, bottom; below 0: there is
  // more than ordered. Empty: the edge could not be told from what lies behind it.
  std::array<std::optional<double>, 4> cut;
  double cut_within = 0;  // [mm]
};

// Greys: what the promise says is neutral (C* under 4), in three tones.
struct GreyFound {
  double l = 0;         // the promise's mean L*
  double a = 0, b = 0;  // how far the print is from the promise
  double share = 0;     // of the front [0..1]
};
struct CastFound {
  Found verdict = Found::untold;
  WhiteFrom white = WhiteFrom::none;
  bool mixed_light = false;        // the border's sides differ in colour: nothing is judged
  std::array<GreyFound, 3> greys;  // shadows, middle, lights; share 0: too few to tell
  double largest = 0;              // [C*] of those
};

// One step of the promise's deep tones.
struct ShadowStep {
  double l = 0;     // lower end [L*], relative to paper white; kShadowStep wide
  double kept = 0;  // rise in the print as a share of the promise's
  enum { apart, closed, unsure } is = unsure;
};
inline constexpr double kShadowStep = 2, kDeepest = 30;  // [L*]
struct ShadowFound {
  Found verdict = Found::untold;
  std::vector<ShadowStep> steps;               // rising
  std::optional<double> closed_until;          // [L*] of the promise; tones below it are one tone
  std::optional<std::array<double, 4>> place;  // where most of them are: x, y, w, h of the front
};

// How light the print's tones are in the photo against the promise's; the camera's curve is in it.
struct ToneFound {
  double l = 0, off = 0;  // promised [L*]; photo minus promise
};

enum class MarkKind { spot, scratch, band };
struct Mark {
  MarkKind kind = MarkKind::spot;
  double x = 0, y = 0, w = 0, h = 0;  // box, shares of the front
  double length_mm = 0, width_mm = 0;
  double contrast = 0;  // [L*] of the print against its promise; above 0: lighter
};
inline constexpr size_t kMostMarks = 100;
struct MarksFound {
  Found verdict = Found::untold;
  std::vector<Mark> marks;  // the most conspicuous first
  double least_mm = 0;      // marks from this size on were looked for
  double glare = 0;         // share of the picture blown out by a reflection, not looked at
};

struct Comparison {
  Homography print_to_photo;
  double match = 0;        // of the promise in the photo, -1..1
  bool refined = false;    // the corners were moved until the pictures agreed
  double bend = 0;         // [shares of the longer side] what no flat plane explains
  double light_falls = 1;  // the darkest place's light as a share of the brightest
  SizeFound size;
  CastFound cast;
  ShadowFound shadow;
  std::vector<ToneFound> tones;
  MarksFound marks;
  Seen seen;  // the print as it lies flat, evened; pixel for pixel with the promise
};

struct Settings {
  std::optional<Corners> corners;   // shares of the photo; empty: looked for
  bool refine = true;               // move them until the pictures agree
  bool scan = false;                // flat and evenly lit, no lens
  std::optional<double> photo_ppi;  // of a scan, as its file says, in the pixels of `photo`
  std::optional<Point> neutral;     // a place in the photo that is a neutral grey or white
  double mark_mm = 1.5;             // 0.2..50, the smallest mark that counts
};

// Error: corners that are none, a photo in which the print cannot be found, too little of the print
// in it, stopped.
Result<Comparison> compare(const Promise& promise, const Photo& photo, const Settings& settings,
                           const Watch& watch);

// The parts, each in a file of its own. Internal to this folder.
SizeFound find_size(const Promise& promise, const Photo& photo, const Comparison& so_far,
                    const Settings& settings, const Bend& bend);
CastFound find_cast(const Promise& promise, const Laid& laid, const Seen& seen, const White& white);
std::vector<ToneFound> find_tones(const Promise& promise, const Laid& laid, const Seen& seen);
ShadowFound find_shadow(const Promise& promise, const Laid& laid, const Seen& seen);
MarksFound find_marks(const Promise& promise, const Laid& laid, const Seen& seen,
                      const std::vector<ToneFound>& tones, double mark_mm);

}  // namespace proofleaf::returned
