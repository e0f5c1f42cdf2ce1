// What a print is to be, and the exact pixels that make it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "print/ranges.h"

namespace proofleaf::print {

// A part of the master, as shares of its width and height [0..1].
struct Crop {
  double x = 0, y = 0, width = 1, height = 1;
};

enum class SignaturePlace { left, middle, right };

// Picture carried on past its edge: not at all; a bleed that is trimmed away, filled with the
// picture mirrored or with its last pixels drawn out; or an edge that goes round a stretcher frame,
// always mirrored.
enum class EdgeKind { none, bleed_mirrored, bleed_extended, wrapped };

struct PrintSize {
  // Of the picture itself [mm]. One side empty: it follows from the crop. Both empty: as large as
  // the print house takes.
  std::optional<double> width_mm, height_mm;  // 10..20000
  std::optional<double> ppi;                  // 36..2400; empty: chosen from the house's steps
  Crop crop;
  // Where both sides are given and the crop has another shape: true trims the crop around its
  // middle, false is an error. A picture is never stretched.
  bool ratio_locked = true;
  EdgeKind edge = EdgeKind::none;
  double edge_mm = 0;    // 0..200, on each side
  double border_mm = 0;  // 0..1000, paper white around the picture, on each side
  double mat_mm = 0;     // 0..1000, more paper white outside of it, to lie under a mat or a frame
  bool signature_line = false;  // a thin line to sign on, in the lower border
  SignaturePlace signature_place = SignaturePlace::right;
};

struct HouseLimits {
  double maximum_side_mm = 5000;    // 10..20000, of the whole sheet, either side
  double largest_file_bytes = 2e9;  // 1e5..1e12
  std::vector<double> ppi_steps;    // 36..2400 each, at most 32; empty: any
};

// Ranges of the fields above; the names are those of the JSON.
inline constexpr Range kWidthMm{"width_mm", 10, 20000, "mm"};
inline constexpr Range kHeightMm{"height_mm", 10, 20000, "mm"};
inline constexpr Range kPpi{"ppi", 36, 2400, phrase("pixels per inch")};
inline constexpr Range kEdgeMm{"edge_mm", 0, 200, "mm"};
inline constexpr Range kBorderMm{"border_mm", 0, 1000, "mm"};
inline constexpr Range kMatMm{"mat_mm", 0, 1000, "mm"};
inline constexpr Range kMaximumSideMm{"maximum_side_mm", 10, 20000, "mm"};
inline constexpr Range kLargestFile{"largest_file_bytes", 1e5, 1e12, "bytes"};
inline constexpr Range kPpiStep{"ppi_steps", 36, 2400, phrase("pixels per inch")};
inline constexpr size_t kMostPpiSteps = 32;
inline constexpr double kLeastBorderToSign = 8;  // [mm], room for a name under the picture

struct PixelRect {
  uint32_t x = 0, y = 0, width = 0, height = 0;
};

// All in whole pixels; what is asked in mm is rounded to the nearest.
struct PrintPlan {
  PixelRect crop;                  // of the master
  uint32_t width = 0, height = 0;  // the picture on paper, without edge and border
  uint32_t edge = 0;               // on each side, carrying the picture on
  uint32_t border = 0, mat = 0;    // on each side, paper white; the border is the inner one
  uint32_t sheet_width = 0, sheet_height = 0;
  EdgeKind edge_kind = EdgeKind::none;
  bool signature_line = false;
  SignaturePlace signature_place = SignaturePlace::right;
  double ppi = 0;                                  // of the file that is printed
  double width_mm = 0, height_mm = 0;              // of the picture
  double sheet_width_mm = 0, sheet_height_mm = 0;  // with edge, border and mat
  double enlargement = 1;    // pixels on paper per pixel of the master, along a side
  double effective_ppi = 0;  // the master's own pixels per inch of paper
  // From here on a pixel of the master is under one arc minute wide, the detail a 20/20 eye
  // resolves (viewing_distance_mm() in condition/condition.h).
  double reading_distance_mm = 0;
  double file_bytes = 0;              // uncompressed, 8 bits, three channels
  std::vector<std::string> warnings;  // plain sentences
};

// Error, as a sentence that names the field: a number that is none or out of its range, a crop that
// does not lie inside or holds no pixel, a crop and sides of different shape without ratio_locked,
// an edge together with a border, a signature line without room, a ppi the house does not take, a
// print larger than the house takes, more pixels than a file can hold.
Result<PrintPlan> plan_print(uint32_t master_width, uint32_t master_height, const PrintSize& size,
                             const HouseLimits& limits);

// Every field by itself, as plan_print() checks it.
Status check(const PrintSize& size);
Status check(const HouseLimits& limits);

}  // namespace proofleaf::print
