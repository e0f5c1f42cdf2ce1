// Small compact spots in smooth parts: dust on a sensor or a scanned film, or a bird to look at.
//
// The lightness is looked at in three sizes, each half of the one before, so that a spot is always
// 3 to 6.5 pixels across in one of them. There a spot is darker, or lighter, than a whole circle of
// five pixels around it; its surround is a plane but for 15 % of its contrast at most (12 % around
// light spots); it is closed and compact at half contrast; and there are no more than a few such
// points nearby, for then it is a texture. Light spots on dark ground (lamps, stars) and very light
// ones (glitter) are left out.
#pragma once

#include <memory>
#include <vector>

#include "condition/condition.h"
#include "condition/shrink_rows.h"

namespace proofleaf::condition {

// One size. Rows of lightness at 1/scale of the master's size come in order.
class SpotFinder {
 public:
  // least: smallest diameter that counts [pixels of the master].
  SpotFinder(uint32_t width, uint32_t scale, double least);
  void add_row(std::span<const int16_t> l);
  // Spots in pixels of the master; the last rows have no surround and hold none.
  std::vector<Spot> spots() const;

 private:
  struct Found {
    Spot spot;      // in pixels of this size
    uint32_t cell;  // of the grid of points
  };
  void smooth(uint32_t y);
  void search(uint32_t y);
  int candidate(const int16_t* const* rows, uint32_t x) const;
  void verify(uint32_t x, uint32_t y, int sign);
  uint32_t points_near(uint32_t cell) const;

  uint32_t width_, scale_, rows_ = 0, cells_;
  double least_;
  RowRing raw_, ring_;
  std::vector<uint16_t> points_;  // by cell
  std::vector<Found> found_;
};

// All sizes.
class DustFinder {
 public:
  // dust_px: smallest diameter that counts [pixels], from the print's size.
  DustFinder(uint32_t width, double dust_px);
  void add_row(std::span<const int16_t> l);
  // Strongest first, at most kMostSpots; one spot seen in two sizes is told once.
  std::vector<Spot> spots() const;

 private:
  struct Size {
    RowShrinker shrinker;
    SpotFinder finder;
  };
  std::vector<Size> sizes_;
};

}  // namespace proofleaf::condition
