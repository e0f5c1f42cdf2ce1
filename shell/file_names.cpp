// Print files' names by the pattern, and what the folder they go to holds.
#include <algorithm>

#include "app.h"
#include "json_read.h"
#include "words.h"
#include "words_batch.h"

namespace proofleaf::shell {

Job job_for_names(const App& app) {
  const MasterState& m = app.job.master;
  Job job;
  job.date = today_as_date();
  job.master = {m.name, m.width, m.height, m.bits, ""};
  job.print.container = app.job.delivery.tiff ? Container::tiff : Container::jpeg;
  job.print.ppi = app.job.delivery.ppi;
  if (app.sheet.of > 1)
    job.edition = JobEdition{uint32_t(app.sheet.number), uint32_t(app.sheet.of)};
  return job;
}

namespace {

Result<std::string> name_beside(const App& app, std::span<const std::string> taken) {
  const PaperState* paper = app.job.chosen_paper();
  const BatchItem item{paper ? paper->name : "paper", "", app.recipe.now};
  auto named = plan_batch(app.job.delivery.pattern, job_for_names(app), std::span(&item, 1), taken);
  if (!named) return named.error();
  return named.value().front().name;
}

}  // namespace

Result<std::string> pattern_name(const App& app) { return name_beside(app, {}); }

std::string delivery_name(const App& app) {
  const DeliverySettings& delivery = app.job.delivery;
  if (delivery.name_edited) return delivery.name;
  const auto name = name_beside(app, app.folder.holds);
  return name ? name.value() : "";
}

std::string print_base(const App& app) {
  const DeliverySettings& delivery = app.job.delivery;
  const auto by_pattern = pattern_name(app);
  std::string name = delivery.name_edited ? delivery.name
                     : by_pattern         ? by_pattern.value()
                                          : app.job.master.name;
  return name.substr(0, name.rfind('.'));
}

void folder_chosen(App& app, const std::string& name, const std::string& names, bool refused) {
  app.folder = {};
  if (refused) return notice(app, words::kFolderRefused);
  app.folder.chosen = !name.empty();
  app.folder.name = name;
  if (const Json list = parse_json(names); list.is_array())
    for (const Json& each : list)
      if (each.is_string()) app.folder.holds.push_back(each.get<std::string>());
  if (app.folder.chosen) tell(app, text(words::kFolderChosen, name.c_str()));
}

void save_delivery(App& app, int work, const std::string& name) {
  if (app.folder.chosen) ++app.folder.saving;
  app.host.save_delivery(work, name);
}

void delivery_saved(App& app, const std::string& name, const std::string& outcome) {
  app.folder.saving = std::max(0, app.folder.saving - 1);
  if (outcome == "gone") return notice(app, text(words::kFileGone, name.c_str()));
  if (outcome != "refused") app.folder.holds.push_back(name);
  if (outcome == "saved") return;
  const Words why = outcome == "exists" ? words::kFileExists : words::kFileRefused;
  const std::string said = text(why, name.c_str());
  notice(app, said);
  // It was not handed over.
  auto& deliveries = app.sheet.deliveries;
  const auto last = std::find_if(deliveries.rbegin(), deliveries.rend(),
                                 [&](const JobDelivery& each) { return each.name == name; });
  if (last != deliveries.rend()) deliveries.erase(std::next(last).base());
  const auto take_back = [&](Outcome& each) {
    if (each.name != name || each.state != Made::made) return;
    each.state = Made::failed;
    each.sentence = said;
  };
  for (Outcome& each : app.batch.outcomes) take_back(each);
  for (BatchEntry& each : app.batch.entries) take_back(each.outcome);
}

}  // namespace proofleaf::shell
