// What a print is to be, as JSON and back.
#include "print/print_json.h"

#include "pictures.h"
#include "sentences.h"

using namespace proofleaf;
using namespace proofleaf::print;
using namespace proofleaf::test;

namespace {

// Each field with things it must not be; the answer names it and says what it may be.
template <class Read>
void check_numbers(const Read& read, const std::vector<Range>& ranges) {
  for (const Range& range : ranges) {
    const std::string field = range.field;
    for (const std::string bad : {"-1e9", "1e300", "\"5\"", "true", "[1]", "{}"}) {
      std::string text = "{\"";
      text.append(field).append("\":").append(bad).append("}");
      const std::string message = json_refusal(read, text);
      CHECK_MESSAGE(message.find(field) == 0, message);
      CHECK(message.find("between " + plain_number(range.low, 4)) != std::string::npos);
      CHECK(message.back() == '.');
    }
  }
}

}  // namespace

TEST_CASE("print json: round trips") {
  PrintSize size;
  size.width_mm = 812.5;
  size.ppi = 240;
  size.crop = {0.125, 0.25, 0.5, 0.625};
  size.ratio_locked = false;
  size.border_mm = 12.5;
  size.mat_mm = 40;
  size.signature_line = true;
  size.signature_place = SignaturePlace::middle;
  const auto same = print_size_from_json(parse_json(dump_json(to_json(size))));
  REQUIRE(same);
  CHECK(to_json(same.value()) == to_json(size));
  CHECK(same.value().width_mm == 812.5);
  CHECK_FALSE(same.value().height_mm.has_value());
  CHECK(same.value().signature_place == SignaturePlace::middle);

  for (const EdgeKind kind :
       {EdgeKind::wrapped, EdgeKind::bleed_mirrored, EdgeKind::bleed_extended}) {
    PrintSize wrapped;
    wrapped.edge = kind;
    wrapped.edge_mm = 35;
    const auto back = print_size_from_json(to_json(wrapped));
    REQUIRE(back);
    CHECK(back.value().edge == kind);
  }

  const Sharpening sharpening{false, 1.25, 0.3, 0.5, 1.5, 6};
  const auto sharp = sharpening_from_json(to_json(sharpening));
  REQUIRE(sharp);
  CHECK(to_json(sharp.value()) == to_json(sharpening));
  CHECK(sharp.value().halo == 6);

  const Grain grain{true, 0.25, 1, 2, 3, 4294967295u};
  const auto grains = grain_from_json(parse_json(dump_json(to_json(grain))));
  REQUIRE(grains);
  CHECK(to_json(grains.value()) == to_json(grain));
  CHECK(grains.value().seed == 4294967295u);

  const HouseLimits limits{1500, 5e8, {240, 300, 360}};
  const auto house = house_limits_from_json(to_json(limits));
  REQUIRE(house);
  CHECK(to_json(house.value()) == to_json(limits));
  CHECK(house.value().ppi_steps.size() == 3);
}

TEST_CASE("print json: what is left out has its default") {
  CHECK(to_json(print_size_from_json(Json::object()).value()) == to_json(PrintSize{}));
  CHECK(to_json(sharpening_from_json(Json::object()).value()) == to_json(Sharpening{}));
  CHECK(to_json(grain_from_json(Json::object()).value()) == to_json(Grain{}));
  CHECK(to_json(house_limits_from_json(Json::object()).value()) == to_json(HouseLimits{}));
}

TEST_CASE("print json: numbers of the wrong kind or range are refused by name") {
  check_numbers(print_size_from_json, {kWidthMm, kHeightMm, kPpi, kEdgeMm, kBorderMm, kMatMm});
  check_numbers(sharpening_from_json, {kAmount, kRadiusMm, kThreshold, kMask, kHalo});
  check_numbers(grain_from_json, {kGrainSizeMm, kShadows, kMids, kHighlights, kSeed});
  check_numbers(house_limits_from_json, {kMaximumSideMm, kLargestFile});
  CHECK(json_refusal(grain_from_json, R"({"seed":1.5})").find("seed must be a whole number") == 0);
  CHECK(json_refusal(sharpening_from_json, R"({"radius_mm":null})") ==
        "radius_mm must be a number between 0.02 and 1 mm, not nothing.");
  CHECK(json_refusal(sharpening_from_json, R"({"radius_mm":-3})") ==
        "radius_mm must lie between 0.02 and 1 mm, not -3.");
}

TEST_CASE("print json: fields nobody knows, words, flags, lists and groups") {
  CHECK(json_refusal(sharpening_from_json, R"({"radius":1})") ==
        "The sharpening has no field called radius.");
  CHECK(json_refusal(grain_from_json, R"({"colour":1})") ==
        "The grain has no field called colour.");
  CHECK(json_refusal(print_size_from_json, R"({"crop":{"left":0}})") ==
        "The crop has no field called left.");
  CHECK(json_refusal(print_size_from_json, R"({"crop":7})").find("crop must be a group") !=
        std::string::npos);
  CHECK(json_refusal(print_size_from_json, R"({"crop":{"width":0}})").find("crop.width") == 0);
  CHECK(json_refusal(print_size_from_json, R"({"edge":"round"})") ==
        "edge must be one of none, bleed_mirrored, bleed_extended, wrapped.");
  CHECK(json_refusal(print_size_from_json, R"({"signature_place":3})") ==
        "signature_place must be one of left, middle, right.");
  CHECK(json_refusal(sharpening_from_json, R"({"on":1})") ==
        "on must be true or false, not a number.");
  CHECK(json_refusal(house_limits_from_json, R"({"ppi_steps":[300,"x"]})").find("ppi_steps") == 0);
  CHECK(json_refusal(house_limits_from_json, R"({"ppi_steps":[300,-2]})").find("ppi_steps") == 0);
  CHECK(json_refusal(house_limits_from_json, R"({"ppi_steps":300})").find("ppi_steps") == 0);
  for (const char* text : {"[]", "3", "null", "\"x\""}) {
    CHECK_FALSE(json_refusal(print_size_from_json, text).empty());
    CHECK_FALSE(json_refusal(sharpening_from_json, text).empty());
    CHECK_FALSE(json_refusal(grain_from_json, text).empty());
    CHECK_FALSE(json_refusal(house_limits_from_json, text).empty());
  }
  Json nan = Json::object();
  nan["amount"] = std::nan("");
  CHECK_FALSE(sharpening_from_json(nan).ok());
}

TEST_CASE("print json: the plan and the paper's surface in words") {
  PrintSize size;
  size.width_mm = 1200;
  const auto plan = plan_print(3000, 2000, size, {});
  REQUIRE(plan);
  const Json json = to_json(plan.value());
  CHECK(json["effective_ppi"].get<double>() == doctest::Approx(63.5));
  CHECK(json["crop"] == Json::array({0, 0, 3000, 2000}));
  CHECK(json["warnings"].size() == plan.value().warnings.size());
  for (const PaperClass paper :
       {PaperClass::gloss, PaperClass::baryta, PaperClass::matte, PaperClass::canvas}) {
    CHECK(paper_class_of(word_for(paper)).value() == paper);
  }
  CHECK_FALSE(paper_class_of("velvet").ok());
}
