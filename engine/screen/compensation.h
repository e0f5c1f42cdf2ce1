// The last step before the screen, where it is wanted: codes that make up for what the screen does
// to them. It changes what is shown, never what is printed or written.
//
//   proof's code --meant light--> x gain --the channel's own response, turned round--> code drawn
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "proof/cube.h"
#include "screen/check.h"

namespace proofleaf::screen {

class Compensation {
 public:
  // From the responses, and the neutral where there is one: the channels are then dimmed, none
  // raised, until a grey has the paper's tint. canvas: the space the codes are drawn in.
  // Error: the responses are not known; see responses_of.
  static Result<Compensation> from(const Answers& answers, Screen canvas);

  // The code drawn for the proof's code; channel 0..2. Codes outside 0..1 stay in order, and are
  // cut off only when drawn.
  double code(size_t channel, double wanted) const;
  // Of a channel's full light, what white is drawn with, 0..1.
  double gain(size_t channel) const { return gains_[channel]; }

 private:
  std::array<std::vector<double>, 3> codes_;  // by the code meant, evenly over 0..1
  std::array<double, 3> gains_{1, 1, 1};
};

// What it costs in 8-bit codes, the worst channel each.
struct Price {
  int levels = 256;   // that are left of 256
  int swallowed = 0;  // codes above black that are drawn as black
  double white = 1;   // luminance of white, of what it was, 0..1
};
Price price_of(const Compensation& compensation);

// Folds it into a screen cube's R, G and B lanes, node by node and unrounded; the fourth lane
// stays.
void fold(const Compensation& compensation, Cube& cube);
// The same for 8-bit R, G, B, A that were made without.
void compensate(const Compensation& compensation, std::span<uint8_t> rgba);

}  // namespace proofleaf::screen
