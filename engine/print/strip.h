// The test strip: one small sheet at the print's final scale, before the large print is paid for.
//
// Parts of the picture, chosen where a print goes wrong first, stand side by side, once for each
// way of making the print; below them steps of grey near black and near white and in between, for
// eye and instrument, with their names.
#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

#include "base/watch.h"
#include "print/light.h"
#include "print/size.h"
#include "raster/preview.h"

namespace proofleaf::print {

// Why a part is worth a look.
enum class PlaceReason { deepest, brightest, off_gamut, finest, chosen };
const char* word_for(PlaceReason reason);  // "deep shadows", "bright detail", ...

// A part of the picture on paper, as shares of its width and height [0..1].
struct StripPlace {
  PlaceReason reason = PlaceReason::chosen;
  double x = 0, y = 0, width = 0, height = 0;
};

inline constexpr size_t kMostPlacesOnStrip = 8;
inline constexpr size_t kMostVariants = 3;

// The deepest tones that still differ, the brightest detail, what is most off the gamut and the
// finest texture; each only where the picture has such a part, none over another.
// preview: the cropped picture, made small, in the numbers `light` is of. off_gamut: share of each
// part that is off the gamut, 0..255, `map_side` squared, of the same crop; may be empty.
// width, height: of a part, shares of the picture, more than 0 and at most 1.
Result<std::vector<StripPlace>> pick_places(const Picture& preview, const Light& light,
                                            std::span<const uint8_t> off_gamut, uint32_t map_side,
                                            double width, double height);

// A part moved so that it begins at x, y, kept inside of the picture. Error: there is no such part,
// no such number, or it would lie over another part.
Result<std::vector<StripPlace>> move_place(std::vector<StripPlace> places, size_t which, double x,
                                           double y);

struct StripSheet {
  double width_mm = 210, height_mm = 148;  // 60..2000
  double ppi = 300;                        // 36..2400, the print's own
};
inline constexpr Range kStripWidthMm{"width_mm", 60, 2000, "mm"};
inline constexpr Range kStripHeightMm{"height_mm", 60, 2000, "mm"};

// A square of one neutral L* on a ground of another.
struct StripPatch {
  std::string name;      // "B 3", "W 97", "N 50": its L*, as printed under it
  double lightness = 0;  // [L*], media-relative, in the master's profile
  double ground = 0;     // [L*]: 0 near black, 100 else
  PixelRect at;          // the square
  PixelRect ground_at;   // what surrounds it
};
struct StripTile {
  size_t place = 0, variant = 0;
  PixelRect at;    // on the sheet
  PixelRect from;  // of the picture on paper, as large
};
struct StripLabel {
  std::string text;
  uint32_t x = 0, y = 0, dot = 1;  // [pixels] top left corner, side of a dot
};
struct StripLayout {
  uint32_t width = 0, height = 0;  // [pixels]
  std::vector<StripTile> tiles;
  std::vector<StripPatch> patches;
  std::vector<StripLabel> labels;
};

struct TileSize {
  uint32_t width = 0, height = 0;
};
// The pixels of one part on a sheet with so many parts and variants. Error: the sheet is out of its
// range or too small for them.
Result<TileSize> strip_tile_size(const StripSheet& sheet, size_t places, size_t variants);

// Everything's place on the sheet. The tiles are as large as the sheet allows and lie around the
// middles of the places. picture_width, picture_height: the plan's. variants: 1..3 names, each
// printed above its row. Error: as above; no places; more than fit.
Result<StripLayout> layout_strip(const StripSheet& sheet, uint32_t picture_width,
                                 uint32_t picture_height, std::span<const StripPlace> places,
                                 std::span<const std::string> variants);

// Parts of a picture in one pass from top to bottom over only those rows in which parts lie.
// Error: one does not lie inside, stopped, a damaged file.
Result<std::vector<Picture>> cut_parts(RowSource& rows, std::span<const PixelRect> parts,
                                       const Watch& watch);

// The sheet. pictures: one for each tile, in their order, of its size, prepared at the sheet's ppi.
// Error: a picture is missing or of another size.
Result<std::unique_ptr<RowSource>> strip_rows(const StripLayout& layout, const Light& light,
                                              std::vector<Picture> pictures);

}  // namespace proofleaf::print
