#include "job/strip_work.h"

#include <algorithm>
#include <cmath>

#include "print/proofing_json.h"
#include "print/strip_aims.h"
#include "raster/picture_rows.h"

namespace proofleaf {
namespace {

using print::PixelRect;
using print::PrintPlan;
using print::StripPlace;

constexpr size_t kLongestVariant = 60;            // [bytes] of a variant
constexpr uint64_t kMostTilePixels = 48'000'000;  // 288 MB, an A4 sheet at 600 pixels per inch
constexpr size_t kReasons = 4;                    // for which places are looked for

Result<StripVariant> variant_of(const Json& json) {
  const std::string name = text_of(json, "name");
  if (name.empty() || name.size() > kLongestVariant) {
    return Error{"Each way of printing on a strip needs a name of at most 60 letters."};
  }
  const Json* recipe = member(json, "recipe");
  if (recipe == nullptr) return Error{"The strip's {} has no recipe.", name};
  auto read = recipe_from_json(*recipe);
  if (!read) return read.error();
  return StripVariant{name, read.take()};
}

bool same_size(const PrintPlan& one, const PrintPlan& two) {
  const PixelRect &a = one.crop, &b = two.crop;
  return one.width == two.width && one.height == two.height && one.ppi == two.ppi && a.x == b.x &&
         a.y == b.y && a.width == b.width && a.height == b.height;
}

Result<PrintPlan> common_plan(const StripOrder& order, const MasterInfo& info, double ppi) {
  std::optional<PrintPlan> common;
  for (const StripVariant& variant : order.variants) {
    auto plan = plan_of(variant.recipe, info.width, info.height, ppi);
    if (!plan) return plan;
    if (common && !same_size(*common, plan.value())) {
      return Error{
          "All ways of printing on one strip must have the same size, crop and resolution; {} has "
          "another.",
          variant.name};
    }
    common = plan.take();
  }
  return *common;
}

Result<print::StripLayout> layout_for(const StripOrder& order, const PrintPlan& plan) {
  std::vector<std::string> names;
  for (const StripVariant& variant : order.variants) names.push_back(variant.name);
  print::StripSheet sheet = order.sheet;
  sheet.ppi = plan.ppi;
  auto layout = print::layout_strip(sheet, plan.width, plan.height, order.places, names);
  if (!layout) return layout;
  uint64_t pixels = 0;
  for (const auto& tile : layout.value().tiles) pixels += uint64_t{tile.at.width} * tile.at.height;
  if (pixels > kMostTilePixels) {
    return Error{"The strip's sheet has too many pixels; take a smaller one."};
  }
  return layout;
}

// The tiles of all variants, in the layout's order: variant by variant.
Result<std::vector<Picture>> cut_tiles(const StripOrder& order, const print::StripLayout& layout,
                                       OpenedMaster& opened, double ppi, const Watch& watch) {
  std::shared_ptr<const LocalContrast> guide;
  std::vector<Picture> tiles;
  for (size_t v = 0; v < order.variants.size(); ++v) {
    const Recipe& recipe = order.variants[v].recipe;
    if (!guide) {
      auto found = contrast_guide(opened, recipe, {});
      if (!found) return found.error();
      guide = found.take();
    }
    auto rows = master_rows(opened);
    if (!rows) return rows.error();
    auto picture = prepared_picture_rows(rows.take(), opened.colour.profile, recipe, guide, ppi);
    if (!picture) return picture.error();
    std::vector<PixelRect> parts;
    for (const auto& tile : layout.tiles) {
      if (tile.variant == v) parts.push_back(tile.from);
    }
    auto cuts = print::cut_parts(*picture.value(), parts, [&](double share) {
      return keep_going(watch, (double(v) + share) / double(order.variants.size()));
    });
    if (!cuts) return cuts.error();
    std::move(cuts.value().begin(), cuts.value().end(), std::back_inserter(tiles));
  }
  return tiles;
}

// The judged share off the gamut of the whole picture, as it lies in the crop.
std::vector<uint8_t> map_in_crop(const Bytes& map, const print::Crop& crop) {
  std::vector<uint8_t> inside(map.size());
  const auto at = [](double from, double length, uint32_t i) {
    const double place = (from + length * (i + 0.5) / kMapSide) * kMapSide;
    return std::min(static_cast<uint32_t>(place), kMapSide - 1);
  };
  for (uint32_t y = 0; y < kMapSide; ++y) {
    for (uint32_t x = 0; x < kMapSide; ++x) {
      inside[y * kMapSide + x] =
          map[at(crop.y, crop.height, y) * kMapSide + at(crop.x, crop.width, x)];
    }
  }
  return inside;
}

// The picture to choose from: as much of the preview as the recipe's crop leaves.
struct Cropped {
  PrintPlan plan;
  Picture preview;
  std::vector<uint8_t> map;  // may be empty
};

Result<Cropped> cropped_preview(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto read = read_preview_picture(request, files);
  if (!read) return read.error();
  const auto& [width, height, rgb] = read.value();
  const uint32_t master_width = side_of(request, "master_width"),
                 master_height = side_of(request, "master_height");
  if (width == 0 || height == 0 || master_width == 0 || master_height == 0 ||
      rgb.size() != size_t{width} * height * 3) {
    return Error{"The preview to choose parts from is incomplete."};
  }
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  auto plan = plan_of(recipe.value(), master_width, master_height, number_of(request, "ppi", 300));
  if (!plan) return plan.error();
  const PixelRect& crop = plan.value().crop;
  const print::Crop share{double(crop.x) / master_width, double(crop.y) / master_height,
                          double(crop.width) / master_width, double(crop.height) / master_height};
  const auto pixel = [](double part, uint32_t whole) {
    return std::min(static_cast<uint32_t>(part * whole), whole - 1);
  };
  const auto length = [](double part, uint32_t whole, uint32_t first) {
    return std::clamp(static_cast<uint32_t>(std::lround(part * whole)), 1u, whole - first);
  };
  const uint32_t x = pixel(share.x, width), y = pixel(share.y, height);
  PictureRows rows(rgb, width, height);
  auto preview =
      cut(rows, x, y, length(share.width, width, x), length(share.height, height, y), watch);
  if (!preview) return preview.error();
  Cropped cropped{plan.take(), preview.take(), {}};
  if (files.off_gamut) {
    auto map = read_all(*files.off_gamut, size_t{kMapSide} * kMapSide);
    if (!map) return map.error();
    if (map.value().size() != size_t{kMapSide} * kMapSide) {
      return Error{"The map of what is off the gamut is incomplete."};
    }
    cropped.map = map_in_crop(map.value(), share);
  }
  return cropped;
}

// Parts as large as the sheet shows; fewer parts are larger. A picture without anything that stands
// out gives its middle.
Result<std::vector<StripPlace>> places_for(const Cropped& from, const print::StripSheet& sheet,
                                           size_t variants, const print::Light& light) {
  std::vector<StripPlace> best;
  for (size_t count = kReasons; count > 0; --count) {
    auto tile = print::strip_tile_size(sheet, count, variants);
    if (!tile && count > 1) continue;
    if (!tile) return tile.error();
    const double width = std::min(1.0, double(tile.value().width) / from.plan.width);
    const double height = std::min(1.0, double(tile.value().height) / from.plan.height);
    auto found = print::pick_places(from.preview, light, from.map, kMapSide, width, height);
    if (!found) return found;
    best = found.take();
    if (best.empty() && count == 1) {
      best.push_back(
          {print::PlaceReason::chosen, (1 - width) / 2, (1 - height) / 2, width, height});
    }
    if (best.size() >= count) {
      best.resize(count);
      break;
    }
  }
  return best;
}

}  // namespace

Result<StripOrder> strip_order_of(const Json& strip) {
  const Json *sheet = member(strip, "sheet"), *places = member(strip, "places"),
             *variants = member(strip, "variants");
  if (sheet == nullptr || places == nullptr || variants == nullptr || !variants->is_array()) {
    return Error{"A strip needs its sheet, its parts and its ways of printing."};
  }
  StripOrder order;
  auto size = print::strip_sheet_from_json(*sheet);
  if (!size) return size.error();
  order.sheet = size.take();
  auto parts = print::places_from_json(*places);
  if (!parts) return parts.error();
  order.places = parts.take();
  if (variants->empty() || variants->size() > print::kMostVariants) {
    return Error{"A strip holds 1 to {} ways of printing, not {}.", print::kMostVariants,
                 variants->size()};
  }
  for (const Json& each : *variants) {
    auto variant = variant_of(each);
    if (!variant) return variant.error();
    order.variants.push_back(variant.take());
  }
  return order;
}

Result<StripPrint> make_strip(const StripOrder& order, OpenedMaster& opened, const Paper& paper,
                              PrintIntent print, double ppi, const Watch& watch) {
  const Profile& master = opened.colour.profile;
  auto plan = common_plan(order, opened.master->info(), ppi);
  if (!plan) return plan.error();
  auto layout = layout_for(order, plan.value());
  if (!layout) return layout.error();
  auto light = print::Light::of(master);
  if (!light) return light.error();
  auto aims = print::strip_aims(print::steps_of(layout.value()), master, paper, print);
  if (!aims) return aims.error();
  auto tiles = cut_tiles(order, layout.value(), opened, plan.value().ppi, watch);
  if (!tiles) return tiles.error();
  auto rows = print::strip_rows(layout.value(), light.value(), tiles.take());
  if (!rows) return rows.error();

  StripPrint strip{rows.take(), plan.value().ppi, print::to_json(layout.value())};
  for (size_t i = 0; i < aims.value().size(); ++i) {
    const Lab& aim = aims.value()[i].lab;
    strip.told["patches"][i]["aim"] = {aim.l, aim.a, aim.b};
  }
  print::StripSheet sheet = order.sheet;
  sheet.ppi = strip.ppi;
  strip.told["sheet"] = print::to_json(sheet);
  return strip;
}

Result<Answer> strip_places_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto from = cropped_preview(request, files, watch);
  if (!from) return from.error();
  const Json* wanted = member(request, "sheet");
  auto sheet = print::strip_sheet_from_json(wanted == nullptr ? Json::object() : *wanted);
  if (!sheet) return sheet.error();
  sheet.value().ppi = from.value().plan.ppi;
  auto light = print::Light::of(master.value());
  if (!light) return light.error();
  const auto variants =
      static_cast<size_t>(whole_of(request, "variants", 1, 1, print::kMostVariants));
  auto places = places_for(from.value(), sheet.value(), variants, light.value());
  if (!places) return places.error();
  return Answer{dump_json({{"kind", "strip_places"},
                           {"sheet", print::to_json(sheet.value())},
                           {"picture_width", from.value().plan.width},
                           {"picture_height", from.value().plan.height},
                           {"places", print::to_json(places.value())}}),
                {}};
}

}  // namespace proofleaf
