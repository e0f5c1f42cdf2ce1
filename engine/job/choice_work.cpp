#include "job/choice_work.h"

#include "job/opening.h"
#include "paper/card.h"
#include "proof/words.h"
#include "rank/difference.h"
#include "rank/lanes.h"

namespace proofleaf {
namespace {

Json array_of(const Lab& lab) { return Json::array({lab.l, lab.a, lab.b}); }

Json json_of(const Ramp& ramp) {
  return {{"steps", ramp.steps},
          {"reversals", ramp.reversals},
          {"largest_reversal", ramp.largest_reversal},
          {"jumps", ramp.jumps},
          {"largest_step", ramp.largest_step}};
}

Json slices_of(const GamutMesh& mesh) {
  Json slices = Json::array();
  for (const double l : {25.0, 50.0, 75.0}) {
    slices.push_back({{"lightness", l}, {"polygon", gamut_slice(mesh, l)}});
  }
  return slices;
}

// The papers of a picture come one after another, so what is known of it is kept for the next.
struct KnownPicture {
  Bytes packed;
  PictureFacts facts;
  MasterTone tone;
};

Result<std::shared_ptr<const KnownPicture>> known_picture(const WorkFiles& files) {
  static thread_local std::shared_ptr<const KnownPicture> last;
  auto packed = read_packed_facts(files);
  if (!packed) return packed.error();
  if (last && last->packed == packed.value()) return last;
  auto facts = unpack_facts(packed.value());
  if (!facts) return facts.error();
  last.reset();
  MasterTone tone = master_tone(facts.value());
  last = std::make_shared<KnownPicture>(KnownPicture{packed.take(), facts.take(), std::move(tone)});
  return last;
}

}  // namespace

Result<Answer> card_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto opened = open_paper(request, files);
  if (!opened) return opened.error();
  const Paper& paper = opened.value();
  auto read = read_card(paper, watch);
  if (!read) return read.error();
  const PaperCard& card = read.value();
  const Json json{{"kind", "card"},
                  {"name", paper.name},
                  {"model", word_for(paper.model)},
                  {"working_space", paper.working_space},
                  {"white", array_of(paper.white)},
                  {"black", array_of(paper.black)},
                  {"white_density", card.white_density},
                  {"black_density", card.black_density},
                  {"density_range", card.density_range},
                  {"contrast_ratio", card.contrast_ratio},
                  {"gamut_volume", card.gamut_volume},
                  {"neutral_cast",
                   {{"largest", card.cast_chroma},
                    {"at_lightness", card.cast.l},
                    {"a", card.cast.a},
                    {"b", card.cast.b}}},
                  {"printed_ramp", json_of(card.printed_ramp)},
                  {"device_ramp", json_of(card.device_ramp)},
                  {"round_trip",
                   {{"mean", card.round_trip.mean},
                    {"p95", card.round_trip.p95},
                    {"max", card.round_trip.max},
                    {"colours", card.round_trip.colours}}},
                  {"own_table", paper.own_table},
                  {"ink_limit", paper.ink_limit},
                  {"faults", card.faults},
                  {"notes", paper.notes},
                  {"slices", slices_of(card.gamut)}};
  return Answer{dump_json(json),
                {{"vertices", bytes_of(card.gamut.vertices)},
                 {"triangles", bytes_of(card.gamut.triangles)},
                 {"colours", card.gamut.colours}}};
}

Result<Answer> facts_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto preview = read_preview_picture(request, files);
  if (!preview) return preview.error();
  const Picture& picture = preview.value();
  auto found = find_facts(master.value(), picture.rgb, picture.width, picture.height, watch);
  if (!found) return found.error();
  const PictureFacts& facts = found.value();
  const auto ranges = tone_ranges(lightness_values(facts.tone_lightness));
  Json tone;
  for (size_t zone = 0; zone < kZones; ++zone) {
    tone[kZoneWords[zone]] = {{"steps", ranges[zone].steps}, {"share", ranges[zone].share}};
  }
  return Answer{dump_json({{"kind", "picture_facts"},
                           {"tone", tone},
                           {"accents", facts.accents.share},
                           {"skin", facts.skin.share},
                           {"neutrals", facts.neutrals.share}}),
                {{"facts", pack_facts(facts)}}};
}

Result<Answer> judge_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto paper = open_paper(request, files);
  if (!paper) return paper.error();
  auto known = known_picture(files);
  if (!known) return known.error();
  const KnownPicture& picture = *known.value();
  auto judged = judge(master.value(), picture.facts, picture.tone, paper.value(), {}, watch);
  if (!judged) return judged.error();
  const JudgedPictures& pictures = judged.value().pictures;
  return Answer{dump_json(json_of(judged.value())),
                {{"thumbnail", pictures.thumbnail},
                 {"difference", pictures.difference},
                 {"off_gamut", pictures.off_gamut}}};
}

Result<Answer> difference_work(const Json& request, const WorkFiles& files) {
  auto opened = open_on_paper(request, files);
  if (!opened) return opened.error();
  const PrintIntent print = opened.value().print;
  auto facts = read_facts(files);
  if (!facts) return facts.error();
  auto found = find_difference(opened.value().master, facts.value(), opened.value().paper, print);
  if (!found) return found.error();
  DifferenceMap& map = found.value();
  const Json json{{"kind", "difference"},
                  {"intent", word_for(print.intent)},
                  {"black_point_compensation", print.black_point_compensation},
                  {"difference", {{"width", map.width}, {"height", map.height}}}};
  return Answer{dump_json(json), {{"difference", std::move(map.tenths)}}};
}

}  // namespace proofleaf
