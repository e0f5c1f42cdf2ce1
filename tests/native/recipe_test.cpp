// Recipes: as JSON, and a whole job under one.
#include "recipe/recipe.h"

#include <algorithm>
#include <numeric>

#include "colour/lab.h"
#include "fit/corrected_rows.h"
#include "fit/master_space.h"
#include "job/work.h"
#include "pictures.h"
#include "raster/preview.h"
#include "recipes.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

std::string refusal(const char* text) {
  const auto recipe = recipe_from_json(parse_json(text));
  REQUIRE_FALSE_MESSAGE(recipe.ok(), text);
  return recipe.error().message;
}

}  // namespace

TEST_CASE("recipe: as JSON and back it is the same") {
  const Json json = json_of(full_recipe(60));
  auto again = recipe_from_json(parse_json(dump_json(json)));
  REQUIRE_MESSAGE(again.ok(), (again.ok() ? "" : again.error().message));
  CHECK(json_of(again.value()) == json);
  CHECK(changes_colours(again.value()));
  CHECK(changes_pixels(again.value()));
  auto empty = recipe_from_json(parse_json(R"({"proofleaf_recipe":1})"));
  REQUIRE(empty);
  CHECK_FALSE(changes_colours(empty.value()));
  CHECK_FALSE(changes_pixels(empty.value()));
}

TEST_CASE("recipe: what is wrong with one is said") {
  for (const char* text : {"", "[]", "7", "{}", R"({"proofleaf_recipe":"1"})"}) {
    CHECK(refusal(text) == "This is not a recipe of Proofleaf's.");
  }
  CHECK(refusal(R"({"proofleaf_recipe":2})").find("version") != std::string::npos);
  CHECK(refusal(R"({"proofleaf_recipe":1,"glow":3})").find("glow") != std::string::npos);
  CHECK(refusal(R"({"proofleaf_recipe":1,"sized":1})").find("sized") != std::string::npos);
  CHECK(refusal(R"({"proofleaf_recipe":1,"surface":"velvet"})").find("baryta") !=
        std::string::npos);
  CHECK(refusal(R"({"proofleaf_recipe":1,"correction":{"saturation":400}})").find("saturation") !=
        std::string::npos);
  CHECK(refusal(R"({"proofleaf_recipe":1,"grain":{"size_mm":"fine"}})").find("size_mm") !=
        std::string::npos);
  CHECK(refusal(R"({"proofleaf_recipe":1,"size":{"crop":{"x":0.5,"width":2}}})").size() > 10);
}

// The preview is corrected after it was made small, the print file before: both must look the same.
TEST_CASE("recipe: a small picture corrected is the corrected picture made small") {
  const Profile master = standard_profile("srgb").take();
  Recipe recipe = full_recipe(60);
  const auto map = colours_of(recipe, master);
  REQUIRE(map);
  const auto open = [&] {
    auto opened = open_master(memory("ramps.tif", ramp_tiff(1200, 900, master.bytes())));
    REQUIRE(opened);
    return opened.take();
  };
  const auto one = open(), two = open();
  auto full = corrected(one->open_rows().take(), master, map.value());
  REQUIRE(full);
  auto large_first = shrink(*full.value(), 4, {});
  auto rows = two->open_rows();
  auto small_first = shrink(*rows.value(), 4, {});
  REQUIRE(large_first);
  REQUIRE(small_first);
  std::vector<float> codes(small_first.value().rgb.size()), other(codes.size());
  for (size_t i = 0; i < codes.size(); ++i) codes[i] = float(small_first.value().rgb[i]) / 65535;
  map.value()->apply(codes);
  for (size_t i = 0; i < codes.size(); ++i) other[i] = float(large_first.value().rgb[i]) / 65535;
  const auto space = MasterSpace::make(master).take();
  const auto one_lab = space->colours(codes), other_lab = space->colours(other);
  std::vector<double> apart;
  for (size_t i = 0; i < one_lab.size(); ++i)
    apart.push_back(delta_e_2000(one_lab[i], other_lab[i]));
  std::sort(apart.begin(), apart.end());
  const double mean = std::accumulate(apart.begin(), apart.end(), 0.0) / double(apart.size());
  MESSAGE("dE00: mean " << mean << ", 99 % " << apart[apart.size() * 99 / 100] << ", worst "
                        << apart.back());
  CHECK(mean < 0.1);
  CHECK(apart[apart.size() * 99 / 100] < 0.5);
}

TEST_CASE("recipe: a whole job on a 16-bit TIFF comes out in the size it says") {
  WorkFiles files;
  files.master = memory("ramps.tif", ramp_tiff(900, 700, standard_profile("romm").value().bytes()));
  files.paper = memory("paper.icc", file_bytes(kDemo + "papers/tarnsea-baryta.icc"));
  Json request{{"op", "deliver"}, {"format", "tiff"}, {"bits", 8}, {"ppi", 300}};
  Recipe recipe = full_recipe(60);
  recipe.monochrome.on = true;
  request["recipe"] = json_of(recipe);
  MemorySink sink;
  files.sink = &sink;
  Bytes written;
  files.reopen = [&]() -> Result<std::shared_ptr<ByteSource>> {
    written = sink.bytes();
    return memory("print.tif", written);
  };
  const auto answer = perform(dump_json(request), files, {});
  REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
  const Json json = parse_json(answer.value().json);
  // 60 mm and 5 mm on each side at 240 pixels per inch.
  CHECK(number_of(json, "width") == std::round(60 / 25.4 * 240) + 2 * std::round(5 / 25.4 * 240));
  auto print = open_master(memory("print.tif", written));
  REQUIRE(print);
  REQUIRE(print.value()->info().ppi);
  CHECK(*print.value()->info().ppi == doctest::Approx(240));
  auto rows = print.value()->open_rows();
  REQUIRE(rows);
  std::vector<uint16_t> first(rows.value()->format().row_samples());
  REQUIRE(rows.value()->read(0, 1, first).ok());
  // The border is bare paper.
  CHECK(std::all_of(first.begin(), first.end(), [](uint16_t v) { return v == 65535; }));
}
