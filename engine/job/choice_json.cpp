// A judgement as JSON and back.
#include "job/choice_work.h"
#include "proof/words.h"
#include "rank/printed.h"

namespace proofleaf {
namespace {

constexpr std::array<const char*, 3> kVerdicts{"good", "marginal", "out"};

const Json& part_of(const Json& json, const char* key) {
  static const Json nothing;
  const Json* found = member(json, key);
  return found != nullptr ? *found : nothing;
}

ColourModel model_of(const std::string& word) {
  for (const ColourModel model : {ColourModel::grey, ColourModel::cmyk}) {
    if (word == word_for(model)) return model;
  }
  return ColourModel::rgb;
}

}  // namespace

Json json_of(const Variant& variant) {
  Json tone{{"share", variant.tone_share}, {"gone", variant.tone_gone}};
  for (size_t zone = 0; zone < kZones; ++zone) {
    const ZoneTone& part = variant.tone[zone];
    tone[kZoneWords[zone]] = {{"steps", part.steps},
                              {"kept", part.kept},
                              {"share", part.share},
                              {"gone", part.gone},
                              {"area", part.area}};
  }
  Json json{{"intent", word_for(variant.print.intent)},
            {"black_point_compensation", variant.print.black_point_compensation},
            {"name", name_of(variant.print)},
            {"score", variant.score},
            {"delta_e", {{"mean", variant.mean}, {"p95", variant.p95}, {"max", variant.max}}},
            {"picture", {{"mean", variant.picture_mean}, {"p95", variant.picture_p95}}},
            {"tone", tone},
            {"hue", nullptr},
            {"skin", nullptr},
            {"neutral", nullptr},
            {"losses",
             {{"colour", variant.losses.colour},
              {"gamut", variant.losses.gamut},
              {"tone", variant.losses.tone},
              {"hue", variant.losses.hue},
              {"skin", variant.losses.skin},
              {"neutral", variant.losses.neutral}}}};
  if (variant.hue) {
    json["hue"] = {
        {"mean", variant.hue->mean}, {"max", variant.hue->max}, {"delta_e", variant.hue->delta_e}};
  }
  if (variant.skin) {
    json["skin"] = {{"delta_e", variant.skin->delta_e}, {"picture", variant.skin->picture}};
  }
  if (variant.neutral) {
    json["neutral"] = {{"delta_e", variant.neutral->delta_e},
                       {"a", variant.neutral->a},
                       {"b", variant.neutral->b}};
  }
  return json;
}

Variant variant_from_json(const Json& json) {
  Variant variant;
  variant.print = {intent_of(text_of(json, "intent")).value_or(Intent::relative),
                   flag_of(json, "black_point_compensation")};
  variant.score = number_of(json, "score");
  const Json& delta_e = part_of(json, "delta_e");
  variant.mean = number_of(delta_e, "mean");
  variant.p95 = number_of(delta_e, "p95");
  variant.max = number_of(delta_e, "max");
  const Json& picture = part_of(json, "picture");
  variant.picture_mean = number_of(picture, "mean");
  variant.picture_p95 = number_of(picture, "p95");
  const Json& tone = part_of(json, "tone");
  variant.tone_share = number_of(tone, "share", 1);
  variant.tone_gone = number_of(tone, "gone");
  for (size_t zone = 0; zone < kZones; ++zone) {
    const Json& part = part_of(tone, kZoneWords[zone]);
    variant.tone[zone] = {number_of(part, "steps"), number_of(part, "kept"),
                          number_of(part, "share", 1), number_of(part, "gone"),
                          number_of(part, "area")};
  }
  if (const Json& hue = part_of(json, "hue"); hue.is_object()) {
    variant.hue = {number_of(hue, "mean"), number_of(hue, "max"), number_of(hue, "delta_e")};
  }
  if (const Json& skin = part_of(json, "skin"); skin.is_object()) {
    variant.skin = {number_of(skin, "delta_e"), number_of(skin, "picture")};
  }
  if (const Json& cast = part_of(json, "neutral"); cast.is_object()) {
    variant.neutral = {number_of(cast, "delta_e"), number_of(cast, "a"), number_of(cast, "b")};
  }
  const Json& losses = part_of(json, "losses");
  variant.losses = {number_of(losses, "colour"), number_of(losses, "gamut"),
                    number_of(losses, "tone"),   number_of(losses, "hue"),
                    number_of(losses, "skin"),   number_of(losses, "neutral")};
  return variant;
}

Json json_of(const Judgement& judgement) {
  const Judged& judged = judgement.judged;
  const JudgedPictures& pictures = judgement.pictures;
  Json variants = Json::array(), boxes = Json::array();
  for (const Variant& variant : judged.variants) variants.push_back(json_of(variant));
  for (const Box& box : judged.off_gamut_boxes) {
    boxes.push_back({{"x", box.x},
                     {"y", box.y},
                     {"width", box.width},
                     {"height", box.height},
                     {"share", box.share}});
  }
  return {
      {"kind", "judged"},
      {"paper", judged.paper},
      {"model", word_for(judged.model)},
      {"best", judged.best_at},
      {"variants", variants},
      {"off_gamut_share", judged.off_gamut},
      {"too_dark_share", judged.too_dark},
      {"off_gamut_map", {{"width", kMapSide}, {"height", kMapSide}}},
      {"off_gamut_boxes", boxes},
      {"verdict", kVerdicts[static_cast<size_t>(judged.verdict)]},
      {"verdict_sentence", judged.verdict_sentence},
      {"sentence", judged.sentence},
      {"thumbnail", {{"width", pictures.thumbnail_width}, {"height", pictures.thumbnail_height}}},
      {"difference",
       {{"width", pictures.difference_width}, {"height", pictures.difference_height}}}};
}

Result<Judged> judged_from_json(const Json& json) {
  const Json& variants = part_of(json, "variants");
  if (text_of(json, "kind") != "judged" || !variants.is_array() || variants.empty()) {
    return Error{"This is not a judged paper."};
  }
  Judged judged;
  judged.paper = text_of(json, "paper");
  judged.model = model_of(text_of(json, "model"));
  for (const Json& variant : variants) judged.variants.push_back(variant_from_json(variant));
  judged.best_at = static_cast<size_t>(
      whole_of(json, "best", 0, 0, static_cast<int64_t>(judged.variants.size()) - 1));
  judged.off_gamut = number_of(json, "off_gamut_share");
  judged.too_dark = number_of(json, "too_dark_share");
  for (const Json& box : part_of(json, "off_gamut_boxes")) {
    judged.off_gamut_boxes.push_back({number_of(box, "x"), number_of(box, "y"),
                                      number_of(box, "width"), number_of(box, "height"),
                                      number_of(box, "share")});
  }
  for (size_t i = 0; i < kVerdicts.size(); ++i) {
    if (text_of(json, "verdict") == kVerdicts[i]) judged.verdict = static_cast<Verdict>(i);
  }
  judged.verdict_sentence = text_of(json, "verdict_sentence");
  judged.sentence = text_of(json, "sentence");
  return judged;
}

}  // namespace proofleaf
