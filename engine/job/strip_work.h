// The test strip as work: where its parts lie, and its sheet in place of the print (work.h).
#pragma once

#include "job/opening.h"
#include "print/strip.h"

namespace proofleaf {

struct StripVariant {
  std::string name;
  Recipe recipe;
};
// {"sheet":{"width_mm","height_mm"},"places":[..],"variants":[{"name","recipe"},..]}, parts as
// print/proofing_json.h and recipe/recipe.h have them.
struct StripOrder {
  print::StripSheet sheet;  // its ppi is not used: it is the print's
  std::vector<print::StripPlace> places;
  std::vector<StripVariant> variants;
};
// Error: something is missing, out of its range or not known; names are up to 60 bytes.
Result<StripOrder> strip_order_of(const Json& strip);

struct StripPrint {
  std::unique_ptr<RowSource> rows;  // the sheet in the master's profile
  double ppi = 0;                   // the print's
  Json told;                        // the member "strip" of the answer
};
// Cuts each part out of the print as each variant's recipe makes it, in one pass over the master
// for each variant. ppi: for recipes without a size. Error: variants of different size, crop or
// resolution, a sheet too small or too large, stopped, a damaged master.
Result<StripPrint> make_strip(const StripOrder& order, OpenedMaster& opened, const Paper& paper,
                              PrintIntent print, double ppi, const Watch& watch);

// The request "strip_places" of work.h.
Result<Answer> strip_places_work(const Json& request, const WorkFiles& files, const Watch& watch);

}  // namespace proofleaf
