// The print that came back.
#include "pictures.h"
#include "print/read_back.h"
#include "sentences.h"

using namespace proofleaf;
using namespace proofleaf::test;
using namespace proofleaf::print;

namespace {

Readings open_data(const std::string& file) {
  auto made = read_readings(file_bytes("/usr/share/color/icc/" + file), file);
  REQUIRE(made.ok());
  return made.take();
}

// Aims of all patches of a table.
std::vector<PatchAim> aims_of(const Readings& readings) {
  const auto lab = lab_readings(readings, "aims");
  REQUIRE(lab);
  std::vector<PatchAim> aims;
  for (size_t i = 0; i < readings.patches(); ++i) {
    aims.push_back({readings.names[i], lab.value()[i]});
  }
  return aims;
}

// A table of names and colours.
Readings table(const std::vector<std::pair<std::string, Lab>>& patches) {
  std::string text = "NAME;L;a;b\n";
  for (const auto& [name, lab] : patches) {
    text += name + ";" + std::to_string(lab.l) + ";" + std::to_string(lab.a) + ";" +
            std::to_string(lab.b) + "\n";
  }
  auto made = read_readings(Bytes(text.begin(), text.end()), "table.csv");
  REQUIRE(made.ok());
  return made.take();
}

std::vector<PatchDifference> wedge(double (*printed)(double), double a = 0, double b = 0) {
  std::vector<PatchDifference> neutrals;
  for (int step = 0; step <= 18; ++step) {
    const double l = 6 + 5 * step;
    neutrals.push_back({"N", {l, 0, -1}, {printed(l), a, b - 1}, 0});
  }
  return neutrals;
}

}  // namespace

TEST_CASE("read back: dE00 of the paper's own worked examples, through a file") {
  // Sharma, Wu and Dalal (2005), table 1, pairs 1, 7, 17, 25 and 34.
  const std::vector<PatchAim> aims{{"1", {50, 2.6772, -79.7751}},
                                   {"7", {50, 0, 0}},
                                   {"17", {50, 2.5, 0}},
                                   {"25", {60.2574, -34.0099, 36.2677}},
                                   {"34", {2.0776, 0.0795, -1.1350}}};
  const auto back = read_back(aims,
                              table({{"34", {0.9033, -0.0636, -0.5514}},
                                     {"25", {60.4626, -34.1751, 39.4387}},
                                     {"17", {73, 25, -18}},
                                     {"7", {50, -1, 2}},
                                     {"1", {50, 0, -82.7485}}}),
                              "table.csv");
  REQUIRE(back);
  const double expected[] = {2.0425, 2.3669, 27.1492, 1.2644, 0.9082};
  double mean = 0;
  for (size_t i = 0; i < 5; ++i) {
    CHECK(back.value().patches[i].delta_e == doctest::Approx(expected[i]).epsilon(1e-4));
    mean += expected[i] / 5;
  }
  CHECK(back.value().mean == doctest::Approx(mean).epsilon(1e-4));
  CHECK(back.value().max == doctest::Approx(27.1492).epsilon(1e-4));
  CHECK(back.value().verdict == Verdict::out);
}

TEST_CASE("read back: open characterization data against itself and against its like") {
  const Readings first = open_data("FOGRA39L.ti3");
  const auto same = read_back(aims_of(first), first, "FOGRA39L.ti3");
  REQUIRE(same);
  CHECK(same.value().max == 0);
  CHECK(same.value().verdict == Verdict::good);
  // Two sets for coated paper after ISO 12647-2 on the same 1617 patches (ANSI IT8.7/4) lie near
  // one another; one for super calandered paper lies farther off.
  const auto like = read_back(aims_of(first), open_data("TR006.ti3"), "TR006.ti3");
  REQUIRE(like);
  CHECK(like.value().mean < 5);
  CHECK(like.value().verdict != Verdict::out);
  const auto other = read_back(aims_of(first), open_data("FOGRA40L.ti3"), "FOGRA40L.ti3");
  REQUIRE(other);
  CHECK(other.value().mean > like.value().mean);
  CHECK(other.value().verdict != Verdict::good);
  // 928 patches of another chart are not these 1617.
  CHECK_FALSE(read_back(aims_of(first), open_data("TR002.ti3"), "TR002.ti3").ok());
}

TEST_CASE("read back: verdicts at the limits of ISO 12647-7, mean 2.5 and 95 % within 5") {
  // Steps of L* around 50: dE00 is |dL| / S_L there, near 1 (Sharma et al. (18)).
  auto with = [](double most, double rest) {
    std::vector<PatchAim> aims;
    std::vector<std::pair<std::string, Lab>> measured;
    for (int i = 0; i < 100; ++i) {
      const double off = i < 10 ? most : rest;
      aims.push_back({std::to_string(i), {50 - off / 2, 0, 0}});
      measured.push_back({std::to_string(i), {50 + off / 2, 0, 0}});
    }
    auto back = read_back(aims, table(measured), "t");
    REQUIRE(back);
    return back.take();
  };
  CHECK(with(4.9, 2.2).verdict == Verdict::good);
  CHECK(with(4.9, 2.2).p95 == doctest::Approx(4.9).epsilon(0.001));
  CHECK(with(5.1, 2.2).verdict == Verdict::marginal);
  CHECK(with(2.6, 2.6).verdict == Verdict::marginal);
  CHECK(with(9.9, 4).verdict == Verdict::marginal);
  CHECK(with(10.2, 4).verdict == Verdict::out);
  CHECK(with(5.1, 5.1).verdict == Verdict::out);
  CHECK(with(4.9, 2.2).sentence.find("contract proof") != std::string::npos);
}

TEST_CASE("read back: by order where names differ, else refused") {
  const std::vector<PatchAim> aims{{"B 0", {10, 0, 0}}, {"W 100", {95, 0, 0}}};
  const auto by_order = read_back(aims, table({{"A1", {10, 0, 0}}, {"A2", {95, 0, 0}}}), "t.csv");
  REQUIRE(by_order);
  CHECK(by_order.value().max == 0);
  const auto by_name =
      read_back(aims, table({{"W 100", {95, 0, 0}}, {"x", {1, 0, 0}}, {"B 0", {10, 0, 0}}}), "t");
  REQUIRE(by_name);
  CHECK(by_name.value().max == 0);
  const auto refused = read_back(aims, table({{"A1", {10, 0, 0}}}), "t.csv");
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.error().message.find("t.csv holds 1 patches, but 2 were printed") == 0);
  CHECK_FALSE(read_back({}, table({{"A1", {10, 0, 0}}}), "t.csv").ok());
}

TEST_CASE("read back: the paper's correction is how it departed along the neutrals") {
  const auto darker = paper_correction(wedge([](double l) { return l - 2; }));
  REQUIRE(darker);
  for (const double l : {0.0, 6.0, 33.3, 70.0, 96.0, 100.0}) {
    CHECK(darker.value().lightness_offset(l) == doctest::Approx(-2));
  }
  CHECK(darker.value().white.l == doctest::Approx(94));
  CHECK(darker.value().black.l == doctest::Approx(4));
  CHECK(says(darker.value().sentences, "Its middle tones come out 2 L* darker than predicted."));

  const auto bent =
      paper_correction(wedge([](double l) { return l + (l < 40 ? 3.0 : 0.0); }, 2, 0));
  REQUIRE(bent);
  CHECK(bent.value().lightness_offset(20) == doctest::Approx(3));
  CHECK(bent.value().lightness_offset(80) == doctest::Approx(0).scale(1));
  CHECK(bent.value().lightness_offset(38.5) > 0);
  CHECK(says(bent.value().sentences, "Its shadows come out"));
  CHECK(says(bent.value().sentences, "lean to red by 2"));

  const auto exact = paper_correction(wedge([](double l) { return l; }));
  REQUIRE(exact);
  CHECK(says(exact.value().sentences, "nothing needs correcting"));
  CHECK(says(exact.value().sentences, "as predicted"));

  // Single readings' noise is halved or better.
  auto noisy = wedge([](double l) { return l; });
  for (size_t i = 0; i < noisy.size(); ++i) noisy[i].measured.l += i % 2 == 0 ? 1 : -1;
  const auto smooth = paper_correction(noisy);
  REQUIRE(smooth);
  CHECK(std::abs(smooth.value().lightness_offset(noisy[8].aim.l)) < 0.5);
  CHECK_FALSE(paper_correction({}).ok());
  const std::vector<PatchDifference> twice(2, {"N", {50, 0, 0}, {50, 0, 0}, 0});
  CHECK_FALSE(paper_correction(twice).ok());
}

TEST_CASE("read back: by eye, the first steps seen tell what is lost") {
  const auto seen = by_eye({5, 97});
  REQUIRE(seen);
  CHECK(seen.value().black_until == 5);
  CHECK(seen.value().white_from == 97);
  CHECK(says(seen.value().sentences, "Everything in the file below L* 5 prints as one black"));
  CHECK(says(seen.value().sentences, "Everything in the file above L* 97 prints as one white"));
  const auto all = by_eye({1, 99});
  REQUIRE(all);
  CHECK(says(all.value().sentences, "Every step next to black"));
  CHECK(says(all.value().sentences, "Every step next to white"));
  const auto none = by_eye({});
  REQUIRE(none);
  CHECK(none.value().black_until > 12);
  CHECK(none.value().white_from < 90);
  for (const double bad : {std::nan(""), -1.0, 13.0}) CHECK_FALSE(by_eye({bad, 97}).ok());
  for (const double bad : {std::nan(""), 89.0, 101.0}) CHECK_FALSE(by_eye({5, bad}).ok());
}
