// The test strip as a delivery.
#include <cmath>
#include <cstring>

#include "colour/lcms.h"
#include "job/delivery_work.h"
#include "pictures.h"
#include "print/proofing_json.h"
#include "print_rows.h"
#include "recipe/recipe.h"
#include "strip_files.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

constexpr char kPaper[] = "papers/tarnsea-baryta.icc";

struct Sheet {
  RowFormat format;
  test::Codes samples;
  const uint16_t* at(uint32_t x, uint32_t y) const {
    return &samples[(size_t{y} * format.width + x) * format.channels];
  }
};

Sheet read_sheet(const Bytes& bytes) {
  auto file = open_master(memory("strip.tif", bytes));
  REQUIRE(file);
  auto rows = file.value()->open_rows();
  REQUIRE(rows);
  const RowFormat format = rows.value()->format();
  return {format, all_of(*rows.value())};
}

// Absolute L*a*b* of device values by the paper's profile, LittleCMS alone.
Lab absolute(const Profile& paper, const uint16_t* rgb) {
  const Transform transform = to_lab(paper, INTENT_ABSOLUTE_COLORIMETRIC);
  REQUIRE(transform);
  const float in[3] = {rgb[0] / 65535.0f, rgb[1] / 65535.0f, rgb[2] / 65535.0f};
  float out[3];
  cmsDoTransform(transform.get(), in, out, 1);
  return {out[0], out[1], out[2]};
}

}  // namespace

TEST_CASE("strip work: the file's patches measure what the answer says they will") {
  StripFiles strip(1400, 900, kPaper);
  const Json answer = strip.deliver(strip_request({"as it is"}));
  CHECK(text_of(answer, "kind") == "delivered");
  const Json& told = answer["strip"];
  CHECK(number_of(told["sheet"], "ppi") == 200);
  const Sheet sheet = read_sheet(strip.written());
  CHECK(sheet.format.width == std::lround(150 / 25.4 * 200));
  CHECK(sheet.format.height == std::lround(110 / 25.4 * 200));
  const Profile paper = paper_at(kDemo + kPaper).profile;
  REQUIRE(told["patches"].size() == 31);
  double worst = 0;
  for (const Json& patch : told["patches"]) {
    const auto& at = patch["at"];
    const uint32_t x = at[0].get<uint32_t>() + at[2].get<uint32_t>() / 2;
    const uint32_t y = at[1].get<uint32_t>() + at[3].get<uint32_t>() / 2;
    const Lab aim{patch["aim"][0], patch["aim"][1], patch["aim"][2]};
    const double off = delta_e_2000(aim, absolute(paper, sheet.at(x, y)));
    worst = std::max(worst, off);
  }
  MESSAGE("worst dE00 between the aims and the file: " << worst);
  CHECK(worst < 0.2);
}

TEST_CASE("strip work: a tile holds the pixels the whole print holds there") {
  StripFiles strip(1400, 900, kPaper);
  Json request = strip_request({"plain", "prepared"});
  Recipe prepared = sized_recipe();
  prepared.correction.saturation = 15;
  prepared.correction.local_contrast = 20;
  prepared.sharpening.on = prepared.grain.on = true;
  request["strip"]["variants"][1]["recipe"] = json_of(prepared);
  const Json answer = strip.deliver(request);
  const Sheet sheet = read_sheet(strip.written());

  StripFiles whole(1400, 900, kPaper);
  Json print{{"op", "deliver"}, {"format", "tiff"}, {"bits", 16}, {"intent", "relative"}};
  for (const size_t variant : {0u, 1u}) {
    print["recipe"] = request["strip"]["variants"][variant]["recipe"];
    whole.deliver(print);
    const Sheet picture = read_sheet(whole.written());
    for (const Json& tile : answer["strip"]["tiles"]) {
      if (tile["variant"] != variant) continue;
      const auto box = [&](const char* key, size_t i) { return tile[key][i].get<uint32_t>(); };
      int most = 0;
      for (uint32_t y = 0; y < box("at", 3); ++y) {
        const uint16_t* one = sheet.at(box("at", 0), box("at", 1) + y);
        const uint16_t* two = picture.at(box("from", 0), box("from", 1) + y);
        for (size_t i = 0; i < size_t{3} * box("at", 2); ++i) {
          most = std::max(most, std::abs(int{one[i]} - int{two[i]}));
        }
      }
      // The sheet goes through LittleCMS exactly or through the same cube as the print; colours
      // alone are corrected before the cube here and inside of it there.
      CHECK(most <= 400);
    }
  }
}

TEST_CASE("strip work: shared out to makers it is the same file, byte for byte") {
  const Json request = strip_request({"one", "two"});
  StripFiles alone(1400, 900, kPaper), shared(1400, 900, kPaper);
  const Json at_once = alone.deliver(request);
  CHECK(deliver_shared(shared, request, kPaper, true) == at_once);
  CHECK(shared.written() == alone.written());
}

TEST_CASE("strip work: what cannot be a strip is said") {
  StripFiles strip(400, 300, kPaper);
  const auto refusal = [&](const std::function<void(Json&)>& spoil) {
    Json request = strip_request({"one", "two"});
    spoil(request["strip"]);
    const auto answer = perform(dump_json(request), strip.files(), {});
    REQUIRE_FALSE(answer.ok());
    return answer.error().message;
  };
  CHECK(refusal([](Json& s) { s = 7; }).find("sheet") != std::string::npos);
  CHECK(refusal([](Json& s) { s.erase("places"); }).find("parts") != std::string::npos);
  CHECK(refusal([](Json& s) { s["places"] = Json::array(); }).find("1 to 8") != std::string::npos);
  CHECK(refusal([](Json& s) { s["variants"] = Json::array(); }).find("1 to 3") !=
        std::string::npos);
  CHECK(refusal([](Json& s) { s["variants"][0]["name"] = std::string(99, 'x'); }).find("60") !=
        std::string::npos);
  CHECK(refusal([](Json& s) { s["variants"][1].erase("recipe"); }).find("two") !=
        std::string::npos);
  CHECK(refusal([](Json& s) { s["variants"][1]["recipe"]["size"]["width_mm"] = 70; }).find("two") !=
        std::string::npos);
  CHECK(refusal([](Json& s) { s["sheet"]["width_mm"] = 61; }).find("too small") !=
        std::string::npos);
  CHECK(refusal([](Json& s) {
          s["sheet"] = {{"width_mm", 2000}, {"height_mm", 1000}};
          for (Json& variant : s["variants"]) {
            variant["recipe"]["size"]["width_mm"] = 1500;
            variant["recipe"]["size"]["ppi"] = 400;
          }
        }).find("too many pixels") != std::string::npos);
  // Nothing is kept from a stopped one.
  CHECK_FALSE(
      perform(dump_json(strip_request({"one"})), strip.files(), [](double) { return false; }).ok());
}

TEST_CASE("strip work: parts are chosen inside of the recipe's crop, where there is something") {
  // Grey, but for a dark ramp in one corner, a light one in another, and noise in a third.
  constexpr uint32_t kWidth = 240, kHeight = 160;
  Bytes picture;
  for (uint32_t y = 0; y < kHeight; ++y) {
    for (uint32_t x = 0; x < kWidth; ++x) {
      double l = 50;
      if (x < 40 && y < 40) l = 2 + x * 0.4;
      if (x >= 200 && y < 40) l = 88 + (x - 200) * 0.25;
      if (x >= 180 && y >= 120) l = 40 + 25.0 * ((x ^ y) & 1);
      const auto code = static_cast<uint16_t>(std::lround(srgb_code_of_l(l)));
      for (int c = 0; c < 3; ++c) {
        picture.push_back(static_cast<uint8_t>(code & 255));
        picture.push_back(static_cast<uint8_t>(code >> 8));
      }
    }
  }
  WorkFiles files;
  files.profile = memory("srgb.icc", space("srgb").bytes());
  files.picture = memory("picture", picture);
  Bytes map(64 * 64, 0);
  for (size_t y = 50; y < 64; ++y) std::fill_n(&map[y * 64], 10, uint8_t{255});
  files.off_gamut = memory("map", map);
  Recipe recipe = sized_recipe();
  recipe.size.width_mm = 300;
  Json request{{"op", "strip_places"},      {"width", kWidth},
               {"height", kHeight},         {"master_width", 2400},
               {"master_height", 1600},     {"variants", 2},
               {"recipe", json_of(recipe)}, {"sheet", {{"width_mm", 210}, {"height_mm", 148}}}};
  const auto places_in = [&] {
    const auto answer = perform(dump_json(request), files, {});
    REQUIRE_MESSAGE(answer.ok(), (answer.ok() ? "" : answer.error().message));
    const Json json = parse_json(answer.value().json);
    CHECK(number_of(json["sheet"], "ppi") == 200);
    auto places = print::places_from_json(json["places"]);
    REQUIRE(places);
    return places.take();
  };
  const auto all = places_in();
  CAPTURE(dump_json(print::to_json(all)));
  REQUIRE(all.size() == 4);
  const auto has = [](const print::StripPlace& place, double x, double y) {
    return x >= place.x && x <= place.x + place.width && y >= place.y &&
           y <= place.y + place.height;
  };
  CHECK(has(all[0], 0.08, 0.08));
  CHECK(has(all[1], 0.92, 0.08));
  CHECK(has(all[2], 0.06, 0.9));
  CHECK(has(all[3], 0.9, 0.9));
  // Without the corners nothing stands out; the middle is taken.
  recipe.size.crop = {0.3, 0.3, 0.3, 0.3};
  request["recipe"] = json_of(recipe);
  const auto middle = places_in();
  REQUIRE(middle.size() == 1);
  CHECK(middle[0].reason == print::PlaceReason::chosen);
  CHECK(has(middle[0], 0.5, 0.5));
  // A preview of another size than it says.
  request["width"] = 241;
  CHECK_FALSE(perform(dump_json(request), files, {}).ok());
}
