#include "print/print_json.h"

#include <array>

#include "print/fields.h"

namespace proofleaf::print {
namespace {

constexpr std::array kEdges{"none", "bleed_mirrored", "bleed_extended", "wrapped"};
constexpr std::array kPlaces{"left", "middle", "right"};
constexpr std::array kPapers{"gloss", "baryta", "matte", "canvas"};

Json maybe(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

Status read_crop(const Json& json, Crop& crop) {
  Fields fields(json, "crop");
  fields.number({"x", 0, 1, ""}, crop.x);
  fields.number({"y", 0, 1, ""}, crop.y);
  fields.number({"width", 0, 1, ""}, crop.width);
  fields.number({"height", 0, 1, ""}, crop.height);
  return fields.finish();
}

// What was read, where all fields are sound by themselves and together.
template <class Settings>
Result<Settings> checked(const Fields& fields, const Settings& settings) {
  if (auto sound = fields.finish(); !sound) return sound.error();
  if (auto sound = check(settings); !sound) return sound.error();
  return settings;
}

}  // namespace

Json to_json(const PrintSize& size) {
  return {{"width_mm", maybe(size.width_mm)},
          {"height_mm", maybe(size.height_mm)},
          {"ppi", maybe(size.ppi)},
          {"crop",
           {{"x", size.crop.x},
            {"y", size.crop.y},
            {"width", size.crop.width},
            {"height", size.crop.height}}},
          {"ratio_locked", size.ratio_locked},
          {"edge", kEdges[static_cast<size_t>(size.edge)]},
          {"edge_mm", size.edge_mm},
          {"border_mm", size.border_mm},
          {"mat_mm", size.mat_mm},
          {"signature_line", size.signature_line},
          {"signature_place", kPlaces[static_cast<size_t>(size.signature_place)]}};
}

Result<PrintSize> print_size_from_json(const Json& json) {
  PrintSize size;
  Fields fields(json, "print size");
  fields.number(kWidthMm, size.width_mm);
  fields.number(kHeightMm, size.height_mm);
  fields.number(kPpi, size.ppi);
  if (const Json* crop = fields.inside("crop"); crop != nullptr) {
    if (auto read = read_crop(*crop, size.crop); !read) return read.error();
  }
  fields.flag("ratio_locked", size.ratio_locked);
  fields.word("edge", kEdges, size.edge);
  fields.number(kEdgeMm, size.edge_mm);
  fields.number(kBorderMm, size.border_mm);
  fields.number(kMatMm, size.mat_mm);
  fields.flag("signature_line", size.signature_line);
  fields.word("signature_place", kPlaces, size.signature_place);
  return checked(fields, size);
}

Json to_json(const HouseLimits& limits) {
  return {{"maximum_side_mm", limits.maximum_side_mm},
          {"largest_file_bytes", limits.largest_file_bytes},
          {"ppi_steps", limits.ppi_steps}};
}

Result<HouseLimits> house_limits_from_json(const Json& json) {
  HouseLimits limits;
  Fields fields(json, "print house's limits");
  fields.number(kMaximumSideMm, limits.maximum_side_mm);
  fields.number(kLargestFile, limits.largest_file_bytes);
  fields.numbers(kPpiStep, kMostPpiSteps, limits.ppi_steps);
  return checked(fields, limits);
}

Json to_json(const Sharpening& sharpening) {
  return {{"on", sharpening.on},
          {"amount", sharpening.amount},
          {"radius_mm", sharpening.radius_mm},
          {"threshold", sharpening.threshold},
          {"mask", sharpening.mask},
          {"halo", sharpening.halo}};
}

Result<Sharpening> sharpening_from_json(const Json& json) {
  Sharpening sharpening;
  Fields fields(json, "sharpening");
  fields.flag("on", sharpening.on);
  fields.number(kAmount, sharpening.amount);
  fields.number(kRadiusMm, sharpening.radius_mm);
  fields.number(kThreshold, sharpening.threshold);
  fields.number(kMask, sharpening.mask);
  fields.number(kHalo, sharpening.halo);
  return checked(fields, sharpening);
}

Json to_json(const Grain& grain) {
  return {{"on", grain.on},     {"size_mm", grain.size_mm},       {"shadows", grain.shadows},
          {"mids", grain.mids}, {"highlights", grain.highlights}, {"seed", grain.seed}};
}

Result<Grain> grain_from_json(const Json& json) {
  Grain grain;
  Fields fields(json, "grain");
  fields.flag("on", grain.on);
  fields.number(kGrainSizeMm, grain.size_mm);
  fields.number(kShadows, grain.shadows);
  fields.number(kMids, grain.mids);
  fields.number(kHighlights, grain.highlights);
  fields.whole(kSeed, grain.seed);
  return checked(fields, grain);
}

Json to_json(const PrintPlan& plan) {
  return {{"crop", {plan.crop.x, plan.crop.y, plan.crop.width, plan.crop.height}},
          {"width", plan.width},
          {"height", plan.height},
          {"edge", plan.edge},
          {"border", plan.border},
          {"mat", plan.mat},
          {"sheet_width", plan.sheet_width},
          {"sheet_height", plan.sheet_height},
          {"ppi", plan.ppi},
          {"width_mm", plan.width_mm},
          {"height_mm", plan.height_mm},
          {"sheet_width_mm", plan.sheet_width_mm},
          {"sheet_height_mm", plan.sheet_height_mm},
          {"enlargement", plan.enlargement},
          {"effective_ppi", plan.effective_ppi},
          {"reading_distance_mm", plan.reading_distance_mm},
          {"file_bytes", plan.file_bytes},
          {"warnings", plan.warnings}};
}

const char* word_for(PaperClass paper) { return kPapers[static_cast<size_t>(paper)]; }

Result<PaperClass> paper_class_of(const std::string& word) {
  for (size_t i = 0; i < kPapers.size(); ++i) {
    if (word == kPapers[i]) return static_cast<PaperClass>(i);
  }
  return Error{"The paper's surface must be one of gloss, baryta, matte, canvas."};
}

}  // namespace proofleaf::print
