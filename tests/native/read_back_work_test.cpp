// The strip measured, and the next proof with what it told.
#include <cmath>
#include <cstring>
#include <functional>

#include "colour/lcms.h"
#include "pictures.h"
#include "print/proofing_json.h"
#include "proof/cube.h"
#include "strip_files.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

constexpr char kPaper[] = "papers/tarnsea-baryta.icc";

// A synthetic print that departs from its profile by a known curve in XYZ, which is not the form
// the model of the reading has: tones gain, the paper is yellower.
Lab printed(const Lab& predicted) {
  const XYZ xyz = xyz_from_lab(predicted);
  const auto part = [](double value, double white, double paper) {
    return white * paper * std::pow(std::max(0.0, value / white), 1.12);
  };
  return lab_from_xyz(
      {part(xyz.x, kD50.x, 0.99), part(xyz.y, kD50.y, 0.985), part(xyz.z, kD50.z, 0.955)});
}

Json perform_json(const Json& request, const WorkFiles& files) {
  const auto answer = perform(dump_json(request), files, {});
  REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
  return parse_json(answer.value().json);
}

std::string refused(const Json& request, const WorkFiles& files) {
  const auto answer = perform(dump_json(request), files, {});
  REQUIRE_FALSE(answer.ok());
  return answer.error().message;
}

// The print's patches as an instrument writes them.
std::string measured(const Json& patches, const std::function<Lab(const Lab&)>& print) {
  std::string text = "NAME;L;a;b\n";
  for (const Json& patch : patches) {
    const Lab lab = print({patch["aim"][0], patch["aim"][1], patch["aim"][2]});
    text += patch["name"].get<std::string>();
    for (const double value : {lab.l, lab.a, lab.b}) text += ";" + std::to_string(value);
    text += "\n";
  }
  return text;
}

struct Round {
  Json patches, back;
  WorkFiles files;
};
Round read_back_of(const std::function<Lab(const Lab&)>& print) {
  StripFiles strip(700, 450, kPaper);
  Round round;
  round.patches = strip.deliver(strip_request({"one"}))["strip"]["patches"];
  const std::string text = measured(round.patches, print);
  round.files.profile = memory("srgb.icc", standard_profile("srgb").value().bytes());
  round.files.paper = memory("paper.icc", file_bytes(kDemo + kPaper));
  round.files.readings = memory("strip.csv", Bytes(text.begin(), text.end()));
  round.back = perform_json(
      {{"op", "read_back"}, {"intent", "relative"}, {"patches", round.patches}}, round.files);
  return round;
}

double mean_off(const ProofChain& chain, const ProofChain& plain, bool greys) {
  double sum = 0, count = 0;
  for (int r = 0; r <= 8; ++r) {
    for (int g = 0; g <= 8; ++g) {
      for (int b = 0; b <= 8; ++b) {
        if (greys && (r != g || g != b)) continue;
        const float rgb[] = {float(r) / 8, float(g) / 8, float(b) / 8};
        const Lab truth = printed(plain.point(rgb[0], rgb[1], rgb[2]).on_paper);
        sum += delta_e_2000(truth, chain.point(rgb[0], rgb[1], rgb[2]).on_paper);
        ++count;
      }
    }
  }
  return sum / count;
}

}  // namespace

TEST_CASE("read back work: a print just as predicted is good and corrects nothing") {
  const Round round = read_back_of([](const Lab& lab) { return lab; });
  CHECK(text_of(round.back, "kind") == "read_back");
  CHECK(text_of(round.back, "verdict") == "good");
  CHECK(number_of(round.back, "max") < 0.01);
  CHECK(round.back["patches"].size() == round.patches.size());
  for (const Json& offset : round.back["correction"]["offsets"]) {
    for (size_t i = 1; i < 4; ++i) CHECK(std::abs(offset[i].get<double>()) < 0.001);
  }
}

TEST_CASE("read back work: with the reading the proof is nearer to the print") {
  const Round round = read_back_of(printed);
  CHECK(text_of(round.back, "verdict") != "good");
  const Profile master = standard_profile("srgb").take();
  const Paper paper = paper_at(kDemo + kPaper);
  auto correction = print::paper_correction_from_json(round.back["correction"]);
  REQUIRE(correction);
  const PrintIntent intent{Intent::relative, true};
  auto plain = ProofChain::make(master, paper, intent, {});
  auto read =
      ProofChain::make(master, paper, intent, {}, {}, PaperReading{correction.value().offsets});
  REQUIRE(plain);
  REQUIRE(read);
  const double greys_before = mean_off(*plain.value(), *plain.value(), true);
  const double greys_after = mean_off(*read.value(), *plain.value(), true);
  const double before = mean_off(*plain.value(), *plain.value(), false);
  const double after = mean_off(*read.value(), *plain.value(), false);
  MESSAGE("mean dE00 to the print: greys " << greys_before << " -> " << greys_after
                                           << ", all colours " << before << " -> " << after);
  CHECK(greys_after < greys_before / 5);
  CHECK(after < before * 0.75);

  // Device values never follow the reading; paper white and black shown or not do.
  for (const float level : {0.0f, 0.3f, 0.8f, 1.0f}) {
    const ProofPoint one = plain.value()->point(level, 0.4f, 0.5f);
    const ProofPoint two = read.value()->point(level, 0.4f, 0.5f);
    CHECK(one.device == two.device);
    CHECK(one.off_gamut == two.off_gamut);
  }
  auto bare = ProofChain::make(master, paper, intent, {.paper_white = false, .paper_black = false},
                               {}, PaperReading{correction.value().offsets});
  REQUIRE(bare);
  const Lab white = bare.value()->point(1, 1, 1).on_paper;
  const Lab black = bare.value()->point(0, 0, 0).on_paper;
  CHECK(white.l == doctest::Approx(100).epsilon(0.001));
  CHECK(std::hypot(white.a, white.b) < 0.1);
  CHECK(std::abs(black.l) < 0.5);
}

TEST_CASE("read back work: the cube takes the reading, print files do not") {
  Round round = read_back_of(printed);
  Json request{{"op", "cube"}, {"intent", "relative"}, {"grid", 9}};
  const auto lanes = [&] {
    const auto answer = perform(dump_json(request), round.files, {});
    REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
    auto cube = unpack_cube(answer.value().buffers[0].bytes);
    REQUIRE(cube);
    return cube.take().nodes;
  };
  const auto plain = lanes();
  request["reading"] = nullptr;
  CHECK(lanes() == plain);
  request["reading"] = round.back["correction"];
  const auto read = lanes();
  CHECK(read != plain);
  // The middle grey (code 128 * (255 x + 128)) prints darker.
  const size_t middle = ((size_t{4} * 9 + 4) * 9 + 4) * 4;
  CHECK(read[middle + 1] < plain[middle + 1] - 128);
  request["reading"] = {{"offsets", 3}};
  CHECK(refused(request, round.files).find("offsets") != std::string::npos);

  StripFiles one(60, 50, kPaper), two(60, 50, kPaper);
  Json deliver{{"op", "deliver"}, {"format", "tiff"}};
  one.deliver(deliver);
  deliver["reading"] = round.back["correction"];
  two.deliver(deliver);
  CHECK(one.written() == two.written());
}

TEST_CASE("read back work: what is missing or wrong is said") {
  const Round round = read_back_of(printed);
  const Json request{{"op", "read_back"}, {"patches", round.patches}};
  WorkFiles without = round.files;
  without.readings.reset();
  CHECK(refused(request, without).find("measurements") != std::string::npos);
  without = round.files;
  without.profile.reset();
  CHECK_FALSE(refused(request, without).empty());
  WorkFiles other = round.files;
  other.readings = memory("notes.csv", Bytes{'h', 'i', '\n'});
  CHECK(refused(request, other).find("notes.csv") != std::string::npos);
  const auto spoiled = [&](const std::function<void(Json&)>& spoil) {
    Json changed = request;
    spoil(changed);
    return refused(changed, round.files);
  };
  CHECK(spoiled([](Json& j) { j.erase("patches"); }).find("patches") != std::string::npos);
  CHECK(spoiled([](Json& j) { j["patches"][0] = 4; }).find("name") != std::string::npos);
  CHECK(spoiled([](Json& j) { j["patches"][0]["lightness"] = 101; }).find("L*") !=
        std::string::npos);
  CHECK(spoiled([](Json& j) {
          j["patches"].push_back({{"name", "X"}, {"lightness", 5}});
        }).find("32") != std::string::npos);
  // Patches of one lightness alone correct nothing.
  Json alone = request;
  alone["patches"] = Json::array({round.patches[3]});
  CHECK(perform_json(alone, round.files)["correction"].is_null());
}

TEST_CASE("eye reading work: what was seen, or not") {
  const Json seen = perform_json(
      {{"op", "eye_reading"}, {"first_from_black", 4}, {"first_from_white", nullptr}}, {});
  CHECK(text_of(seen, "kind") == "eye_reading");
  CHECK(number_of(seen, "black_until") == 4);
  CHECK(number_of(seen, "white_from") == 89);
  CHECK(seen["sentences"].size() == 2);
  CHECK(refused({{"op", "eye_reading"}, {"first_from_black", 40}}, {}).find("first_from_black") !=
        std::string::npos);
}
