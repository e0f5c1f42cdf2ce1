// A recipe's file: read, written, its plan, its colours, and the first rows it makes.
#include "recipe/recipe.h"

#include <algorithm>

#include "raster/picture_rows.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

namespace {

constexpr uint32_t kWidth = 24, kHeight = 16;
constexpr uint64_t kMostSamples = 1 << 16;

void print_first_rows(const Recipe& recipe, const Profile& master) {
  std::vector<uint16_t> rgb(size_t{kWidth} * kHeight * 3);
  for (size_t i = 0; i < rgb.size(); ++i) rgb[i] = static_cast<uint16_t>(i * 40503);
  auto made =
      prepared_rows(std::make_unique<PictureRows>(rgb, kWidth, kHeight), master, recipe, {}, 300);
  if (value_of(made) == nullptr) return;
  const RowFormat format = made.value()->format();
  if (format.row_samples() > kMostSamples) return;
  std::vector<uint16_t> row(format.row_samples());
  auto got = made.value()->read(0, 1, row);
  value_of(got);
}

}  // namespace

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  static const Profile master = standard_profile("oprgb").take();
  auto read = recipe_from_json(parse_json(fuzz::text_of(data, size)));
  if (value_of(read) == nullptr) return;
  const Recipe& recipe = read.value();
  const Json json = json_of(recipe);
  auto again = recipe_from_json(json);
  expect(again && json_of(again.value()) == json);
  auto plan = plan_of(recipe, 3000, 2000, 300);
  value_of(plan);
  auto colours = colours_of(recipe, master);
  if (value_of(colours) == nullptr) return;
  print_first_rows(recipe, master);
}
