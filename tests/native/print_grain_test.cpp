// Grain made for the paper.
#include <numbers>

#include "print/grain.h"
#include "print_rows.h"

using namespace proofleaf;
using namespace proofleaf::test;
using print::Grain;

namespace {

constexpr uint32_t kSide = 512;

Grain grain_of(double size_mm, double amount, uint32_t seed = 1) {
  Grain grain;
  grain.on = true;
  grain.size_mm = size_mm;
  grain.shadows = grain.mids = grain.highlights = amount;
  grain.seed = seed;
  return grain;
}

std::unique_ptr<RowSource> with(std::unique_ptr<RowSource> rows, const Grain& grain, double ppi) {
  auto made = print::grained(std::move(rows), light_of(space("srgb")), ppi, grain);
  REQUIRE(made.ok());
  return made.take();
}

// L* less the flat tone's, of a square of it.
std::vector<double> noise_on(double l, const Grain& grain, double ppi, uint32_t side = kSide) {
  const auto rows =
      with(rows_of(side, side, [&](auto, auto, auto) { return srgb_code_of_l(l); }), grain, ppi);
  const Codes samples = all_of(*rows);
  std::vector<double> noise(samples.size() / 3);
  for (size_t i = 0; i < noise.size(); ++i) noise[i] = l_of_srgb(samples[i * 3]) - l;
  return noise;
}

double mean(const std::vector<double>& values) {
  double sum = 0;
  for (const double v : values) sum += v;
  return sum / double(values.size());
}
double rms(const std::vector<double>& values) {
  double squares = 0;
  for (const double v : values) squares += v * v;
  return std::sqrt(squares / double(values.size()));
}

// Mean power over all rows near f cycles per pixel, in bins of the row's own length.
double power(const std::vector<double>& noise, uint32_t side, double f) {
  double sum = 0;
  int bins = 0;
  const auto middle = static_cast<int>(std::lround(f * side));
  for (int bin = std::max(1, middle - 2); bin <= middle + 2; ++bin, ++bins) {
    for (uint32_t y = 0; y < side; y += 2) {
      double re = 0, im = 0;
      for (uint32_t x = 0; x < side; ++x) {
        const double phase = 2 * std::numbers::pi * bin * x / side;
        re += noise[size_t{y} * side + x] * std::cos(phase);
        im += noise[size_t{y} * side + x] * std::sin(phase);
      }
      sum += re * re + im * im;
    }
  }
  return sum / bins;
}

// Correlation between pixels (dx, dy) apart.
double correlation(const std::vector<double>& noise, uint32_t side, uint32_t dx, uint32_t dy) {
  double sum = 0, squares = 0;
  for (uint32_t y = 0; y + dy < side; ++y) {
    for (uint32_t x = 0; x + dx < side; ++x) {
      const double v = noise[size_t{y} * side + x];
      sum += v * noise[size_t{y + dy} * side + x + dx];
      squares += v * v;
    }
  }
  return sum / squares;
}

}  // namespace

TEST_CASE("grain: root mean square and mean are as asked") {
  for (const double size : {0.08, 0.2, 0.5}) {
    for (const double l : {20.0, 50.0, 80.0}) {
      const auto noise = noise_on(l, grain_of(size, 1.5), 300);
      CHECK(rms(noise) == doctest::Approx(1.5).epsilon(0.05));
      CHECK(std::abs(mean(noise)) < 0.1);
    }
  }
}

TEST_CASE("grain: its spectrum falls to half where the size says, at any ppi") {
  for (const auto& [size, ppi] :
       {std::pair{0.3, 300.0}, std::pair{0.3, 600.0}, std::pair{0.6, 240.0}}) {
    const auto noise = noise_on(50, grain_of(size, 2), ppi);
    const double pixel = 25.4 / ppi, cut = print::kGrainCutOff / size * pixel;
    const double low = power(noise, kSide, cut * 0.15);
    // A Gaussian's power: 2^-(f / cut)^2.
    CHECK(power(noise, kSide, cut) / low == doctest::Approx(0.5 / 0.984).epsilon(0.12));
    CHECK(power(noise, kSide, cut * 1.5) / low == doctest::Approx(0.21 / 0.984).epsilon(0.15));
    CHECK(power(noise, kSide, cut * 3) / low < 0.01);
    // Half of the correlation at half of the size, across, down and aslant.
    const auto half = static_cast<uint32_t>(std::lround(size / pixel / 2));
    const double expected = std::exp2(-std::pow(half * pixel / (size / 2), 2));
    CHECK(correlation(noise, kSide, half, 0) == doctest::Approx(expected).epsilon(0.1));
    CHECK(correlation(noise, kSide, 0, half) == doctest::Approx(expected).epsilon(0.1));
    CHECK(std::abs(correlation(noise, kSide, 4 * half, 0)) < 0.05);
    CHECK(std::abs(correlation(noise, kSide, 0, 4 * half)) < 0.05);
  }
}

TEST_CASE("grain: through a wider spot it falls with the spot's diameter") {
  // Selwyn's law: root mean square times the square root of the area is constant.
  const auto noise = noise_on(50, grain_of(0.1, 3), 300, 768);  // a grain is 1.2 pixels
  auto through = [&](uint32_t spot) {
    std::vector<double> means;
    for (uint32_t y = 0; y + spot <= 768; y += spot) {
      for (uint32_t x = 0; x + spot <= 768; x += spot) {
        double sum = 0;
        for (uint32_t j = 0; j < spot; ++j) {
          for (uint32_t i = 0; i < spot; ++i) sum += noise[size_t{y + j} * 768 + x + i];
        }
        means.push_back(sum / (spot * spot));
      }
    }
    return rms(means);
  };
  CHECK(through(8) / through(16) == doctest::Approx(2).epsilon(0.08));
  CHECK(through(12) / through(24) == doctest::Approx(2).epsilon(0.1));
}

TEST_CASE("grain: amounts by tone, and none that would be cut off at black or white") {
  Grain grain = grain_of(0.15, 0);
  grain.shadows = 0.5;
  grain.mids = 2;
  grain.highlights = 1;
  CHECK(print::grain_amount(grain, 15) == doctest::Approx(0.5));
  CHECK(print::grain_amount(grain, 50) == doctest::Approx(2));
  CHECK(print::grain_amount(grain, 85) == doctest::Approx(1));
  for (int half = 0; half < 200; ++half) {  // smooth
    const double l = half / 2.0;
    CHECK(std::abs(print::grain_amount(grain, l + 0.5) - print::grain_amount(grain, l)) < 0.2);
  }
  CHECK(rms(noise_on(15, grain, 300)) == doctest::Approx(0.5).epsilon(0.06));
  CHECK(rms(noise_on(50, grain, 300)) == doctest::Approx(2).epsilon(0.06));
  CHECK(rms(noise_on(85, grain, 300)) == doctest::Approx(1).epsilon(0.06));
  CHECK(rms(noise_on(0, grain, 300)) == 0);
  CHECK(rms(noise_on(100, grain, 300)) < 1e-9);
  for (const double l : {1.0, 3.0, 97.0, 99.0}) {
    CHECK(std::abs(mean(noise_on(l, grain_of(0.1, 4), 300))) < 0.03);
  }
}

TEST_CASE("grain: the same seed gives the same grain, another seed another") {
  const auto first = noise_on(50, grain_of(0.2, 1, 7), 300),
             again = noise_on(50, grain_of(0.2, 1, 7), 300),
             other = noise_on(50, grain_of(0.2, 1, 8), 300);
  CHECK(first == again);
  double together = 0;
  for (size_t i = 0; i < first.size(); ++i) together += first[i] * other[i];
  CHECK(std::abs(together / double(first.size())) < 0.05);
}

TEST_CASE("grain: strips of any height give the same picture; off means untouched") {
  for (const double size : {0.03, 0.2, 0.9}) {
    check_strips([&] { return with(ramp_rows(67, 90), grain_of(size, 2, 3), 300); });
  }
  Reads reads;
  const auto rows = with(ramp_rows(30, 50, &reads), grain_of(0.2, 1), 300);
  all_of(*rows, 7);
  CHECK(reads.backwards == 0);
  CHECK(reads.rows == 50);
  auto plain = ramp_rows(9, 9);
  const RowSource* before = plain.get();
  CHECK(with(std::move(plain), {}, 300).get() == before);
}

TEST_CASE("grain: settings out of range are refused by name") {
  for (const double bad : {std::nan(""), -1.0, 1e9}) {
    for (const auto& [field, name] :
         {std::pair{&Grain::size_mm, "size_mm"}, std::pair{&Grain::shadows, "shadows"},
          std::pair{&Grain::mids, "mids"}, std::pair{&Grain::highlights, "highlights"}}) {
      Grain wrong = grain_of(0.1, 1);
      wrong.*field = bad;
      const auto refused = print::grained(ramp_rows(9, 9), light_of(space("srgb")), 300, wrong);
      REQUIRE_FALSE(refused.ok());
      CHECK(refused.error().message.find(name) == 0);
    }
  }
}
