#include "job/condition_work.h"

#include "condition/condition_json.h"
#include "job/opening.h"

namespace proofleaf {

Result<Answer> condition_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto opened = open_with_colour(request, files);
  if (!opened) return opened.error();
  ConditionSettings settings;
  if (const Json* width = member(request, "print_width_mm");
      width != nullptr && width->is_number()) {
    settings.print_width_mm = width->get<double>();
  }
  settings.dust_mm = number_of(request, "dust_mm", settings.dust_mm);
  auto report = examine(*opened.value().master, opened.value().colour, settings, watch);
  if (!report) return report.error();
  return Answer{dump_json(to_json(report.value())), {}};
}

}  // namespace proofleaf
