#include "condition/condition_json.h"

#include <algorithm>
#include <cmath>

#include "condition/words.h"

namespace proofleaf {
namespace {

// Numbers as a person would write them: four places are more than anything here means.
double rounded(double value) { return std::round(value * 1e4) / 1e4; }

Json json_of(const Place& place) {
  return Json::array({place.x, place.y, place.width, place.height});
}

Json json_of(const Finding& finding) {
  const Sentences words = sentences_for(finding);
  Json places = Json::array(), numbers = Json::object();
  for (const Place& place : finding.places) places.push_back(json_of(place));
  for (const auto& [name, number] : finding.numbers) numbers[name] = rounded(number);
  Json json{{"id", finding.id},
            {"severity", word_for(finding.severity)},
            {"variant", finding.variant},
            {"title", words.title},
            {"value", finding.value ? Json(rounded(*finding.value)) : Json()},
            {"unit", finding.unit},
            {"what", words.what},
            {"why", words.why},
            {"do", words.todo},
            {"places", places},
            {"numbers", numbers}};
  if (!finding.sides.empty()) json["sides"] = finding.sides;
  return json;
}

Json json_of(const PrintSize& size) {
  return {{"ppi", size.ppi},
          {"width_cm", rounded(size.width_cm)},
          {"height_cm", rounded(size.height_cm)},
          {"width_in", rounded(size.width_in)},
          {"height_in", rounded(size.height_in)},
          {"distance_cm", rounded(size.distance_cm)}};
}

}  // namespace

Json to_json(const ConditionReport& report) {
  Json findings = Json::array(), unsaid = Json::array(), dust = Json::array(),
       sizes = Json::array();
  Json counts{{"act", 0}, {"look", 0}, {"good", 0}};
  for (const Finding& finding : report.findings) {
    findings.push_back(json_of(finding));
    Json& count = counts[word_for(finding.severity)];
    count = count.get<int>() + 1;
  }
  for (const std::string& id : report.unsaid) {
    const Sentences words = sentences_for_unsaid(id);
    unsaid.push_back({{"id", id}, {"title", words.title}, {"what", words.what}});
  }
  for (const Spot& spot : report.spots) {
    dust.push_back({{"x", rounded(spot.x)},
                    {"y", rounded(spot.y)},
                    {"diameter", rounded(spot.diameter)},
                    {"contrast", rounded(spot.contrast)}});
  }
  for (const PrintSize& size : report.sizes) sizes.push_back(json_of(size));
  const auto& width = report.settings.print_width_mm;
  return {{"kind", "condition"},
          {"width", report.width},
          {"height", report.height},
          {"print_ppi", rounded(report.print_ppi)},
          {"print_width_mm", width ? Json(*width) : Json()},
          {"dust_mm", report.settings.dust_mm},
          {"dust_px", rounded(report.dust_px)},
          {"counts", counts},
          {"findings", findings},
          {"unsaid", unsaid},
          {"dust", dust},
          {"print_sizes", sizes}};
}

}  // namespace proofleaf
