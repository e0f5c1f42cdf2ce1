#include "job/read_back_work.h"

#include "job/opening.h"
#include "print/proofing_json.h"
#include "print/strip_aims.h"

namespace proofleaf {
namespace {

// The strip's steps. Error: none, too many, or one without a name or with a lightness that is none.
Result<std::vector<print::StripStep>> steps_from(const Json& request) {
  constexpr size_t kMostSteps = 200, kLongestName = 60;
  const Json* patches = member(request, "patches");
  if (patches == nullptr || !patches->is_array() || patches->empty() ||
      patches->size() > kMostSteps) {
    return Error{"The strip's patches must be a list of 1 to 200."};
  }
  std::vector<print::StripStep> steps;
  for (const Json& patch : *patches) {
    print::StripStep step{text_of(patch, "name"), number_of(patch, "lightness", -1)};
    if (step.name.empty() || step.name.size() > kLongestName) {
      return Error{"Each of the strip's patches needs a name of at most 60 letters."};
    }
    if (!(step.lightness >= 0 && step.lightness <= 100)) {
      return Error{"The lightness of the strip's patch {} must lie between 0 and 100 L*.",
                   step.name};
    }
    steps.push_back(std::move(step));
  }
  return steps;
}

}  // namespace

Result<Answer> read_back_work(const Json& request, const WorkFiles& files) {
  auto steps = steps_from(request);
  if (!steps) return steps.error();
  auto opened = open_on_paper(request, files);
  if (!opened) return opened.error();
  const MasterOnPaper& on = opened.value();
  if (!files.readings) return Error{"No measurements were given."};
  auto bytes = read_all(*files.readings, print::kLargestReadings);
  if (!bytes) return bytes.error();
  const std::string& name = files.readings->name();
  auto readings = print::read_readings(bytes.value(), name);
  if (!readings) return readings.error();

  auto aims = print::strip_aims(steps.value(), on.master, on.paper, on.print);
  if (!aims) return aims.error();
  auto back = print::read_back(aims.value(), readings.value(), name);
  if (!back) return back.error();
  Json json = print::to_json(back.value());
  json["kind"] = "read_back";
  const auto correction = print::paper_correction(back.value().patches);
  json["correction"] = correction ? print::to_json(correction.value()) : Json();
  return Answer{dump_json(json), {}};
}

Result<Answer> eye_reading_work(const Json& request) {
  Json seen = Json::object();
  for (const char* field : {"first_from_black", "first_from_white"}) {
    if (const Json* value = member(request, field)) seen[field] = *value;
  }
  auto reading = print::eye_reading_from_json(seen);
  if (!reading) return reading.error();
  auto finding = print::by_eye(reading.value());
  if (!finding) return finding.error();
  Json json = print::to_json(finding.value());
  json["kind"] = "eye_reading";
  return Answer{dump_json(json), {}};
}

Result<PaperReading> reading_of(const Json& request) {
  const Json* reading = member(request, "reading");
  if (reading == nullptr || reading->is_null()) return PaperReading{};
  auto correction = print::paper_correction_from_json(*reading);
  if (!correction) return correction.error();
  return PaperReading{std::move(correction.value().offsets)};
}

}  // namespace proofleaf
