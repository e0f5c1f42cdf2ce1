// A print from reading distance and on a wall. The eye's curve is checked against values worked out
// by hand from the published formula; the rest against plane waves and plain geometry.
#include <numbers>

#include "pictures.h"
#include "print/as_seen.h"
#include "print/wall.h"

using namespace proofleaf;
using namespace proofleaf::print;

namespace {

// Grey waves of that many to the width around 0.5.
std::vector<float> waves(uint32_t width, uint32_t height, double count, double depth) {
  std::vector<float> light;
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) {
      const double wave = std::cos(2 * std::numbers::pi * count * (x + 0.5) / width);
      for (int c = 0; c < 3; ++c) light.push_back(float(0.5 + depth * wave));
    }
  }
  return light;
}

double depth_of(const std::vector<float>& light) {
  const auto [low, high] = std::minmax_element(light.begin(), light.end());
  return (*high - *low) / 2;
}

PrintPlan plan_for(double width_mm, double border_mm, EdgeKind edge = EdgeKind::none) {
  PrintSize size;
  size.width_mm = width_mm;
  size.ppi = 100;
  size.border_mm = border_mm;
  size.edge = edge;
  size.edge_mm = edge == EdgeKind::none ? 0 : 40;
  const auto plan = plan_print(6000, 4000, size, {});
  REQUIRE(plan);
  return plan.value();
}

}  // namespace

TEST_CASE("seen: the eye's curve is Mannos and Sakrison's") {
  // 2.6 (0.0192 + 0.114 f) exp(-(0.114 f)^1.1), worked out apart from this code; the paper has its
  // peak near 8 cycles per degree (from memory).
  for (const auto& [f, a] : std::initializer_list<std::pair<double, double>>{{0, 0.04992},
                                                                             {1, 0.31596},
                                                                             {2, 0.52797},
                                                                             {4, 0.81053},
                                                                             {8, 0.98078},
                                                                             {16, 0.69075},
                                                                             {32, 0.15},
                                                                             {60, 0.00448}}) {
    CHECK(contrast_sensitivity(f) == doctest::Approx(a).epsilon(2e-3));
  }
  double peak = 0;
  for (double f = 0; f < 40; f += 0.001) {
    if (contrast_sensitivity(f) > contrast_sensitivity(peak)) peak = f;
  }
  CHECK(peak == doctest::Approx(kPeakSensitivity).epsilon(1e-3));
  CHECK(peak > 7.5);
  CHECK(peak < 8.5);
  CHECK(share_seen(0) == 1);
  CHECK(share_seen(7) == 1);
  CHECK(share_seen(16) == doctest::Approx(0.69075 / 0.98088).epsilon(1e-3));
}

TEST_CASE("seen: one degree at 57.3 cm is one centimetre") {
  // The rule of thumb of vision science: a centimetre spans a degree at 57 cm.
  CHECK(pixels_per_degree(254, 572.9) == doctest::Approx(100).epsilon(1e-4));
}

TEST_CASE("seen: a wave keeps the share the curve gives it, and its mean") {
  // 300 ppi from 40 cm; across a width of 96 pixels, waves of whole and half counts are mirrored
  // into themselves.
  const double per_degree = pixels_per_degree(300, 400);
  for (const double count : {2.0, 8.0, 16.0, 24.0, 40.0}) {
    const auto light = waves(96, 32, count, 0.3);
    const auto seen = seen_from(light, 96, 32, 300, 400);
    REQUIRE(seen);
    const double share = share_seen(count / 96 * per_degree);
    INFO("cycles per degree: " << count / 96 * per_degree);
    CHECK(depth_of(seen.value()) / depth_of(light) == doctest::Approx(share).epsilon(0.02));
    double sum = 0;
    for (const float each : seen.value()) sum += each;
    CHECK(sum / double(seen.value().size()) == doctest::Approx(0.5).epsilon(1e-3));
  }
  // From twice as far it is the same as at twice the ppi.
  const auto light = waves(96, 32, 16, 0.3);
  const auto far = seen_from(light, 96, 32, 300, 800), fine = seen_from(light, 96, 32, 600, 400);
  REQUIRE(far);
  REQUIRE(fine);
  for (size_t i = 0; i < light.size(); ++i)
    CHECK(far.value()[i] == doctest::Approx(fine.value()[i]).epsilon(1e-6));
}

TEST_CASE("seen: flat parts stay, and sizes that are none are refused") {
  const std::vector<float> flat(size_t{50} * 37 * 3, 0.25f);
  const auto seen = seen_from(flat, 50, 37, 300, 500);
  REQUIRE(seen);
  for (const float each : seen.value()) CHECK(each == doctest::Approx(0.25).epsilon(1e-4));
  CHECK_FALSE(seen_from(flat, 50, 38, 300, 500));
  CHECK_FALSE(seen_from(flat, 0, 37, 300, 500));
  CHECK_FALSE(seen_from(flat, 50, 37, 0, 500));
  CHECK_FALSE(seen_from(flat, 50, 37, 300, std::nan("")));
  CHECK_FALSE(on_pixels(flat, 50, 37, 0, 5));
  CHECK_FALSE(on_pixels(flat, 50, 37, 5, kLargestSeen + 1));
}

TEST_CASE("seen: on other pixels each is the mean of what lies under it") {
  std::vector<float> light;
  for (int i = 0; i < 6; ++i) light.insert(light.end(), {float(i), float(10 * i), 1.0f});
  const auto half = on_pixels(light, 6, 1, 3, 1);
  REQUIRE(half);
  CHECK(half.value() == std::vector<float>{0.5f, 5, 1, 2.5f, 25, 1, 4.5f, 45, 1});
  const auto part = on_pixels(light, 6, 1, 4, 1);  // one and a half to each
  REQUIRE(part);
  CHECK(part.value()[0] == doctest::Approx((0 + 0.5 * 1) / 1.5));
  CHECK(part.value()[3] == doctest::Approx((0.5 * 1 + 2) / 1.5));
  const auto more = on_pixels(light, 6, 1, 12, 2);
  REQUIRE(more);
  CHECK(more.value()[12 * 3] == 0);
  CHECK(more.value()[3 * 3] == 1);
}

TEST_CASE("wall: print and person are to one scale, and all of it is in view") {
  for (const double view : {300.0, 800.0}) {
    for (const auto& plan : {plan_for(300, 0), plan_for(600, 50), plan_for(2400, 100),
                             plan_for(4000, 0, EdgeKind::wrapped)}) {
      const WallLayout wall = wall_layout(plan, view, 600, 1700);
      CHECK(wall.person.height / wall.picture.width == doctest::Approx(1700 / plan.width_mm));
      CHECK(wall.person.y + wall.person.height == doctest::Approx(wall.floor));
      for (const WallBox& box : {wall.sheet, wall.picture, wall.person}) {
        CHECK(box.x >= 0);
        CHECK(box.y >= 0);
        CHECK(box.x + box.width <= view + 1e-9);
        CHECK(box.y + box.height <= wall.floor + 1e-9);
      }
      CHECK(wall.person.x < wall.sheet.x);
      CHECK(wall.floor < 600);
    }
  }
  const WallLayout bordered = wall_layout(plan_for(600, 50), 800, 600, 1700);
  CHECK(bordered.sheet.width / bordered.picture.width ==
        doctest::Approx(700.0 / 600).epsilon(1e-3));
  CHECK((bordered.floor - bordered.sheet.y - bordered.sheet.height / 2) / bordered.scale ==
        doctest::Approx(kHangingMiddle));
  const WallLayout wrapped = wall_layout(plan_for(600, 0, EdgeKind::wrapped), 800, 600, 1700);
  CHECK(wrapped.sheet.width == doctest::Approx(wrapped.picture.width));
}
