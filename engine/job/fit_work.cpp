#include "job/fit_work.h"

#include "fit/fit_json.h"
#include "fit/solve.h"
#include "job/choice_work.h"
#include "job/opening.h"

namespace proofleaf {

Result<Answer> fit_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto opened = open_on_paper(request, files);
  if (!opened) return opened.error();
  const MasterOnPaper& on = opened.value();
  auto facts = read_facts(files);
  if (!facts) return facts.error();
  auto fit = fit_for_paper(on.master, facts.value(), on.paper, on.print, {}, watch);
  if (!fit) return fit.error();
  return Answer{dump_json({{"kind", "fitted"},
                           {"correction", json_of(fit.value().correction)},
                           {"before", json_of(fit.value().before)},
                           {"after", json_of(fit.value().after)},
                           {"sentence", fit.value().sentence},
                           {"worse", fit.value().worse}}),
                {}};
}

Result<Answer> effect_work(const Json& request, const WorkFiles& files) {
  auto opened = open_on_paper(request, files);
  if (!opened) return opened.error();
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  const MasterOnPaper& on = opened.value();
  auto facts = read_facts(files);
  if (!facts) return facts.error();
  auto both = measure_correction(on.master, facts.value(), on.paper, on.print,
                                 recipe.value().correction, recipe.value().monochrome, {});
  if (!both) return both.error();
  return Answer{dump_json({{"kind", "effect"},
                           {"before", json_of(both.value().before)},
                           {"after", json_of(both.value().after)},
                           {"worse", made_worse(both.value().before, both.value().after)}}),
                {}};
}

}  // namespace proofleaf
