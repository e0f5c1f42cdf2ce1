// Corrections as JSON: there and back, and nothing misread.
#include "fit/fit_json.h"

#include <limits>

#include "doctest.h"

using namespace proofleaf;

namespace {

Correction some_correction() {
  Correction c;
  c.curve = {{10, 14.5}, {50, 52}, {90, 91}};
  c.shadows = 3.25;
  c.highlights = -2;
  c.contrast = 12;
  c.saturation = -7;
  for (size_t i = 0; i < kHueBands; ++i) c.bands[i] = {double(i) * 3 - 10, 5 - double(i)};
  c.neutral = {{{1, -2}, {0.5, 0.25}, {-3, 4}}};
  c.local_contrast = 33;
  return c;
}

Monochrome some_monochrome() {
  Monochrome m;
  m.on = true;
  m.weights = {0.5, 0.7, -0.2};
  for (size_t i = 0; i < kHueBands; ++i) m.bands[i] = double(i) - 4;
  m.shadows = {250, 5};
  m.highlights = {70.5, 9};
  m.balance = -15;
  return m;
}

template <class Read>
void check_refused(const Read& read, const std::string& text, const std::string& word) {
  const auto found = read(parse_json(text));
  REQUIRE_MESSAGE(!found.ok(), text);
  INFO(found.error().message);
  CHECK(found.error().message.find(word) != std::string::npos);
  CHECK(found.error().message.back() == '.');
}

}  // namespace

TEST_CASE("fit: corrections go to JSON and back unchanged") {
  for (const Correction& c : {Correction{}, some_correction()}) {
    const auto back = correction_from_json(parse_json(dump_json(json_of(c))));
    REQUIRE_MESSAGE(back.ok(), (back.ok() ? "" : back.error().message));
    CHECK(back.value() == c);
  }
  for (const Monochrome& m : {Monochrome{}, some_monochrome()}) {
    const auto back = monochrome_from_json(parse_json(dump_json(json_of(m))));
    REQUIRE_MESSAGE(back.ok(), (back.ok() ? "" : back.error().message));
    CHECK(back.value() == m);
  }
  CHECK(correction_from_json(Json::object()).value() == Correction{});
  CHECK(monochrome_from_json(Json::object()).value() == Monochrome{});
}

TEST_CASE("fit: JSON holds every number under its own name") {
  const Json json = json_of(some_correction());
  CHECK(json["shadows"] == 3.25);
  CHECK(json["bands"]["green"]["turn"] == 2);
  CHECK(json["neutral"]["highlights"]["b"] == 4);
  CHECK(json["curve"][0][1] == 14.5);
  CHECK(json_of(some_monochrome())["weights"]["blue"] == -0.2);
}

TEST_CASE("fit: JSON with unknown, mistyped or impossible values is refused by name") {
  const auto correction = [](const Json& json) { return correction_from_json(json); };
  const auto monochrome = [](const Json& json) { return monochrome_from_json(json); };
  check_refused(correction, "[1]", "correction must be a group");
  check_refused(correction, "nonsense", "correction must be a group");
  check_refused(correction, R"({"shadow": 1})", "named shadow that");
  check_refused(correction, R"({"bands": {"red": {"chroma": 1, "sheen": 2}}})", "bands.red.sheen");
  check_refused(correction, R"({"bands": {"pink": {}}})", "bands.pink");
  check_refused(correction, R"({"bands.red.chroma": 1})", "named bands.red.chroma");
  check_refused(correction, R"({"bands": 3})", "bands must be a group");
  check_refused(correction, R"({"bands": {"red": 3}})", "bands.red must be a group");
  check_refused(correction, R"({"shadows": {}})", "shadows must be a number between -7 and 7");
  check_refused(correction, R"({"shadows": null})", "shadows must be a number between -7 and 7");
  check_refused(correction, R"({"shadows": "3"})", "shadows");
  check_refused(correction, R"({"shadows": true})", "shadows");
  check_refused(correction, R"({"contrast": 101})",
                "contrast must be a number between -100 and 100");
  check_refused(correction, R"({"local_contrast": -1e300})", "local_contrast");
  check_refused(correction, R"({"curve": 1})", "curve");
  check_refused(correction, R"({"curve": [[1]]})", "curve");
  check_refused(correction, R"({"curve": [[1, "2"]]})", "curve");
  check_refused(correction, R"({"curve": [[1, 200]]})", "curve");
  check_refused(correction, R"({"curve": [[50, 20], [40, 30]]})", "never fall");
  Json json = json_of(Correction{});
  json["saturation"] = std::numeric_limits<double>::quiet_NaN();
  CHECK_FALSE(correction_from_json(json).ok());
  json["saturation"] = std::numeric_limits<double>::infinity();
  CHECK_FALSE(correction_from_json(json).ok());
  check_refused(monochrome, R"({"on": 1})", "on must be true or false");
  check_refused(monochrome, R"({"weights": [1, 2, 3]})", "weights must be a group");
  check_refused(monochrome, R"({"weights": {"red": 4}})", "weights.red must be a number");
  check_refused(monochrome, R"({"weights": {"red": 0, "green": 0, "blue": 0}})", "add up");
  check_refused(monochrome, R"({"colour": 1})", "named colour");
}
