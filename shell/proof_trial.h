// The trial of the graphics card before it proofs pictures: colours through a small cube, with what
// the kernel makes of them.
#pragma once

#include <memory>
#include <vector>

#include "picture.h"

namespace proofleaf::shell {

struct ProofTrial {
  std::shared_ptr<const ScreenCube> cube;  // refined in some of its blocks
  Picture picture;                         // 512 colours, the ends of each channel among them
  std::vector<uint8_t> right;              // what proof_to_screen8 gives
};

// The same each time; of seeded noise, so that hardly any error goes unseen.
ProofTrial make_proof_trial();

}  // namespace proofleaf::shell
