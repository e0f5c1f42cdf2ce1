// Everything that is done to a master before it is printed, as one value: the panel edits it, undo
// keeps earlier ones, files and requests carry it as JSON. The master itself is never touched.
//
//   correct (local contrast, colours) -> crop -> resample -> sharpen -> grain -> border
#pragma once

#include "base/json.h"
#include "fit/local_contrast.h"
#include "fit/monochrome.h"
#include "print/recipe_stages.h"

namespace proofleaf {

// Counted up whenever a reader has to change.
inline constexpr int kRecipeVersion = 1;

// As it stands here, it changes nothing.
struct Recipe {
  Correction correction;
  Monochrome monochrome;
  bool sized = false;  // else the master's own pixels are printed, all of them
  print::PrintSize size;
  print::HouseLimits limits;
  print::Sharpening sharpening{.on = false};
  print::Grain grain;
  print::PaperClass surface = print::PaperClass::baryta;
};

// {"proofleaf_recipe":1,"correction":{..},"monochrome":{..},"sized":false,"size":{..},
//  "limits":{..},"sharpening":{..},"grain":{..},"surface":"baryta"}, parts as fit_json.h and
// print_json.h have them.
Json json_of(const Recipe& recipe);
// What is left out changes nothing. Error: not a recipe, one of another version, or a part's own,
// which names the field.
Result<Recipe> recipe_from_json(const Json& json);

// Whether single colours change: what a proof shows, too.
bool changes_colours(const Recipe& recipe);
// Whether the printed pixels are others than the master's, apart from their colours.
bool changes_pixels(const Recipe& recipe);

// The colours' part as a map of the master's codes; empty where nothing changes.
// Error: values out of range, a profile that cannot be used.
Result<std::shared_ptr<const ColourMap>> colours_of(const Recipe& recipe, const Profile& master);

// The print's exact pixels; for a recipe without a size the master's own at `ppi`.
// Error: as print::plan_print().
Result<print::PrintPlan> plan_of(const Recipe& recipe, uint32_t width, uint32_t height, double ppi);

// The master's rows made ready for print, colours included. rows: RGB, upright, in the profile
// `master`; guide: for local contrast, may be empty where there is none of it; ppi: for a recipe
// without a size. Error: values out of range, a profile that cannot be used.
Result<std::unique_ptr<RowSource>> prepared_rows(std::unique_ptr<RowSource> rows,
                                                 const Profile& master, const Recipe& recipe,
                                                 std::shared_ptr<const LocalContrast> guide,
                                                 double ppi);
// The same without edge and border: the picture alone, the plan's width x height.
Result<std::unique_ptr<RowSource>> prepared_picture_rows(std::unique_ptr<RowSource> rows,
                                                         const Profile& master,
                                                         const Recipe& recipe,
                                                         std::shared_ptr<const LocalContrast> guide,
                                                         double ppi);

}  // namespace proofleaf
