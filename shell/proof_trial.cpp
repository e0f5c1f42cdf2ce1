#include "proof_trial.h"

#include <cmath>

namespace proofleaf::shell {
namespace {

constexpr uint32_t kGrid = 5, kColumns = 32, kRows = 16;
constexpr uint32_t kSteps = 8;  // 8^3 = 512 colours
static_assert(kSteps * kSteps * kSteps == kColumns * kRows);

// xorshift32 (Marsaglia 2003).
class Noise {
 public:
  uint32_t next() {
    state_ ^= state_ << 13;
    state_ ^= state_ >> 17;
    state_ ^= state_ << 5;
    return state_;
  }

 private:
  uint32_t state_ = 20260101;
};

// Lanes all over their range, so that some levels are cut off at either end.
std::vector<int16_t> noisy_lanes(size_t count, Noise& noise) {
  std::vector<int16_t> lanes(count);
  for (int16_t& lane : lanes) lane = int16_t(noise.next() >> 16);
  return lanes;
}

std::vector<uint16_t> bent_shaper() {
  std::vector<uint16_t> shaper(65536);
  for (size_t code = 0; code < shaper.size(); ++code)
    shaper[code] = uint16_t(std::lround(std::sqrt(65535.0 * double(code))));
  return shaper;
}

// The ends, their neighbours, and codes between.
std::vector<uint16_t> codes(Noise& noise) {
  std::vector<uint16_t> list = {0, 1, 65534, 65535};
  while (list.size() < kSteps) list.push_back(uint16_t(noise.next() >> 16));
  return list;
}

// Fine nodes for about half of the colours' blocks; the first and the last block among them.
void refine(const Picture& picture, Noise& noise, Cube& cube) {
  cube.block_cells = kMostBlockCells;
  cube.block_at.assign(size_t{kBlocks} * kBlocks * kBlocks, 0);
  uint32_t count = 0;
  for (size_t i = 0; i < picture.rgb.size(); i += 3) {
    size_t at = 0;
    for (size_t c = 0; c < 3; ++c)
      at = at * kBlocks + cube.shaper[picture.rgb[i + c]] / (65536 / kBlocks);
    const bool end = at == 0 || at + 1 == cube.block_at.size();
    if (cube.block_at[at] == 0 && (end || noise.next() % 2 == 0)) cube.block_at[at] = ++count;
  }
  cube.fine = noisy_lanes(count * block_samples(cube.block_cells), noise);
}

}  // namespace

ProofTrial make_proof_trial() {
  Noise noise;
  ProofTrial trial;
  Picture& picture = trial.picture;
  picture.columns = kColumns;
  picture.rows = kRows;
  const std::vector<uint16_t> levels = codes(noise);
  for (const uint16_t r : levels)
    for (const uint16_t g : levels)
      for (const uint16_t b : levels) picture.rgb.insert(picture.rgb.end(), {r, g, b});
  ScreenCube cube;
  cube.key = "trial";
  cube.cube.grid = kGrid;
  cube.cube.lanes = 4;
  cube.cube.shaper = bent_shaper();
  cube.cube.nodes = noisy_lanes(size_t{kGrid} * kGrid * kGrid * 4, noise);
  refine(picture, noise, cube.cube);
  trial.right.resize(picture.rgb.size() / 3 * 4);
  proof_to_screen8(cube.cube, picture.rgb, trial.right);
  trial.cube = std::make_shared<ScreenCube>(std::move(cube));
  return trial;
}

}  // namespace proofleaf::shell
