#include "recipe/recipe.h"

#include "fit/corrected_rows.h"
#include "fit/fit_json.h"
#include "print/print_json.h"

namespace proofleaf {
namespace {

// Reads one part where it is there.
template <class Part>
Status take(const Json& json, const char* name, Result<Part> (*read)(const Json&), Part& into) {
  const Json* part = member(json, name);
  if (part == nullptr) return done();
  auto found = read(*part);
  if (!found) return found.error();
  into = found.take();
  return done();
}

Status take_flag(const Json& json, const char* name, bool& into) {
  const Json* part = member(json, name);
  if (part == nullptr) return done();
  if (!part->is_boolean()) return Error{"{} must be true or false.", name};
  into = part->get<bool>();
  return done();
}

Status check_names(const Json& json) {
  for (const auto& [name, value] : json.items()) {
    bool known = false;
    for (const char* one : {"proofleaf_recipe", "correction", "monochrome", "sized", "size",
                            "limits", "sharpening", "grain", "surface"}) {
      known = known || name == one;
    }
    if (!known) {
      return Error{"There is nothing called {} in a recipe; a newer Proofleaf may have written it.",
                   name};
    }
  }
  return done();
}

Status check_version(const Json& json) {
  const Json* version = member(json, "proofleaf_recipe");
  if (version == nullptr || !version->is_number_integer()) {
    return Error{"This is not a recipe of Proofleaf's."};
  }
  if (*version != kRecipeVersion) {
    return Error{"This recipe is of another version of Proofleaf and cannot be read."};
  }
  return done();
}

// stages: print::prepared() or print::prepared_picture().
Result<std::unique_ptr<RowSource>> ready_rows(std::unique_ptr<RowSource> rows,
                                              const Profile& master, const Recipe& recipe,
                                              std::shared_ptr<const LocalContrast> guide,
                                              double ppi, decltype(print::prepared)& stages) {
  const RowFormat format = rows->format();
  auto plan = plan_of(recipe, format.width, format.height, ppi);
  if (!plan) return plan.error();
  auto map = colours_of(recipe, master);
  if (!map) return map.error();
  auto right = corrected(std::move(rows), master, map.value(),
                         {std::move(guide), recipe.correction.local_contrast, {}});
  if (!right) return right.error();
  return stages(right.take(), master, plan.value(), recipe.sharpening, recipe.grain,
                recipe.surface);
}

}  // namespace

Json json_of(const Recipe& recipe) {
  return {{"proofleaf_recipe", kRecipeVersion},
          {"correction", json_of(recipe.correction)},
          {"monochrome", json_of(recipe.monochrome)},
          {"sized", recipe.sized},
          {"size", print::to_json(recipe.size)},
          {"limits", print::to_json(recipe.limits)},
          {"sharpening", print::to_json(recipe.sharpening)},
          {"grain", print::to_json(recipe.grain)},
          {"surface", print::word_for(recipe.surface)}};
}

Result<Recipe> recipe_from_json(const Json& json) {
  if (Status sound = check_version(json); !sound) return sound.error();
  if (Status known = check_names(json); !known) return known.error();
  Recipe recipe;
  for (const Status& part :
       {take(json, "correction", correction_from_json, recipe.correction),
        take(json, "monochrome", monochrome_from_json, recipe.monochrome),
        take_flag(json, "sized", recipe.sized),
        take(json, "size", print::print_size_from_json, recipe.size),
        take(json, "limits", print::house_limits_from_json, recipe.limits),
        take(json, "sharpening", print::sharpening_from_json, recipe.sharpening),
        take(json, "grain", print::grain_from_json, recipe.grain)}) {
    if (!part) return part.error();
  }
  if (const Json* surface = member(json, "surface")) {
    if (!surface->is_string()) return Error{"surface must be the name of a paper's surface."};
    auto found = print::paper_class_of(surface->get<std::string>());
    if (!found) return found.error();
    recipe.surface = found.value();
  }
  return recipe;
}

bool changes_colours(const Recipe& recipe) {
  Correction colours = recipe.correction;
  colours.local_contrast = 0;  // not of single colours
  return !(colours == Correction{}) || recipe.monochrome.on;
}

bool changes_pixels(const Recipe& recipe) {
  return recipe.sized || recipe.sharpening.on || recipe.grain.on ||
         recipe.correction.local_contrast != 0;
}

Result<std::shared_ptr<const ColourMap>> colours_of(const Recipe& recipe, const Profile& master) {
  if (!changes_colours(recipe)) return std::shared_ptr<const ColourMap>();
  return correction_map(master, recipe.correction, recipe.monochrome);
}

Result<print::PrintPlan> plan_of(const Recipe& recipe, uint32_t width, uint32_t height,
                                 double ppi) {
  if (recipe.sized) return print::plan_print(width, height, recipe.size, recipe.limits);
  print::PrintPlan plan;
  plan.crop = {0, 0, width, height};
  plan.width = plan.sheet_width = width;
  plan.height = plan.sheet_height = height;
  plan.ppi = plan.effective_ppi = ppi;
  plan.width_mm = plan.sheet_width_mm = width / ppi * print::kMmPerInch;
  plan.height_mm = plan.sheet_height_mm = height / ppi * print::kMmPerInch;
  return plan;
}

Result<std::unique_ptr<RowSource>> prepared_rows(std::unique_ptr<RowSource> rows,
                                                 const Profile& master, const Recipe& recipe,
                                                 std::shared_ptr<const LocalContrast> guide,
                                                 double ppi) {
  return ready_rows(std::move(rows), master, recipe, std::move(guide), ppi, print::prepared);
}

Result<std::unique_ptr<RowSource>> prepared_picture_rows(std::unique_ptr<RowSource> rows,
                                                         const Profile& master,
                                                         const Recipe& recipe,
                                                         std::shared_ptr<const LocalContrast> guide,
                                                         double ppi) {
  return ready_rows(std::move(rows), master, recipe, std::move(guide), ppi,
                    print::prepared_picture);
}

}  // namespace proofleaf
