#include <cmath>

#include "print/fields.h"
#include "sheet/seen.h"
#include "sheet/take.h"

namespace proofleaf {
namespace {

using print::Fields;

constexpr std::array kVerdicts{"fine", "look", "wrong", "untold"};
constexpr std::array kWhites{"border", "neutral", "none"};
constexpr std::array kKinds{"spot", "scratch", "band"};
constexpr double kFarMm = 20000, kFarLab = 200;

const char* word_for(returned::Found found) { return kVerdicts[static_cast<size_t>(found)]; }

template <class Value>
Json or_null(const std::optional<Value>& value) {
  return value ? Json(*value) : Json();
}

Result<returned::SizeFound> size_from(const Json& json) {
  returned::SizeFound size;
  Fields fields(json, "size of the print seen");
  fields.word("verdict", kVerdicts, size.verdict);
  fields.number({"wider", -1000, 1000, "per cent"}, size.wider);
  fields.number({"wider_within", 0, 1000, "per cent"}, size.wider_within);
  fields.number({"width_mm", 0, kFarMm, "mm"}, size.width_mm);
  fields.number({"height_mm", 0, kFarMm, "mm"}, size.height_mm);
  fields.number({"cut_within", 0, kFarMm, "mm"}, size.cut_within);
  const Json* cut = fields.list("cut", size.cut.size());
  for (size_t i = 0; cut != nullptr && i < cut->size(); ++i) {
    const Json& side = (*cut)[i];
    if (side.is_null()) continue;
    const double mm = side.is_number() ? side.get<double>() : std::nan("");
    if (!(std::abs(mm) <= kFarMm)) return Error{"A side of cut is no length in mm."};
    size.cut[i] = mm;
  }
  if (auto sound = fields.finish(); !sound) return sound.error();
  return size;
}

Result<returned::CastFound> cast_from(const Json& json) {
  returned::CastFound cast;
  Fields fields(json, "cast of the print seen");
  fields.word("verdict", kVerdicts, cast.verdict);
  fields.word("white", kWhites, cast.white);
  fields.flag("mixed_light", cast.mixed_light);
  fields.number({"largest", 0, kFarLab * 2, "C*"}, cast.largest);
  const Json* greys = fields.list("greys", cast.greys.size());
  for (size_t i = 0; greys != nullptr && i < greys->size(); ++i) {
    Fields grey((*greys)[i], phrase("grey of the print seen"));
    grey.number({"l", 0, 100, "L*"}, cast.greys[i].l);
    grey.number({"a", -kFarLab, kFarLab, "a*"}, cast.greys[i].a);
    grey.number({"b", -kFarLab, kFarLab, "b*"}, cast.greys[i].b);
    grey.number({"share", 0, 1, ""}, cast.greys[i].share);
    if (auto sound = grey.finish(); !sound) return sound.error();
  }
  if (auto sound = fields.finish(); !sound) return sound.error();
  return cast;
}

Result<returned::ShadowFound> shadow_from(const Json& json) {
  returned::ShadowFound shadow;
  Fields fields(json, "shadows of the print seen");
  fields.word("verdict", kVerdicts, shadow.verdict);
  fields.number({"closed_until", 0, 100, "L*"}, shadow.closed_until);
  if (auto sound = fields.finish(); !sound) return sound.error();
  return shadow;
}

Result<returned::Mark> mark_from(const Json& json) {
  returned::Mark mark;
  Fields fields(json, "mark");
  fields.word("kind", kKinds, mark.kind);
  fields.number({"x", 0, 1, ""}, mark.x);
  fields.number({"y", 0, 1, ""}, mark.y);
  fields.number({"w", 0, 1, ""}, mark.w);
  fields.number({"h", 0, 1, ""}, mark.h);
  fields.number({"length_mm", 0, kFarMm, "mm"}, mark.length_mm);
  fields.number({"width_mm", 0, kFarMm, "mm"}, mark.width_mm);
  fields.number({"contrast", -kFarLab, kFarLab, "L*"}, mark.contrast);
  if (auto sound = fields.finish(); !sound) return sound.error();
  return mark;
}

Result<returned::MarksFound> marks_from(const Json& json) {
  returned::MarksFound marks;
  Fields fields(json, "marks of the print seen");
  fields.word("verdict", kVerdicts, marks.verdict);
  fields.number({"least_mm", 0, kFarMm, "mm"}, marks.least_mm);
  fields.number({"glare", 0, 1, ""}, marks.glare);
  const Json* list = fields.list("marks", returned::kMostMarks);
  for (size_t i = 0; list != nullptr && i < list->size(); ++i) {
    auto mark = mark_from((*list)[i]);
    if (!mark) return mark.error();
    marks.marks.push_back(mark.value());
  }
  if (auto sound = fields.finish(); !sound) return sound.error();
  return marks;
}

}  // namespace

Json json_of(const JobSeen& seen) {
  Json cut = Json::array(), greys = Json::array(), marks = Json::array();
  for (const auto& side : seen.size.cut) cut.push_back(or_null(side));
  for (const auto& grey : seen.cast.greys) {
    greys.push_back({{"l", grey.l}, {"a", grey.a}, {"b", grey.b}, {"share", grey.share}});
  }
  for (const auto& mark : seen.marks.marks) {
    marks.push_back({{"kind", kKinds[static_cast<size_t>(mark.kind)]},
                     {"x", mark.x},
                     {"y", mark.y},
                     {"w", mark.w},
                     {"h", mark.h},
                     {"length_mm", mark.length_mm},
                     {"width_mm", mark.width_mm},
                     {"contrast", mark.contrast}});
  }
  return {{"name", seen.name},
          {"scan", seen.scan},
          {"match", seen.match},
          {"size",
           {{"verdict", word_for(seen.size.verdict)},
            {"wider", seen.size.wider},
            {"wider_within", seen.size.wider_within},
            {"width_mm", or_null(seen.size.width_mm)},
            {"height_mm", or_null(seen.size.height_mm)},
            {"cut", cut},
            {"cut_within", seen.size.cut_within}}},
          {"cast",
           {{"verdict", word_for(seen.cast.verdict)},
            {"white", kWhites[static_cast<size_t>(seen.cast.white)]},
            {"mixed_light", seen.cast.mixed_light},
            {"largest", seen.cast.largest},
            {"greys", greys}}},
          {"shadow",
           {{"verdict", word_for(seen.shadow.verdict)},
            {"closed_until", or_null(seen.shadow.closed_until)}}},
          {"marks",
           {{"verdict", word_for(seen.marks.verdict)},
            {"least_mm", seen.marks.least_mm},
            {"glare", seen.marks.glare},
            {"marks", marks}}}};
}

Result<JobSeen> seen_from_json(const Json& json) {
  constexpr size_t kLongestName = 255;
  JobSeen seen;
  Fields fields(json, "print seen");
  if (!json.is_object()) return fields.finish().error();
  fields.text("name", kLongestName, seen.name);
  fields.flag("scan", seen.scan);
  fields.number({"match", 0, 1, ""}, seen.match);
  for (const Status& part :
       {take(fields.inside("size"), size_from, seen.size),
        take(fields.inside("cast"), cast_from, seen.cast),
        take(fields.inside("shadow"), shadow_from, seen.shadow),
        take(fields.inside("marks"), marks_from, seen.marks), fields.finish()}) {
    if (!part) return part.error();
  }
  if (seen.name.empty()) return Error{"The photo of the print has no name."};
  return seen;
}

}  // namespace proofleaf
