#include <algorithm>
#include <array>

#include "print/fields.h"
#include "print/proofing_json.h"
#include "proof/words.h"
#include "sheet/job.h"
#include "sheet/take.h"

namespace proofleaf {
namespace {

using print::Fields;

constexpr size_t kLongestName = 255, kLongestNote = 10'000, kLongestWord = 40;  // [bytes]
constexpr size_t kMostListed = 100;
constexpr double kMostDifference = 1000;  // [dE00]
constexpr std::array kIntentKeys{"perceptual", "relative", "saturation", "absolute"};
constexpr std::array kFormats{"jpeg", "tiff"};
constexpr std::array kFormatContainers{Container::jpeg, Container::tiff};
constexpr std::array kFound{"unknown", "ok", "wrong"};
constexpr std::array kVerdicts{"good", "marginal", "out"};

// Of a digest; empty is allowed.
Status check_digest(const std::string& digest) {
  const bool digits = std::all_of(digest.begin(), digest.end(), [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
  });
  if (digest.empty() || (digits && digest.size() == 64)) return done();
  return Error{"sha256 must be 64 hexadecimal digits in small letters."};
}

void read_differences(Fields& fields, double& mean, double& p95, double& max) {
  fields.number({"mean", 0, kMostDifference, "dE00"}, mean);
  fields.number({"p95", 0, kMostDifference, "dE00"}, p95);
  fields.number({"max", 0, kMostDifference, "dE00"}, max);
}

Result<JobMaster> master_from(const Json& json) {
  JobMaster master;
  Fields fields(json, "job's master");
  constexpr double kMostSide = 1 << 20;
  fields.text("name", kLongestName, master.name);
  fields.whole({"width", 0, kMostSide, "pixels"}, master.width);
  fields.whole({"height", 0, kMostSide, "pixels"}, master.height);
  fields.whole({"bits", 1, 32, ""}, master.bits);
  fields.text("sha256", kLongestName, master.sha256);
  if (auto sound = fields.finish(); !sound) return sound.error();
  if (auto sound = check_digest(master.sha256); !sound) return sound.error();
  if (master.name.empty()) return Error{"The job's master has no name."};
  return master;
}

Result<JobPaper> paper_from(const Json& json) {
  JobPaper paper;
  Fields fields(json, "job's paper");
  fields.text("name", kLongestName, paper.name);
  fields.text("sha256", kLongestName, paper.sha256);
  if (auto sound = fields.finish(); !sound) return sound.error();
  if (auto sound = check_digest(paper.sha256); !sound) return sound.error();
  if (paper.name.empty()) return Error{"The job's paper has no name."};
  return paper;
}

Result<JobPrint> print_from(const Json& json) {
  JobPrint print;
  size_t format = 0;
  Fields fields(json, "job's print");
  fields.word("format", kFormats, format);
  fields.whole({"bits", 8, 16, ""}, print.bits);
  fields.whole({"quality", 1, 100, ""}, print.quality);
  fields.flag("full_colour_detail", print.full_colour_detail);
  fields.number({"ppi", 1, 10000, phrase("pixels per inch")}, print.ppi);
  fields.flag("keep_private", print.keep_private);
  if (auto sound = fields.finish(); !sound) return sound.error();
  if (print.bits != 8 && print.bits != 16) return Error{"bits must be 8 or 16."};
  print.container = kFormatContainers[format];
  return print;
}

Result<JobDelivery> delivery_from(const Json& json) {
  JobDelivery delivery;
  Fields fields(json, "delivery");
  fields.text("name", kLongestName, delivery.name);
  fields.text("paper", kLongestName, delivery.paper);
  fields.whole({"bytes", 0, 1e13, "bytes"}, delivery.bytes);
  fields.text("sha256", kLongestName, delivery.sha256);
  fields.number({"width_mm", 0, 20000, "mm"}, delivery.width_mm);
  fields.number({"height_mm", 0, 20000, "mm"}, delivery.height_mm);
  read_differences(fields, delivery.mean, delivery.p95, delivery.max);
  if (auto sound = fields.finish(); !sound) return sound.error();
  if (auto sound = check_digest(delivery.sha256); !sound) return sound.error();
  return delivery;
}

Result<JobCost> cost_from(const Json& json) {
  JobCost cost;
  Fields fields(json, "cost");
  fields.text("what", kLongestName, cost.what);
  fields.number({"amount", -1e9, 1e9, ""}, cost.amount);
  fields.whole({"count", 1, 1e6, ""}, cost.count);
  if (auto sound = fields.finish(); !sound) return sound.error();
  return cost;
}

Result<JobEdition> edition_from(const Json& json) {
  JobEdition edition;
  Fields fields(json, "edition");
  constexpr double kMost = 1e6;
  fields.whole({"number", 1, kMost, ""}, edition.number);
  fields.whole({"of", 1, kMost, ""}, edition.of);
  if (auto sound = fields.finish(); !sound) return sound.error();
  if (edition.number > edition.of) {
    return Error{"Number {} is past the edition of {}.", edition.number, edition.of};
  }
  return edition;
}

Result<JobMeasured> measured_from(const Json& json) {
  JobMeasured measured;
  Fields fields(json, "measured print");
  fields.whole({"patches", 0, 1e5, ""}, measured.patches);
  read_differences(fields, measured.mean, measured.p95, measured.max);
  fields.word("verdict", kVerdicts, measured.verdict);
  if (auto sound = fields.finish(); !sound) return sound.error();
  return measured;
}

Result<JobCheck> check_from(const Json& json) {
  JobCheck check;
  Fields fields(json, "check of the print");
  fields.word("found", kFound, check.found);
  fields.text("note", kLongestNote, check.note);
  if (auto sound = fields.finish(); !sound) return sound.error();
  return check;
}

// What a field holds, by its own reader; left as it is where the field is left out or null.
template <class Part>
Status take_list(const Json* json, Result<Part> (*read)(const Json&), std::vector<Part>& into) {
  if (json == nullptr) return done();
  for (const Json& each : *json) {
    auto found = read(each);
    if (!found) return found.error();
    into.push_back(found.take());
  }
  return done();
}

Result<JobReturned> returned_from(const Json& json) {
  JobReturned returned;
  Fields fields(json, "returned print");
  if (!json.is_object()) return fields.finish().error();
  for (const Status& part :
       {take_any(fields.inside("size"), check_from, returned.size),
        take_any(fields.inside("cast"), check_from, returned.cast),
        take_any(fields.inside("shadow_step"), check_from, returned.shadow_step),
        take_any(fields.inside("marks"), check_from, returned.marks),
        take_any(fields.inside("seen"), seen_from_json, returned.seen),
        take_any(fields.inside("measured"), measured_from, returned.measured),
        take_any(fields.inside("reading"), print::paper_correction_from_json, returned.reading),
        fields.finish()}) {
    if (!part) return part.error();
  }
  return returned;
}

Status check_version(const Json& json) {
  const Json* version = member(json, "proofleaf_job");
  if (version == nullptr || !version->is_number_integer()) {
    return Error{"This is not a job of Proofleaf's."};
  }
  if (*version < kOldestJobVersion || *version > kJobVersion) {
    return Error{"This job is of another version of Proofleaf and cannot be read."};
  }
  return done();
}

Json json_of(const JobCheck& check) {
  return {{"found", kFound[static_cast<size_t>(check.found)]}, {"note", check.note}};
}

Json json_of(const JobReturned& returned) {
  Json json{{"size", json_of(returned.size)},
            {"cast", json_of(returned.cast)},
            {"shadow_step", json_of(returned.shadow_step)},
            {"marks", json_of(returned.marks)},
            {"seen", returned.seen ? json_of(*returned.seen) : Json()},
            {"measured", nullptr},
            {"reading", returned.reading ? print::to_json(*returned.reading) : Json()}};
  if (const auto& measured = returned.measured) {
    json["measured"] = {{"patches", measured->patches},
                        {"mean", measured->mean},
                        {"p95", measured->p95},
                        {"max", measured->max},
                        {"verdict", kVerdicts[static_cast<size_t>(measured->verdict)]}};
  }
  return json;
}

Json json_of(const JobPrint& print) {
  return {{"format", print.container == Container::tiff ? "tiff" : "jpeg"},
          {"bits", print.bits},
          {"quality", print.quality},
          {"full_colour_detail", print.full_colour_detail},
          {"ppi", print.ppi},
          {"keep_private", print.keep_private}};
}

Json json_of(const JobMaster& master) {
  return {{"name", master.name},
          {"width", master.width},
          {"height", master.height},
          {"bits", master.bits},
          {"sha256", master.sha256}};
}

}  // namespace

Json json_of(const Job& job) {
  Json deliveries = Json::array(), costs = Json::array();
  for (const JobDelivery& each : job.deliveries) {
    deliveries.push_back({{"name", each.name},
                          {"paper", each.paper},
                          {"bytes", each.bytes},
                          {"sha256", each.sha256},
                          {"width_mm", each.width_mm},
                          {"height_mm", each.height_mm},
                          {"mean", each.mean},
                          {"p95", each.p95},
                          {"max", each.max}});
  }
  for (const JobCost& each : job.costs) {
    costs.push_back({{"what", each.what}, {"amount", each.amount}, {"count", each.count}});
  }
  Json edition;
  if (job.edition) edition = {{"number", job.edition->number}, {"of", job.edition->of}};
  return {{"proofleaf_job", kJobVersion},
          {"date", job.date},
          {"master", json_of(job.master)},
          {"paper", {{"name", job.paper.name}, {"sha256", job.paper.sha256}}},
          {"intent", word_for(job.intent.intent)},
          {"black_point_compensation", job.intent.black_point_compensation},
          {"recipe", json_of(job.recipe)},
          {"print", json_of(job.print)},
          {"deliveries", deliveries},
          {"edition", edition},
          {"currency", job.currency},
          {"costs", costs},
          {"notes", job.notes},
          {"returned", job.returned ? json_of(*job.returned) : Json()}};
}

Result<Job> job_from_json(const Json& json) {
  if (Status sound = check_version(json); !sound) return sound.error();
  Job job;
  Fields fields(json, "job");
  fields.inside("proofleaf_job");
  fields.text("date", kLongestName, job.date);
  fields.word("intent", kIntentKeys, job.intent.intent);
  fields.flag("black_point_compensation", job.intent.black_point_compensation);
  fields.text("currency", kLongestWord, job.currency);
  fields.text("notes", kLongestNote, job.notes);
  const Json* deliveries = fields.list("deliveries", kMostListed);
  const Json* costs = fields.list("costs", kMostListed);
  const Json *master = fields.inside("master"), *paper = fields.inside("paper");
  for (const Status& part :
       {take_any(master, master_from, job.master), take_any(paper, paper_from, job.paper),
        take_any(fields.inside("recipe"), recipe_from_json, job.recipe),
        take_any(fields.inside("print"), print_from, job.print),
        take_list(deliveries, delivery_from, job.deliveries),
        take_any(fields.inside("edition"), edition_from, job.edition),
        take_list(costs, cost_from, job.costs),
        take_any(fields.inside("returned"), returned_from, job.returned), fields.finish()}) {
    if (!part) return part.error();
  }
  if (job.master.name.empty()) return Error{"The job does not say which master it prints."};
  if (job.paper.name.empty()) return Error{"The job does not say which paper it is for."};
  return job;
}

std::string job_text(const Job& job) { return dump_json(json_of(job), 1) + "\n"; }

Result<Job> job_from_text(const std::string& text) {
  if (text.size() > kLargestJob) return Error{"This file is larger than a job can be."};
  return job_from_json(parse_json(text));
}

}  // namespace proofleaf
