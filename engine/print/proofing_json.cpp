#include "print/proofing_json.h"

#include <array>

#include "print/fields.h"

namespace proofleaf::print {
namespace {

constexpr std::array kReasons{"deepest", "brightest", "off_gamut", "finest", "chosen"};
constexpr std::array kVerdicts{"good", "marginal", "out"};
constexpr size_t kMostOffsets = 200;

Json box(const PixelRect& rect) { return {rect.x, rect.y, rect.width, rect.height}; }
Json triple(const Lab& lab) { return {lab.l, lab.a, lab.b}; }

// `count` numbers between -most and most; false where it is something else.
bool read_numbers(const Json* list, double most, std::span<double> into) {
  if (list == nullptr || !list->is_array() || list->size() != into.size()) return false;
  for (size_t i = 0; i < into.size(); ++i) {
    const Json& value = (*list)[i];
    if (!value.is_number()) return false;
    into[i] = value.get<double>();
    if (!(into[i] >= -most && into[i] <= most)) return false;
  }
  return true;
}

Status read_colour(Fields& fields, const char* name, Lab& into) {
  constexpr double kMost = 200;
  std::array<double, 3> numbers{};
  if (!read_numbers(fields.inside(name), kMost, numbers)) {
    return Error{"{} must be a list of L*, a* and b*, each between -200 and 200.", name};
  }
  into = {numbers[0], numbers[1], numbers[2]};
  return done();
}

Status read_offsets(const Json* list, std::vector<ToneOffset>& into) {
  constexpr double kMost = 110, kMostOffset = 50;
  const Error wrong{
      "offsets must be a list of 2 to 200 rows of L*, dL*, da* and db*, L* rising from -10 to 110 "
      "and the others between -50 and 50."};
  if (list == nullptr || !list->is_array() || list->size() < 2 || list->size() > kMostOffsets) {
    return wrong;
  }
  for (const Json& row : *list) {
    std::array<double, 4> n{};
    if (!read_numbers(&row, kMost, n) || n[0] < -10) return wrong;
    for (const double offset : std::span(n).subspan(1)) {
      if (offset < -kMostOffset || offset > kMostOffset) return wrong;
    }
    if (!into.empty() && n[0] <= into.back().l) return wrong;
    into.push_back({n[0], n[1], n[2], n[3]});
  }
  return done();
}

}  // namespace

Json to_json(const StripSheet& sheet) {
  return {{"width_mm", sheet.width_mm}, {"height_mm", sheet.height_mm}, {"ppi", sheet.ppi}};
}

Result<StripSheet> strip_sheet_from_json(const Json& json) {
  StripSheet sheet;
  Fields fields(json, "strip's sheet");
  fields.number(kStripWidthMm, sheet.width_mm);
  fields.number(kStripHeightMm, sheet.height_mm);
  fields.number(kPpi, sheet.ppi);
  if (auto sound = fields.finish(); !sound) return sound.error();
  return sheet;
}

Json to_json(std::span<const StripPlace> places) {
  Json list = Json::array();
  for (const StripPlace& place : places) {
    list.push_back({{"reason", kReasons[static_cast<size_t>(place.reason)]},
                    {"x", place.x},
                    {"y", place.y},
                    {"width", place.width},
                    {"height", place.height}});
  }
  return list;
}

Result<std::vector<StripPlace>> places_from_json(const Json& json) {
  if (!json.is_array() || json.size() > kMostPlacesOnStrip) {
    return Error{"The parts of a strip must be a list of at most {}.", kMostPlacesOnStrip};
  }
  std::vector<StripPlace> places;
  for (const Json& one : json) {
    StripPlace place;
    Fields fields(one, "part of the strip");
    fields.word("reason", kReasons, place.reason);
    fields.number({"x", 0, 1, ""}, place.x);
    fields.number({"y", 0, 1, ""}, place.y);
    fields.number({"width", 0, 1, ""}, place.width);
    fields.number({"height", 0, 1, ""}, place.height);
    if (auto sound = fields.finish(); !sound) return sound.error();
    places.push_back(place);
  }
  return places;
}

Json to_json(const StripLayout& layout) {
  Json tiles = Json::array(), patches = Json::array();
  for (const StripTile& tile : layout.tiles) {
    tiles.push_back({{"place", tile.place},
                     {"variant", tile.variant},
                     {"at", box(tile.at)},
                     {"from", box(tile.from)}});
  }
  for (const StripPatch& patch : layout.patches) {
    patches.push_back({{"name", patch.name},
                       {"lightness", patch.lightness},
                       {"ground", patch.ground},
                       {"at", box(patch.at)}});
  }
  return {
      {"width", layout.width}, {"height", layout.height}, {"tiles", tiles}, {"patches", patches}};
}

Json to_json(const EyeReading& reading) {
  const auto maybe = [](const std::optional<double>& l) { return l ? Json(*l) : Json(nullptr); };
  return {{"first_from_black", maybe(reading.first_from_black)},
          {"first_from_white", maybe(reading.first_from_white)}};
}

Result<EyeReading> eye_reading_from_json(const Json& json) {
  EyeReading reading;
  Fields fields(json, "reading by eye");
  fields.number(kFirstFromBlack, reading.first_from_black);
  fields.number(kFirstFromWhite, reading.first_from_white);
  if (auto sound = fields.finish(); !sound) return sound.error();
  return reading;
}

Json to_json(const EyeFinding& finding) {
  return {{"black_until", finding.black_until},
          {"white_from", finding.white_from},
          {"sentences", finding.sentences}};
}

Json to_json(const ReadBack& back) {
  Json patches = Json::array();
  for (const PatchDifference& patch : back.patches) {
    patches.push_back({{"name", patch.name},
                       {"aim", triple(patch.aim)},
                       {"measured", triple(patch.measured)},
                       {"delta_e", patch.delta_e}});
  }
  return {{"mean", back.mean},         {"p95", back.p95},
          {"max", back.max},           {"verdict", kVerdicts[static_cast<size_t>(back.verdict)]},
          {"sentence", back.sentence}, {"patches", patches}};
}

Json to_json(const PaperCorrection& correction) {
  Json offsets = Json::array();
  for (const ToneOffset& at : correction.offsets) offsets.push_back({at.l, at.dl, at.da, at.db});
  return {{"offsets", offsets},
          {"white", triple(correction.white)},
          {"white_aim", triple(correction.white_aim)},
          {"black", triple(correction.black)},
          {"black_aim", triple(correction.black_aim)},
          {"sentences", correction.sentences}};
}

Result<PaperCorrection> paper_correction_from_json(const Json& json) {
  PaperCorrection correction;
  Fields fields(json, "paper's correction");
  if (!json.is_object()) return fields.finish().error();
  if (auto got = read_offsets(fields.inside("offsets"), correction.offsets); !got) {
    return got.error();
  }
  const std::pair<const char*, Lab*> colours[] = {{"white", &correction.white},
                                                  {"white_aim", &correction.white_aim},
                                                  {"black", &correction.black},
                                                  {"black_aim", &correction.black_aim}};
  for (const auto& [name, colour] : colours) {
    if (auto got = read_colour(fields, name, *colour); !got) return got.error();
  }
  const Json* sentences = fields.inside("sentences");
  constexpr size_t kMostSentences = 20, kLongest = 500;
  if (sentences != nullptr && sentences->is_array()) {
    for (const Json& sentence : *sentences) {
      if (!sentence.is_string() || correction.sentences.size() >= kMostSentences) break;
      correction.sentences.push_back(sentence.get<std::string>().substr(0, kLongest));
    }
  }
  if (auto sound = fields.finish(); !sound) return sound.error();
  return correction;
}

}  // namespace proofleaf::print
