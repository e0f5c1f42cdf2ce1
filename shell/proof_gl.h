// Runs pictures through screen cubes on the graphics card, bit for bit as the kernel does. Tries
// itself out first; where it differs, or cannot be had, the kernel goes on alone.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "proof_trial.h"
#include "readback.h"
#include "shell.h"
#include "table_gl.h"

namespace proofleaf::shell {

class ProofGl {
 public:
  explicit ProofGl(CardProofs use);
  ~ProofGl();
  ProofGl(const ProofGl&) = delete;
  ProofGl& operator=(const ProofGl&) = delete;

  // Begins anew with the present context; what there was went with an earlier one.
  void rebuild();
  // The context is lost: nothing runs here until rebuild().
  void lost();

  // Goes on with the trial; at the beginning of each frame.
  void update();
  bool ready() const { return state_ == State::ready; }
  bool waiting() const { return state_ != State::off && state_ != State::ready; }
  // Why the kernel runs instead, a phrase; empty when ready.
  const std::string& trouble() const { return trouble_; }

  // Whether the card takes a picture and a cube of that size.
  bool takes(const Picture& picture, const ScreenCube& cube) const;
  // Brings the layer up with the cube, as run_layer does; sends what the card has not got yet, a
  // few megabytes a frame. True when the layer's texture has just become right.
  bool run(Picture& picture, const std::shared_ptr<const ScreenCube>& cube, Layer& layer);
  // Lets go of the samples on the card.
  static void drop(Samples& samples);

  // The layer's bytes R G B and off gamut, row by row. Waits for the card: for tests and support.
  std::vector<uint8_t> read(const Picture& picture, const Layer& layer) const;

 private:
  enum class State { off, begun, linking, trial, ready };
  void fail(std::string why);
  void let_go();
  TableGl& table_for(const std::shared_ptr<const ScreenCube>& cube);
  void draw(const Picture& picture, unsigned source, const TableGl& table, unsigned target) const;
  void prepare_program();
  void begin_trial();
  void end_trial(const Bytes& seen);

  CardProofs use_;
  State state_ = State::off;
  std::string trouble_;
  ptrdiff_t budget_ = 0;  // [bytes] still to be sent in this frame
  unsigned program_ = 0, array_ = 0, frame_ = 0;
  int grid_ = -1, block_cells_ = -1;
  int largest_side_ = 0;
  std::vector<std::unique_ptr<TableGl>> tables_;  // used last, last

  ProofTrial trial_;
  unsigned trial_target_ = 0;
  Readback seen_;
};

}  // namespace proofleaf::shell
