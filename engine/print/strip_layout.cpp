#include <algorithm>
#include <cmath>

#include "base/digits.h"
#include "print/dot_letters.h"
#include "print/strip.h"

namespace proofleaf::print {
namespace {

// In millimetres; common practice, no source: patches wide enough for a hand-held instrument.
constexpr double kMargin = 4, kGap = 2, kPatch = 6, kGround = 1.5, kLetterHeight = 2;
constexpr double kSmallestTile = 10;

// One row of patches: near black, near white, or in between.
struct Wedge {
  const char* letter;
  double from, to, step, ground;
};
constexpr Wedge kWedges[] = {{"B", 0, 12, 1, 0}, {"W", 90, 100, 1, 100}, {"N", 20, 80, 10, 100}};

class Layouter {
 public:
  explicit Layouter(const StripSheet& sheet) : sheet_(sheet) {
    layout_.width = px(sheet.width_mm);
    layout_.height = px(sheet.height_mm);
    dot_ = std::max(1u, px(kLetterHeight) / kDotsHigh);
  }

  uint32_t px(double mm) const {
    return static_cast<uint32_t>(std::max(1L, std::lround(mm / kMmPerInch * sheet_.ppi)));
  }
  uint32_t label_height() const { return dot_ * kDotsHigh + px(0.7); }
  // Patches with their grounds, as many to a line as fit.
  uint32_t per_line() const {
    const uint32_t room = layout_.width - 2 * px(kMargin);
    return std::max(1u, room / cell());
  }
  // Patch after patch, line by line, a gap of one patch between wedges that share a line; answers
  // how many lines there are.
  template <class Visit>
  uint32_t flow(const Visit& visit) const {
    uint32_t column = 0, line = 0;
    for (const Wedge& wedge : kWedges) {
      if (column > 0 && ++column + count(wedge) > per_line()) {
        column = 0;
        ++line;
      }
      for (uint32_t i = 0; i < count(wedge); ++i, ++column) {
        if (column == per_line()) {
          column = 0;
          ++line;
        }
        visit(wedge, i, column, line);
      }
    }
    return line + 1;
  }
  uint32_t lines_of_patches() const {
    return flow([](const Wedge&, uint32_t, uint32_t, uint32_t) {});
  }
  uint32_t line_height() const { return cell() + label_height() + px(kGap); }
  // Where the patches begin.
  int64_t patches_top() const {
    return int64_t{layout_.height} - px(kMargin) - int64_t{lines_of_patches()} * line_height();
  }

  Result<TileSize> tile(size_t places, size_t variants) const {
    const auto columns = static_cast<int64_t>(places), rows = static_cast<int64_t>(variants);
    const int64_t across = int64_t{layout_.width} - 2 * px(kMargin) - (columns - 1) * px(kGap);
    // Above the first row stands why the parts were chosen, above each the variant's name.
    const int64_t down = patches_top() - px(kMargin) - label_height() - px(kGap) -
                         rows * (label_height() + px(kGap));
    const int64_t width = across / columns, height = down / rows;
    if (width < px(kSmallestTile) || height < px(kSmallestTile)) {
      return Error{
          "A sheet of {} x {} mm is too small for that many parts and ways of printing; take a "
          "larger sheet or fewer of them.",
          plain_number(sheet_.width_mm), plain_number(sheet_.height_mm)};
    }
    return TileSize{static_cast<uint32_t>(width), static_cast<uint32_t>(height)};
  }

  void add_tiles(TileSize cell, TileSize picture, std::span<const StripPlace> places,
                 std::span<const std::string> variants) {
    uint32_t y = px(kMargin);
    const uint32_t width = std::min(cell.width, picture.width);
    const uint32_t height = std::min(cell.height, picture.height);
    const auto left = [&](size_t place) {
      return px(kMargin) + static_cast<uint32_t>(place) * (cell.width + px(kGap));
    };
    for (size_t p = 0; p < places.size(); ++p) {
      label(word_for(places[p].reason), left(p), y, cell.width);
    }
    y += label_height() + px(kGap);
    for (size_t v = 0; v < variants.size(); ++v) {
      label(variants[v], left(0), y, layout_.width - 2 * px(kMargin));
      y += label_height();
      for (size_t p = 0; p < places.size(); ++p) {
        const StripPlace& place = places[p];
        layout_.tiles.push_back(
            {p,
             v,
             {left(p), y, width, height},
             {start(place.x + place.width / 2, picture.width, width),
              start(place.y + place.height / 2, picture.height, height), width, height}});
      }
      y += cell.height + px(kGap);
    }
  }

  void add_patches() {
    const auto top = static_cast<uint32_t>(patches_top());
    flow([&](const Wedge& wedge, uint32_t i, uint32_t column, uint32_t line) {
      add_patch(wedge, wedge.from + i * wedge.step, px(kMargin) + column * cell(),
                top + line * line_height());
    });
  }
  StripLayout take() { return std::move(layout_); }

 private:
  uint32_t cell() const { return px(kPatch) + 2 * px(kGround); }
  static uint32_t count(const Wedge& wedge) {
    return static_cast<uint32_t>(std::lround((wedge.to - wedge.from) / wedge.step)) + 1;
  }
  // First pixel of a run around a middle [share of the side], inside of the side.
  static uint32_t start(double middle, uint32_t side, uint32_t length) {
    const double first = std::round(middle * side - length / 2.0);
    return static_cast<uint32_t>(std::clamp(first, 0.0, double(side - length)));
  }

  void add_patch(const Wedge& wedge, double l, uint32_t x, uint32_t y) {
    const uint32_t inset = px(kGround), side = px(kPatch);
    StripPatch patch;
    patch.name = std::string(wedge.letter) + " " + plain_digits(l);
    patch.lightness = l;
    patch.ground = wedge.ground;
    patch.at = {x + inset, y + inset, side, side};
    patch.ground_at = {x, y, cell(), cell()};
    label(patch.name, x + inset, y + cell() + px(0.3), cell() - inset);
    layout_.patches.push_back(std::move(patch));
  }

  // What does not fit into the width is left off.
  void label(std::string text, uint32_t x, uint32_t y, uint32_t width) {
    while (!text.empty() && dots_wide(text) * dot_ > width) text.pop_back();
    if (!text.empty()) layout_.labels.push_back({std::move(text), x, y, dot_});
  }

  StripSheet sheet_;
  StripLayout layout_;
  uint32_t dot_ = 1;
};

Status check(const StripSheet& sheet, size_t places, size_t variants) {
  if (auto sound = within(kStripWidthMm, sheet.width_mm); !sound) return sound;
  if (auto sound = within(kStripHeightMm, sheet.height_mm); !sound) return sound;
  if (auto sound = within(kPpi, sheet.ppi); !sound) return sound;
  if (places == 0 || places > kMostPlacesOnStrip) {
    return Error{"A strip holds 1 to {} parts of the picture, not {}.", kMostPlacesOnStrip, places};
  }
  if (variants == 0 || variants > kMostVariants) {
    return Error{"A strip holds 1 to {} ways of printing, not {}.", kMostVariants, variants};
  }
  constexpr double kLongest = 60000;  // [pixels]
  if (std::max(sheet.width_mm, sheet.height_mm) / kMmPerInch * sheet.ppi > kLongest) {
    return Error{"The strip's sheet has too many pixels; take a smaller one."};
  }
  return done();
}

}  // namespace

Result<TileSize> strip_tile_size(const StripSheet& sheet, size_t places, size_t variants) {
  if (auto sound = check(sheet, places, variants); !sound) return sound.error();
  return Layouter(sheet).tile(places, variants);
}

Result<StripLayout> layout_strip(const StripSheet& sheet, uint32_t picture_width,
                                 uint32_t picture_height, std::span<const StripPlace> places,
                                 std::span<const std::string> variants) {
  auto cell = strip_tile_size(sheet, places.size(), variants.size());
  if (!cell) return cell.error();
  if (picture_width == 0 || picture_height == 0) return Error{"The picture has no pixels."};
  for (const StripPlace& place : places) {
    for (const double share : {place.x, place.y, place.width, place.height}) {
      if (!(share >= 0 && share <= 1)) {
        return Error{"A part of the strip does not lie inside of the picture."};
      }
    }
  }
  Layouter layouter(sheet);
  layouter.add_tiles(cell.value(), {picture_width, picture_height}, places, variants);
  layouter.add_patches();
  return layouter.take();
}

}  // namespace proofleaf::print
