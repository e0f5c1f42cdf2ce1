#include "print/strip_aims.h"

namespace proofleaf::print {

std::vector<StripStep> steps_of(const StripLayout& layout) {
  std::vector<StripStep> steps;
  for (const StripPatch& patch : layout.patches) steps.push_back({patch.name, patch.lightness});
  return steps;
}

Result<std::vector<PatchAim>> strip_aims(std::span<const StripStep> steps, const Profile& master,
                                         const Paper& paper, PrintIntent print) {
  auto light = Light::of(master);
  if (!light) return light.error();
  auto chain = ProofChain::make(master, paper, print, {.paper_white = true, .paper_black = true});
  if (!chain) return chain.error();
  std::vector<float> codes;
  for (const StripStep& step : steps) {
    for (const uint16_t code : light.value().neutral(step.lightness)) {
      codes.push_back(float(code) / 65535);
    }
  }
  std::vector<ProofPoint> points(steps.size());
  chain.value()->points(codes, points);
  std::vector<PatchAim> aims;
  for (size_t i = 0; i < steps.size(); ++i) aims.push_back({steps[i].name, points[i].on_paper});
  return aims;
}

}  // namespace proofleaf::print
