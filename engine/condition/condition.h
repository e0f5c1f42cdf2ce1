// The condition report of a master: what stands in the way of a good print, where, and what to do.
//
// One pass over the file at full size, row by row, in bounded memory; the same report whatever the
// number of rows read at once. All lightness is CIE L* under D50 (lightness.h says what is
// approximate).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/watch.h"
#include "codec/master.h"
#include "colour/profile.h"

namespace proofleaf {

inline constexpr size_t kMostPlaces = 12;  // of one finding
inline constexpr size_t kMostSpots = 500;  // in the list of spots
inline constexpr double kUsualPpi =
    300;  // where no print size is given; common practice, no source

struct ConditionSettings {
  std::optional<double> print_width_mm;  // of the picture on the print, > 0
  double dust_mm = 0.5;                  // smallest spot on the print that counts, 0.05..20
  uint32_t strip_rows = 64;              // rows read at once; changes nothing in the report
};

enum class Severity { act, look, good };  // mend it first; look at it at full size; nothing to do

// A box in pixels of the upright master.
struct Place {
  uint32_t x = 0, y = 0, width = 0, height = 0;
};

// One thing found. Its sentences come from words.h, by id and severity (and variant, where one
// severity has several causes), with value and numbers put in.
struct Finding {
  std::string id;  // stable word: highlights, shadows, colours, levels, banding, ...
  Severity severity = Severity::good;
  std::string variant;  // "" or the cause
  std::optional<double> value;
  std::string unit;           // of value
  std::vector<Place> places;  // biggest first, at most kMostPlaces
  std::vector<std::pair<std::string, double>> numbers = {};
  std::vector<std::string> sides = {};  // "edges" only: left, right, top, bottom, as places
};

// A small compact blob in a smooth part.
struct Spot {
  double x = 0, y = 0;  // middle [pixels]
  double diameter = 0;  // full width at half contrast [pixels]
  double contrast = 0;  // L* against its surround, negative = darker
};

// The picture at a number of pixels per inch, and how near one may stand to it.
struct PrintSize {
  double ppi = 0;
  double width_cm = 0, height_cm = 0;
  double width_in = 0, height_in = 0;
  double distance_cm = 0;  // viewing_distance_mm() / 10
};

struct ConditionReport {
  uint32_t width = 0, height = 0;
  ConditionSettings settings;
  double print_ppi = kUsualPpi;
  double dust_px = 0;
  std::vector<Finding> findings;    // act, look, good
  std::vector<std::string> unsaid;  // ids of what could not be judged
  std::vector<Spot> spots;          // strongest first, at most kMostSpots
  std::vector<PrintSize> sizes;     // 360, 300, 240, 180 ppi
};

// Examines the whole master. Error: stopped, a damaged file, or settings out of range.
Result<ConditionReport> examine(Master& master, const MasterColour& colour,
                                const ConditionSettings& settings, const Watch& watch);

// The distance [mm] from which a pixel at ppi is one arc minute wide, the acuity of a 20/20 eye
// (Snellen; ISO 8596 gives 1.0 decimal acuity the same minute): (25.4 / ppi) / tan(1/60 degree).
double viewing_distance_mm(double ppi);

}  // namespace proofleaf
