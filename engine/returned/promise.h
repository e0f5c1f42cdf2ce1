// What the returned print is to look like: the proof of the whole front of the sheet.
#pragma once

#include "base/watch.h"
#include "paper/paper.h"
#include "proof/chain.h"
#include "raster/preview.h"
#include "recipe/recipe.h"
#include "returned/plane.h"

namespace proofleaf::returned {

inline constexpr uint64_t kMostPromised = 1'600'000;  // [pixels] of a promise

// L*a*b* D50 relative to the paper's white, as eyes used to it see the print. The front is the
// picture with its border and mat; a bleed is trimmed away and a wrapped edge lies out of sight.
struct Promise {
  Plane l, a, b;
  double width_mm = 0, height_mm = 0;  // of the front
  // The picture within the front, shares of its sides.
  double left = 0, top = 0, right = 1, bottom = 1;
  Lab paper_white;  // absolute L*a*b* D50
  // Where the picture lies on the master, shares of the master.
  print::Crop crop;

  bool has_border() const { return right - left < 1; }
  double mm_per_pixel() const { return width_mm / l.width; }
};

// picture: the master made small, in the profile `master`, uncorrected; master_width, master_height
// and ppi: as plan_of() (recipe/recipe.h) wants them. Error: an empty picture, a plan that cannot
// be, profiles that cannot be joined, stopped.
Result<Promise> promise_of(const Picture& picture, const Profile& master, uint32_t master_width,
                           uint32_t master_height, const Recipe& recipe, double ppi,
                           const Paper& paper, PrintIntent print, const Watch& watch);

}  // namespace proofleaf::returned
