// Tone kept, against cases worked out by hand.
#include <cmath>
#include <functional>

#include "colour/lab.h"
#include "doctest.h"
#include "rank/tone.h"

using namespace proofleaf;

namespace {

std::vector<float> plane(uint32_t width, uint32_t height,
                         const std::function<double(uint32_t, uint32_t)>& value) {
  std::vector<float> values;
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) values.push_back(float(value(x, y)));
  }
  return values;
}

double checks(uint32_t x, uint32_t y) { return (x + y) % 2 ? 1 : -1; }

ToneShares compare(const std::vector<float>& master, const std::vector<float>& paper, uint32_t w,
                   uint32_t h) {
  return tone_kept(ToneBands(master, w, h), paper);
}

}  // namespace

TEST_CASE("S_L is that of CIEDE2000") {
  CHECK(lightness_weight(50) == doctest::Approx(1));
  // One unit of L* around a mean is 1 / S_L of dE00 (Sharma et al. 2005, equations 18 and 22).
  for (double l : {2.0, 15.0, 33.0, 70.0, 98.0}) {
    CHECK(1 / delta_e_2000({l - 0.5, 0, 0}, {l + 0.5, 0, 0}) ==
          doctest::Approx(lightness_weight(l)));
  }
}

TEST_CASE("a chequered plane's contrast, worked out by hand") {
  // +-10 L* around 50: the five taps weigh odd and even samples alike, so the mean is 50, the one
  // band is x = 10 and all coarser ones are 0. v = 10^3 / 101; of +-5, 5^3 / 26.
  constexpr uint32_t kSide = 64;
  const auto master = plane(kSide, kSide, [](auto x, auto y) { return 50 + 10 * checks(x, y); });
  const auto half = plane(kSide, kSide, [](auto x, auto y) { return 50 + 5 * checks(x, y); });
  const double whole_v = 1000.0 / 101, half_v = 125.0 / 26;
  const ToneShares shares = compare(master, half, kSide, kSide);
  CHECK(shares.all_kept == doctest::Approx(half_v / whole_v).epsilon(1e-4));
  CHECK(shares.all_gone == doctest::Approx((whole_v - 2 * half_v) / whole_v).epsilon(1e-3));
  CHECK(shares.kept[1] == shares.all_kept);  // all of it is midtones
  CHECK(shares.kept[0] == 1);
  CHECK(shares.gone[2] == 0);
}

TEST_CASE("nothing lost, everything lost, turned round, and more than there was") {
  const auto master =
      plane(90, 70, [](auto x, auto y) { return 50 + 30 * std::sin(0.3 * x) * std::cos(0.2 * y); });
  const auto flat = plane(90, 70, [](auto, auto) { return 50; });
  const auto turned =
      plane(90, 70, [](auto x, auto y) { return 50 - 30 * std::sin(0.3 * x) * std::cos(0.2 * y); });
  const auto more =
      plane(90, 70, [](auto x, auto y) { return 50 + 45 * std::sin(0.3 * x) * std::cos(0.2 * y); });
  CHECK(compare(master, master, 90, 70).all_kept == doctest::Approx(1));
  CHECK(compare(master, master, 90, 70).all_gone == doctest::Approx(0));
  CHECK(compare(master, flat, 90, 70).all_kept < 0.001);
  CHECK(compare(master, flat, 90, 70).all_gone > 0.999);
  CHECK(compare(master, turned, 90, 70).all_kept < 0.02);
  CHECK(compare(master, more, 90, 70).all_kept > 0.95);  // and no more than 1: it is no gain
  CHECK(compare(master, more, 90, 70).all_kept <= 1);
  // A master without contrast has nothing to lose.
  CHECK(compare(flat, master, 90, 70).all_kept == 1);
  CHECK(compare(flat, flat, 90, 70).all_gone == 0);
}

TEST_CASE("what is far below one step does not count") {
  // A hundredth of a step of texture everywhere beside one edge of 20 L*: losing the texture only.
  auto edge = [](uint32_t x) { return x < 64 ? 40.0 : 60.0; };
  const auto master = plane(128, 128, [&](auto x, auto y) { return edge(x) + 0.1 * checks(x, y); });
  const auto smooth = plane(128, 128, [&](auto x, auto) { return edge(x); });
  CHECK(compare(master, smooth, 128, 128).all_kept > 0.99);
}

TEST_CASE("any size of picture is taken") {
  for (const auto& [w, h] : {std::pair<uint32_t, uint32_t>{1, 1},
                             {1, 900},
                             {3, 3},
                             {4, 5},
                             {5, 4},
                             {17, 6},
                             {6, 17},
                             {301, 33}}) {
    const auto one = plane(w, h, [](auto x, auto y) { return 50 + 20 * std::sin(x + 2.0 * y); });
    const ToneShares shares = compare(one, one, w, h);
    CHECK(shares.all_kept == doctest::Approx(1));
    CHECK(shares.all_gone == doctest::Approx(0));
  }
}

TEST_CASE("steps of an even ramp are the integral of 1 / S_L") {
  std::vector<float> ramp;
  for (int i = 0; i < 100000; ++i) ramp.push_back(float(i) / 1000);
  const auto ranges = tone_ranges(ramp);
  for (size_t zone = 0; zone < kZones; ++zone) {
    CHECK(ranges[zone].share == doctest::Approx(1.0 / 3).epsilon(0.01));
    // From the 1st to the 99th percentile of the zone's 33.3 L*.
    const double first = 100.0 / 3 * (double(zone) + 0.01),
                 last = 100.0 / 3 * (double(zone) + 0.99);
    double expected = 0;
    for (double l = first; l < last; l += 0.01) {
      const double square = (l - 50) * (l - 50);
      expected += 0.01 / (1 + 0.015 * square / std::sqrt(20 + square));
    }
    CHECK(ranges[zone].steps == doctest::Approx(expected).epsilon(0.01));
  }
  const auto flat = tone_ranges(std::vector<float>(1000, 20.0f));
  CHECK(flat[0].share == 1);
  CHECK(flat[0].steps == 0);
  CHECK(flat[1].steps == 0);
  CHECK(tone_ranges({})[0].share == 0);
}
