// The pixels of a print, and what is said of them.
#include <limits>

#include "pictures.h"
#include "print/size.h"
#include "sentences.h"

using namespace proofleaf;
using namespace proofleaf::print;
using namespace proofleaf::test;

namespace {

std::string refusal(const PrintSize& size, const HouseLimits& limits = {}, uint32_t width = 6000,
                    uint32_t height = 4000) {
  const auto plan = plan_print(width, height, size, limits);
  return plan ? "" : plan.error().message;
}

bool names(const std::string& sentence, const std::string& field) {
  return sentence.find(field) != std::string::npos && sentence.back() == '.';
}

}  // namespace

TEST_CASE("print size: pixels follow from millimetres at 25.4 mm to the inch") {
  PrintSize size;
  size.width_mm = 508;  // 20 inches
  size.ppi = 300;
  const auto plan = plan_print(6000, 4000, size, {});
  REQUIRE(plan);
  CHECK(plan.value().width == 6000);
  CHECK(plan.value().height == 4000);
  CHECK(plan.value().enlargement == doctest::Approx(1));
  CHECK(plan.value().effective_ppi == doctest::Approx(300));
  CHECK(plan.value().warnings.empty());
  CHECK(plan.value().height_mm == doctest::Approx(338.667).epsilon(1e-5));
  CHECK(plan.value().file_bytes == 6000.0 * 4000 * 3);
}

TEST_CASE("print size: reading distance is one arc minute to a pixel") {
  // 20/20 (6/6) visual acuity resolves one minute of arc, the handbook value behind the Snellen
  // chart (ISO 8596): 97.09 ppi is 0.2616 mm, seen under 1/3437.75 rad from 899 mm.
  PrintSize size;
  size.width_mm = 1200;
  size.height_mm = 800;
  size.ppi = 300;
  const auto plan = plan_print(4587, 3058, size, {});
  REQUIRE(plan);
  CHECK(plan.value().effective_ppi == doctest::Approx(97.09).epsilon(1e-3));
  CHECK(plan.value().reading_distance_mm == doctest::Approx(25.4 / 97.09 * 3437.75).epsilon(1e-3));
  CHECK(says(plan.value().warnings,
             "At 120 x 80 cm this file gives 97 real pixels per inch; from closer than 90 cm its "
             "pixels' softness can be seen."));
}

TEST_CASE("print size: as large as fits, with border and mat inside the house's limit") {
  PrintSize size;
  size.border_mm = 20;
  size.mat_mm = 30;
  HouseLimits limits;
  limits.maximum_side_mm = 1100;
  limits.ppi_steps = {360, 180, 240};
  const auto plan = plan_print(9000, 6000, size, limits);
  REQUIRE(plan);
  CHECK(plan.value().width_mm == doctest::Approx(1000));
  CHECK(plan.value().sheet_width_mm == doctest::Approx(1100));
  // 9000 pixels over 1 m are 228.6 to the inch: the next step up loses none of them.
  CHECK(plan.value().ppi == 240);
  CHECK(plan.value().sheet_width ==
        plan.value().width + 2 * (plan.value().border + plan.value().mat));
  limits.largest_file_bytes = 1e8;  // at 240 the sheet has 222 MB, at 180 125 MB
  const auto smaller = plan_print(9000, 6000, size, limits);
  REQUIRE(smaller);
  CHECK(smaller.value().ppi == 180);
  CHECK(says(smaller.value().warnings, "more than the 100 MB the print house takes"));
}

TEST_CASE("print size: a picture is never stretched") {
  PrintSize size;
  size.width_mm = 400;
  size.height_mm = 400;
  auto plan = plan_print(6000, 4000, size, {});
  REQUIRE(plan);
  CHECK(plan.value().crop.width == 4000);
  CHECK(plan.value().crop.height == 4000);
  CHECK(plan.value().crop.x == 1000);
  CHECK(plan.value().width == plan.value().height);
  CHECK(says(plan.value().warnings, "33.3 % of the crop is trimmed away"));
  size.ratio_locked = false;
  CHECK(names(refusal(size), "The crop is 1.5 times as wide as high"));
}

TEST_CASE("print size: crops are whole pixels inside of the master") {
  PrintSize size;
  size.width_mm = 100;
  for (const double x : {0.0, 0.1, 0.33333, 0.9, 0.9999, 1.0}) {
    for (const double w : {1e-9, 1e-4, 0.1, 0.66667}) {
      size.crop = {x, x, w, w};
      const auto plan = plan_print(317, 211, size, {});
      if (x + w > 1 + 1e-9) {
        CHECK_FALSE(plan.ok());
        continue;
      }
      if (!plan.ok()) continue;  // a sliver a pixel wide may become too tall a print
      CHECK(plan.value().crop.width >= 1);
      CHECK(plan.value().crop.x + plan.value().crop.width <= 317);
      CHECK(plan.value().crop.y + plan.value().crop.height <= 211);
    }
  }
}

TEST_CASE("print size: every field refuses what is no sensible number, by its name") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  for (const double bad : {nan, inf, -inf, -1.0, 1e300}) {
    PrintSize size;
    CHECK(names(refusal((size = {}, size.width_mm = bad, size)), "width_mm"));
    CHECK(names(refusal((size = {}, size.height_mm = bad, size)), "height_mm"));
    CHECK(names(refusal((size = {}, size.ppi = bad, size)), "ppi"));
    CHECK(names(refusal((size = {}, size.edge = EdgeKind::wrapped, size.edge_mm = bad, size)),
                "edge_mm"));
    CHECK(names(refusal((size = {}, size.border_mm = bad, size)), "border_mm"));
    CHECK(names(refusal((size = {}, size.mat_mm = bad, size)), "mat_mm"));
    CHECK(names(refusal((size = {}, size.crop.x = bad, size)), "crop.x"));
    CHECK(names(refusal((size = {}, size.crop.y = bad, size)), "crop.y"));
    CHECK(names(refusal((size = {}, size.crop.width = bad, size)), "crop.width"));
    CHECK(names(refusal((size = {}, size.crop.height = bad, size)), "crop.height"));
    CHECK(names(refusal({}, {bad, 1e9, {}}), "maximum_side_mm"));
    CHECK(names(refusal({}, {1000, bad, {}}), "largest_file_bytes"));
    CHECK(names(refusal({}, {1000, 1e9, {300, bad}}), "ppi_steps"));
  }
  PrintSize size;
  for (auto side : {&PrintSize::width_mm, &PrintSize::height_mm, &PrintSize::ppi}) {
    size = {};
    size.*side = 0;
    CHECK_FALSE(refusal(size).empty());
  }
  size = {};
  size.crop.width = 0;
  CHECK(names(refusal(size), "crop.width"));
  size.crop = {0.5, 0, 0.6, 1};
  CHECK(names(refusal(size), "The crop reaches outside"));
  CHECK_FALSE(plan_print(0, 100, {}, {}).ok());
  CHECK_FALSE(plan_print(100, 1u << 31, {}, {}).ok());
}

TEST_CASE("print size: what excludes itself or has no room is refused") {
  PrintSize size;
  size.width_mm = 300;
  size.edge = EdgeKind::wrapped;
  CHECK(names(refusal(size), "edge_mm"));
  size.edge_mm = 40;
  CHECK(refusal(size).empty());
  size.border_mm = 10;
  CHECK(names(refusal(size), "border_mm"));
  size = {};
  size.width_mm = 300;
  size.signature_line = true;
  CHECK(names(refusal(size), "signature line"));
  size.border_mm = 8;
  CHECK(refusal(size).empty());
  size.ppi = 300;
  CHECK(names(refusal(size, {2000, 1e9, {240, 360}}), "takes 240, 360 pixels per inch, not 300"));
  CHECK(names(refusal(size, {200, 1e9, {}}), "takes at most 20 cm"));
  size = {};
  size.width_mm = 4900;
  size.ppi = 2400;  // 463,000 pixels across
  CHECK_FALSE(refusal(size).empty());
  size = {};
  size.border_mm = 500;
  CHECK(names(refusal(size, {1000, 1e9, {}}), "Nothing is left"));
}
