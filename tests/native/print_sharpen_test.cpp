// Sharpening for the paper.
#include <random>

#include "colour/lcms.h"
#include "print/sharpen.h"
#include "print_rows.h"

using namespace proofleaf;
using namespace proofleaf::test;
using print::PaperClass;
using print::Sharpening;

namespace {

constexpr double kUsualPpi = 300;

std::unique_ptr<RowSource> sharp(std::unique_ptr<RowSource> rows, const Sharpening& sharpening = {},
                                 PaperClass paper = PaperClass::gloss, double ppi = kUsualPpi,
                                 const char* id = "srgb") {
  auto made = print::sharpened(std::move(rows), light_of(space(id)), ppi, sharpening, paper);
  REQUIRE(made.ok());
  return made.take();
}

// L* of the green channel.
std::vector<double> lightness(const Codes& samples) {
  std::vector<double> l(samples.size() / 3);
  for (size_t i = 0; i < l.size(); ++i) l[i] = l_of_srgb(samples[i * 3 + 1]);
  return l;
}

std::unique_ptr<RowSource> edge(double dark, double bright, double blur) {
  return rows_of(120, 40, [=](uint32_t x, uint32_t, uint32_t) {
    const double share = 0.5 + 0.5 * std::erf((x - 59.5) / (blur * std::sqrt(2)));
    return srgb_code_of_l(dark + (bright - dark) * share);
  });
}

double deviation(const std::vector<double>& values) {
  double sum = 0, squares = 0;
  for (const double v : values) sum += v, squares += v * v;
  const double mean = sum / double(values.size());
  return std::sqrt(squares / double(values.size()) - mean * mean);
}

// Steepest rise over one pixel of the middle row.
double steepness(const std::vector<double>& l, uint32_t width) {
  double most = 0;
  const size_t row = l.size() / width / 2 * width;
  for (uint32_t x = 1; x < width; ++x) most = std::max(most, l[row + x] - l[row + x - 1]);
  return most;
}

}  // namespace

TEST_CASE("sharpen: an edge gets steeper and overshoots by no more than the halo bound") {
  for (const double blur : {0.8, 1.5, 3.0}) {
    for (const double halo : {0.0, 1.5, 4.0}) {
      for (const PaperClass paper : {PaperClass::gloss, PaperClass::canvas}) {
        Sharpening much;
        much.amount = 2.5;
        much.halo = halo;
        const auto before = lightness(all_of(*edge(30, 70, blur)));
        const auto after = lightness(all_of(*sharp(edge(30, 70, blur), much, paper)));
        CHECK(*std::max_element(after.begin(), after.end()) <= 70 + halo + 0.02);
        CHECK(*std::min_element(after.begin(), after.end()) >= 30 - halo - 0.02);
        CHECK(steepness(after, 120) > steepness(before, 120) * 1.1);
      }
    }
  }
}

TEST_CASE("sharpen: the step added is the formula's, on a wave") {
  // A wave of f cycles per pixel keeps exp(-2 pi^2 sigma^2 f^2) under a Gaussian mean, so that the
  // high-pass adds amount * (1 - that) of it.
  Sharpening plain;
  plain.amount = 1;
  plain.threshold = plain.mask = 0;
  plain.halo = 20;
  const double sigma = plain.radius_mm / 25.4 * kUsualPpi;
  for (const double f : {1.0 / 32, 1.0 / 16, 1.0 / 8}) {
    const auto wave = [&] {
      return rows_of(256, 30, [&](uint32_t x, uint32_t, uint32_t) {
        return srgb_code_of_l(50 + 3 * std::cos(2 * 3.14159265358979 * f * x));
      });
    };
    const auto before = lightness(all_of(*wave())),
               after = lightness(all_of(*sharp(wave(), plain)));
    auto middle = [](const std::vector<double>& l) {
      return std::vector<double>(l.begin() + 15 * 256 + 64, l.begin() + 15 * 256 + 192);
    };
    const double gain = deviation(middle(after)) / deviation(middle(before));
    const double kept = std::exp(-2 * std::pow(3.14159265358979 * sigma * f, 2));
    CHECK(gain == doctest::Approx(2 - kept).epsilon(0.01));
  }
}

TEST_CASE("sharpen: a sky's noise stays as it is, within 1 %") {
  std::mt19937 random(5);
  std::normal_distribution<double> noise(0, 0.45);
  const auto sky = [&] {
    random.seed(5);
    noise.reset();
    double value = 0;
    return rows_of(160, 160, [&](uint32_t, uint32_t y, uint32_t c) {
      if (c == 0) value = srgb_code_of_l(70 + 0.05 * y + noise(random));
      return value;
    });
  };
  Sharpening much;
  much.amount = 2;
  const auto before = lightness(all_of(*sky())),
             after = lightness(all_of(*sharp(sky(), much, PaperClass::canvas)));
  std::vector<double> fine_before, fine_after;  // against the neighbour, without the ramp
  for (size_t i = 1; i < before.size(); ++i) {
    fine_before.push_back(before[i] - before[i - 1]);
    fine_after.push_back(after[i] - after[i - 1]);
  }
  CHECK(deviation(fine_after) == doctest::Approx(deviation(fine_before)).epsilon(0.01));
}

TEST_CASE("sharpen: texture gains, the more on canvas than on gloss") {
  std::mt19937 random(6);
  std::normal_distribution<double> noise(0, 4);
  Codes samples;
  for (int i = 0; i < 100 * 100; ++i) {
    const auto code = static_cast<uint16_t>(srgb_code_of_l(50 + noise(random)));
    samples.insert(samples.end(), 3, code);
  }
  double last = deviation(lightness(samples));
  for (const PaperClass paper :
       {PaperClass::gloss, PaperClass::baryta, PaperClass::matte, PaperClass::canvas}) {
    const auto made = sharp(std::make_unique<MemoryRows>(100, 100, samples), {}, paper);
    const double now = deviation(lightness(all_of(*made)));
    CHECK(now > last * 1.02);
    last = now;
  }
}

TEST_CASE("sharpen: no coloured fringes") {
  // Where the halo goes, a coloured edge keeps its two hues: a* b* in the ratio they had.
  const uint16_t left[3] = {20000, 26000, 34000}, right[3] = {36000, 47000, 58000};
  const auto rows = [&] {
    return rows_of(60, 20, [&](uint32_t x, uint32_t, uint32_t c) {
      return double(x < 30 ? left[c] : right[c]);
    });
  };
  Sharpening much;
  much.amount = 2;
  const Codes after = all_of(*sharp(rows(), much));
  const Transform to = to_lab(space("srgb"), INTENT_RELATIVE_COLORIMETRIC);
  auto hue = [&](const uint16_t* rgb) {
    float in[3], lab[3];
    for (size_t c = 0; c < 3; ++c) in[c] = float(rgb[c]) / 65535;
    cmsDoTransform(to.get(), in, lab, 1);
    return std::atan2(lab[2], lab[1]);
  };
  bool changed = false;
  for (uint32_t x = 24; x < 36; ++x) {
    const uint16_t* rgb = &after[(size_t{10} * 60 + x) * 3];
    CHECK(hue(rgb) == doctest::Approx(hue(x < 30 ? left : right)).epsilon(0.005));
    changed = changed || rgb[1] != (x < 30 ? left : right)[1];
  }
  CHECK(changed);
}

TEST_CASE("sharpen: radius is millimetres, so that twice the ppi looks the same on paper") {
  Sharpening sharpening;
  sharpening.threshold = sharpening.mask = 0;
  sharpening.halo = 20;
  auto overshoot = [&](double ppi, double scale) {
    const auto rows = rows_of(uint32_t(100 * scale), 20, [&](uint32_t x, uint32_t, uint32_t) {
      const double at = (x + 0.5) / scale - 50;
      return srgb_code_of_l(50 + 10 * std::erf(at / (2 * std::sqrt(2.0))));
    });
    auto made =
        print::sharpened(std::make_unique<MemoryRows>(uint32_t(100 * scale), 20, all_of(*rows)),
                         light_of(space("srgb")), ppi, sharpening, PaperClass::gloss);
    REQUIRE(made);
    const auto l = lightness(all_of(*made.value()));
    return *std::max_element(l.begin(), l.end()) - 60;
  };
  CHECK(overshoot(300, 1) > 0.3);
  CHECK(overshoot(600, 2) == doctest::Approx(overshoot(300, 1)).epsilon(0.02));
}

TEST_CASE("sharpen: strips of any height give the same picture, rows are asked for once") {
  for (const double radius : {0.03, 0.17, 0.6}) {
    Sharpening sharpening;
    sharpening.radius_mm = radius;
    sharpening.mask = 0.05;
    sharpening.threshold = 0.01;
    check_strips(
        [&] { return sharp(ramp_rows(61, 90), sharpening, PaperClass::matte, kUsualPpi, "romm"); });
    Reads reads;
    const auto rows = sharp(ramp_rows(61, 90, &reads), sharpening);
    all_of(*rows, 7);
    CHECK(reads.backwards == 0);
    CHECK(reads.rows == 90);
  }
}

TEST_CASE("sharpen: off means untouched, and settings out of range are refused by name") {
  Sharpening off;
  off.on = false;
  auto rows = ramp_rows(9, 9);
  const RowSource* before = rows.get();
  CHECK(sharp(std::move(rows), off).get() == before);
  for (const double bad : {std::nan(""), -1.0, 1e9}) {
    for (const auto& [field, name] :
         {std::pair{&Sharpening::amount, "amount"}, std::pair{&Sharpening::radius_mm, "radius_mm"},
          std::pair{&Sharpening::threshold, "threshold"}, std::pair{&Sharpening::mask, "mask"},
          std::pair{&Sharpening::halo, "halo"}}) {
      Sharpening wrong;
      wrong.*field = bad;
      const auto refused = print::sharpened(ramp_rows(9, 9), light_of(space("srgb")), kUsualPpi,
                                            wrong, PaperClass::gloss);
      REQUIRE_FALSE(refused.ok());
      CHECK(refused.error().message.find(name) == 0);
    }
  }
}
