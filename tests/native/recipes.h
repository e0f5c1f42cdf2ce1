// A recipe that changes a little of everything, for tests and for what fuzzing starts from.
#pragma once

#include "recipe/recipe.h"

namespace proofleaf::test {

// width_mm: of the print.
inline Recipe full_recipe(double width_mm) {
  Recipe recipe;
  recipe.correction.curve = {{25, 22}, {75, 79}};
  recipe.correction.saturation = 12;
  recipe.correction.neutral[1].b = 1.5;
  recipe.monochrome.shadows = {250, 3};
  recipe.sized = true;
  recipe.size.width_mm = width_mm;
  recipe.size.ppi = 240;
  recipe.size.border_mm = 5;
  recipe.sharpening.on = recipe.grain.on = true;
  recipe.surface = print::PaperClass::matte;
  return recipe;
}

}  // namespace proofleaf::test
