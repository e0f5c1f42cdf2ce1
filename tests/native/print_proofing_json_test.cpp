// The test strip and what came back from it, as JSON.
#include "pictures.h"
#include "print/proofing_json.h"
#include "sentences.h"

using namespace proofleaf;
using namespace proofleaf::print;
using namespace proofleaf::test;

TEST_CASE("strip json: sheet, places and what was seen go round") {
  const StripSheet sheet{180, 240.5, 240};
  const auto same = strip_sheet_from_json(to_json(sheet));
  REQUIRE(same);
  CHECK(to_json(same.value()) == to_json(sheet));

  const std::vector<StripPlace> places{{PlaceReason::off_gamut, 0.25, 0.5, 0.125, 0.0625},
                                       {PlaceReason::chosen, 0, 0, 1, 1}};
  const Json json = to_json(std::span<const StripPlace>(places));
  const auto back = places_from_json(parse_json(dump_json(json)));
  REQUIRE(back);
  CHECK(to_json(std::span<const StripPlace>(back.value())) == json);
  CHECK(back.value()[0].reason == PlaceReason::off_gamut);

  for (const EyeReading& reading : {EyeReading{3, {}}, EyeReading{{}, 96}, EyeReading{}}) {
    const auto eye = eye_reading_from_json(to_json(reading));
    REQUIRE(eye);
    CHECK(to_json(eye.value()) == to_json(reading));
  }
}

TEST_CASE("strip json: a paper's correction goes round, so that it can be kept") {
  std::vector<PatchDifference> neutrals;
  for (int l = 5; l <= 95; l += 10)
    neutrals.push_back({"N", {double(l), 0, 0}, {l + 1.5, 0.5, -1}, 0});
  const auto made = paper_correction(neutrals);
  REQUIRE(made);
  const auto kept = paper_correction_from_json(parse_json(dump_json(to_json(made.value()))));
  REQUIRE_MESSAGE(kept.ok(), kept.error().message);
  CHECK(to_json(kept.value()) == to_json(made.value()));
  CHECK(kept.value().lightness_offset(42) == doctest::Approx(1.5));
  CHECK(kept.value().sentences == made.value().sentences);
}

TEST_CASE("strip json: what is no such thing is refused with a sentence") {
  CHECK(
      json_refusal(strip_sheet_from_json, R"({"width_mm":5})").find("width_mm must lie between") ==
      0);
  CHECK(json_refusal(strip_sheet_from_json, R"({"width":5})").find("no field called width") !=
        std::string::npos);
  CHECK_FALSE(json_refusal(places_from_json, "{}").empty());
  CHECK_FALSE(json_refusal(places_from_json, "[1,1,1,1,1,1,1,1,1]").empty());
  CHECK(json_refusal(places_from_json, R"([{"x":2}])").find("x must lie between 0 and 1") == 0);
  CHECK(json_refusal(places_from_json, R"([{"reason":"nice"}])").find("reason must be one of") ==
        0);
  CHECK(
      json_refusal(eye_reading_from_json, R"({"first_from_black":40})").find("first_from_black") ==
      0);
  CHECK(
      json_refusal(eye_reading_from_json, R"({"first_from_white":"x"})").find("first_from_white") ==
      0);
  const std::string colours =
      R"("white":[95,0,0],"white_aim":[95,0,0],"black":[5,0,0],"black_aim":[5,0,0]})";
  CHECK(json_refusal(paper_correction_from_json, R"({"offsets":[[5,0,0,0],[95,0,0,0]],)" + colours)
            .empty());
  for (const char* bad :
       {"[]", "[[5,0,0,0]]", "[[5,0,0,0],[5,0,0,0]]", "[[5,0,0],[95,0,0]]",
        "[[5,0,0,0],[95,60,0,0]]", "[[5,0,0,\"x\"],[95,0,0,0]]", "7", "[[-50,0,0,0],[95,0,0,0]]"}) {
    CHECK(
        json_refusal(paper_correction_from_json, std::string("{\"offsets\":") + bad + "," + colours)
            .find("offsets must be a list") == 0);
  }
  CHECK(json_refusal(paper_correction_from_json, R"({"offsets":[[5,0,0,0],[95,0,0,0]]})")
            .find("white must be a list of L*, a* and b*") == 0);
  CHECK_FALSE(json_refusal(paper_correction_from_json, "[]").empty());
}

TEST_CASE("strip json: layout and verdict as the panel reads them") {
  const std::vector<StripPlace> places{{PlaceReason::finest, 0.4, 0.4, 0.2, 0.2}};
  const std::vector<std::string> names{"One"};
  const auto layout = layout_strip({150, 150, 100}, 900, 900, places, names);
  REQUIRE(layout);
  const Json json = to_json(layout.value());
  CHECK(json["tiles"].size() == 1);
  CHECK(json["patches"][0]["name"] == "B 0");
  CHECK(json["patches"].size() == 31);
  ReadBack back;
  back.verdict = Verdict::marginal;
  back.patches.push_back({"B 0", {5, 0, 0}, {6, 0, 0}, 0.9});
  CHECK(to_json(back)["verdict"] == "marginal");
  CHECK(to_json(back)["patches"][0]["measured"] == Json::array({6.0, 0.0, 0.0}));
}
