#include "left_work.h"

#include <algorithm>
#include <utility>

#include "app.h"
#include "job_sheet.h"
#include "json_read.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

Json view_json(const View& view) {
  return {{"whole", view.whole},
          {"zoom", view.zoom},
          {"x", view.x},
          {"y", view.y},
          {"divider", view.divider}};
}

View view_from(const Json& json) {
  const auto share = [&](const char* name) {
    return std::clamp(number_of(json, name, 0.5), 0.0, 1.0);
  };
  View view;
  view.whole = flag_of(json, "whole", true);
  view.zoom = std::clamp(number_of(json, "zoom", 1), 0.01, 16.0);
  view.x = share("x");
  view.y = share("y");
  view.divider = share("divider");
  return view;
}

std::string master_of(const Json& left) {
  const Json* job = member(left, "job");
  const Json* master = job ? member(*job, "master") : nullptr;
  return master ? text_of(*master, "name") : "";
}

}  // namespace

std::string work_as_json(const App& app) {
  if (app.job.master.file == 0 || !app.job.chosen_paper() || !app.left.waiting.is_null()) return "";
  return dump_json({{"job", json_of(job_of(app))},
                    {"file", app.job.master.file},
                    {"leaf", int(app.job.leaf)},
                    {"working", app.working_pixels},
                    {"view", view_json(app.job.view)}});
}

void take_left_work(App& app, const std::string& json, bool with_master) {
  Json left = parse_json(json);
  const std::string master = master_of(left);
  if (master.empty()) return;
  app.working_pixels =
      uint32_t(std::clamp(number_of(left, "working", app.working_pixels),
                          double(kSmallestWorkingPixels), double(app.working_pixels)));
  app.left.waiting = std::move(left);
  if (!with_master) notice(app, text(words::kWorkWantsMaster, master.c_str()));
}

void go_on_with_master(App& app) {
  if (master_of(app.left.waiting) != app.job.master.name) {
    if (app.job.master.version > 1) app.left.waiting = nullptr;  // the person went on with another
    return;
  }
  const Json left = std::exchange(app.left.waiting, nullptr);
  auto job = job_from_json(*member(left, "job"));
  if (!job) return;
  take_up(app, job.value());
  set_recipe(app, job.value().recipe);
  app.left.paper = job.value().paper.sha256;
  for (size_t i = 0; i < app.job.papers.size(); ++i) go_on_with_paper(app, int(i));
  app.job.leaf = Leaf(std::clamp(int(number_of(left, "leaf")), 0, kLeaves - 1));
  if (const Json* view = member(left, "view")) app.job.view = view_from(*view);
  tell(app, words::kWorkGoesOn);
}

void go_on_with_paper(App& app, int index) {
  if (app.left.paper.empty()) return;
  const PaperState& paper = app.job.papers[size_t(index)];
  if (!paper.loaded || digest_of(paper.profile) != app.left.paper) return;
  app.job.paper = index;
  app.left.paper.clear();
}

}  // namespace proofleaf::shell
