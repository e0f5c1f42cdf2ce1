// Makes the job of what the panel holds, and takes one up again.
#include "job_sheet.h"

#include "app.h"
#include "base/sha256.h"
#include "json_read.h"
#include "print/proofing_json.h"
#include "words.h"
#include "words_strip.h"

namespace proofleaf::shell {
namespace {

void note_returned(const App& app, Job& job) {
  JobReturned returned = app.sheet.returned;
  const StripReading& reading = app.strip.reading;
  const bool looked =
      returned.size.found != Looked::unknown || returned.cast.found != Looked::unknown ||
      returned.shadow_step.found != Looked::unknown || returned.marks.found != Looked::unknown;
  if (reading.correction.is_object()) {
    auto correction = print::paper_correction_from_json(reading.correction);
    if (correction) returned.reading = correction.take();
    // Measurements of the print itself tell more of it than those of its test strip.
    if (app.returned.measured_sentence.empty())
      returned.measured = JobMeasured{uint32_t(app.strip.patches.size()), reading.mean, reading.p95,
                                      reading.max, verdict_of(reading.mean, reading.p95)};
  }
  if (looked || returned.seen || returned.measured) job.returned = returned;
}

void note_costs(const JobSheet& sheet, Job& job) {
  if (sheet.cost != 0)
    job.costs.push_back({words::kCostOfPrint.english, sheet.cost, uint32_t(sheet.of)});
  if (sheet.edition_cost != 0)
    job.costs.push_back({words::kCostOfEdition.english, sheet.edition_cost});
  job.costs.insert(job.costs.end(), sheet.other_costs.begin(), sheet.other_costs.end());
}

void take_costs(const Job& job, JobSheet& sheet) {
  sheet.cost = sheet.edition_cost = 0;
  sheet.other_costs.clear();
  for (const JobCost& cost : job.costs) {
    if (cost.what == words::kCostOfPrint.english)
      sheet.cost = cost.amount;
    else if (cost.what == words::kCostOfEdition.english)
      sheet.edition_cost = cost.amount;
    else
      sheet.other_costs.push_back(cost);
  }
}

// What a reopened job still lacks.
std::string lacking(const App& app, const Job& job) {
  std::string said;
  if (app.job.master.name != job.master.name)
    said += " " + text(words::kJobWantsMaster, job.master.name.c_str());
  const PaperState* paper = app.job.chosen_paper();
  if (!paper || digest_of(paper->profile) != job.paper.sha256)
    said += " " + text(words::kJobWantsPaper, job.paper.name.c_str());
  return said;
}

}  // namespace

std::string digest_of(const Bytes& bytes) {
  Sha256 sum;
  sum.add(bytes);
  return sum.finish();
}

Job job_of(const App& app) {
  Job job = job_for_names(app);
  const PaperState& paper = *app.job.chosen_paper();
  const DeliverySettings& d = app.job.delivery;
  if (app.sheet.digest_version == app.job.master.version) job.master.sha256 = app.sheet.digest;
  job.paper = {paper.name, digest_of(paper.profile)};
  job.intent = app.job.print;
  job.recipe = app.recipe.now;
  job.print.bits = d.tiff ? uint32_t(d.bits) : 8;
  job.print.quality = uint32_t(d.quality);
  job.print.full_colour_detail = d.full_colour_detail;
  job.print.keep_private = d.keep_private;
  job.deliveries = app.sheet.deliveries;
  job.edition = JobEdition{uint32_t(app.sheet.number), uint32_t(app.sheet.of)};
  job.currency = app.sheet.currency;
  note_costs(app.sheet, job);
  job.notes = app.sheet.notes;
  note_returned(app, job);
  return job;
}

void take_up(App& app, const Job& job) {
  DeliverySettings& d = app.job.delivery;
  app.job.print = job.intent;
  d.tiff = job.print.container == Container::tiff;
  d.bits = int(job.print.bits);
  d.quality = int(job.print.quality);
  d.full_colour_detail = job.print.full_colour_detail;
  d.ppi = int(job.print.ppi);
  d.keep_private = job.print.keep_private;
  JobSheet& sheet = app.sheet;
  sheet.deliveries = job.deliveries;
  sheet.number = job.edition ? int(job.edition->number) : 1;
  sheet.of = job.edition ? int(job.edition->of) : 1;
  sheet.currency = job.currency;
  take_costs(job, sheet);
  sheet.notes = job.notes;
  sheet.returned = job.returned.value_or(JobReturned{});
  drop_returned(app);
  app.returned.ticked = JobReturned{};
  app.returned.measured_sentence.clear();
  sheet.wanted = job.master.sha256;
  for (size_t i = 0; i < app.job.papers.size(); ++i) {
    const PaperState& paper = app.job.papers[i];
    if (paper.loaded && digest_of(paper.profile) == job.paper.sha256) app.job.paper = int(i);
  }
}

void note_delivery(App& app, const DeliveryResult& result, const std::string& sha256,
                   const std::string& paper, const print::PrintPlan& plan) {
  constexpr size_t kMost = 100;
  if (app.sheet.deliveries.size() == kMost)
    app.sheet.deliveries.erase(app.sheet.deliveries.begin());
  app.sheet.deliveries.push_back({result.name, paper, uint64_t(result.bytes), sha256,
                                  plan.sheet_width_mm, plan.sheet_height_mm, result.mean,
                                  result.p95, result.max});
}

// The master is read once more for it, so only for who needs it.
bool digest_wanted(const App& app) {
  const bool needed = !app.sheet.deliveries.empty() || !app.sheet.wanted.empty();
  return needed && app.job.master.file != 0 && app.sheet.digest_version != app.job.master.version &&
         !find_task(const_cast<App&>(app), TaskKind::digest);
}

void ask_digest(App& app) {
  Task task;
  task.kind = TaskKind::digest;
  task.name = app.job.master.name;
  task.since = now();
  task.work = app.host.start(dump_json({{"op", "digest"}}), {{"master", app.job.master.file}});
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

bool take_digest(App& app, const Json& json) {
  app.sheet.digest = text_of(json, "sha256");
  app.sheet.digest_version = app.job.master.version;
  if (!app.sheet.wanted.empty() && app.sheet.wanted != app.sheet.digest)
    notice(app, text(words::kJobOtherMaster, app.job.master.name.c_str()));
  app.sheet.wanted.clear();
  return !app.sheet.digest.empty();
}

bool take_job(App& app, const Json& json, const std::string& name) {
  auto job = job_from_json(json);
  if (!job) return false;
  take_up(app, job.value());
  set_recipe(app, job.value().recipe);
  const std::string lacks = lacking(app, job.value());
  const std::string said = text(words::kJobTaken, name.c_str()) + lacks;
  lacks.empty() ? tell(app, said) : notice(app, said);
  return true;
}

void save_job(App& app, JobFile kind) {
  const Job job = job_of(app);
  const std::string base = print_base(app);
  if (kind == JobFile::page)
    app.host.save_text(base + "-job-sheet.html", "text/html", job_sheet_html(job));
  else
    app.host.save_text(base + "-job.json", "application/json", job_text(job));
  tell(app, words::kJobKept);
}

}  // namespace proofleaf::shell
