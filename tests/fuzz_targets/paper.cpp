// An ICC profile as a paper: opened, joined to a master in every intent, a small cube, its gamut
// mapping and its ink.
#include "paper/paper.h"

#include <cmath>

#include "proof/cube.h"
#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

namespace {

constexpr uint32_t kGrid = 3;

void proof_on(const Profile& master, const Paper& paper, PrintIntent print) {
  auto made = ProofChain::make(master, paper, print, {});
  auto* chain = value_of(made);
  if (chain == nullptr) return;
  auto cube = build_screen_cube(**chain, kGrid, {});
  if (value_of(cube) == nullptr) return;
  const std::array<uint16_t, 6> rgb{0, 30000, 65535, 1, 2, 3};
  std::array<uint8_t, 8> screen{};
  proof_to_screen8(cube.value(), rgb, screen);
  (*chain)->point(0.2f, 0.5f, 0.9f);
}

}  // namespace

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  static const Profile master = standard_profile("srgb").take();
  auto read = read_paper(bytes_of(data, size), "paper.icc");
  const Paper* paper = value_of(read);
  if (paper == nullptr) return;
  expect(paper->white.l > paper->black.l && !paper->name.empty());
  for (const Intent intent : {Intent::perceptual, Intent::relative, Intent::saturation}) {
    proof_on(master, *paper, {intent, true});
  }
  proof_on(master, *paper, {Intent::absolute, false});
}
