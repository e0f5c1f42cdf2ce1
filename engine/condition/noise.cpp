#include "condition/noise.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

namespace proofleaf::condition {
namespace {

constexpr size_t kBins = 3000;    // hundredths of L*
constexpr double kEnds = 0.4;     // [L*] from either end of the scale
constexpr double kLoose = 6;      // times the variance that white noise leaves in part means
constexpr double kUneven = 0.05;  // [L*] of unevenness that any smooth block may have
constexpr uint32_t kLeastBlocks = 10;
constexpr double kLeastShare = 0.01;  // of a tone's blocks

}  // namespace

double Noise::largest() const { return *std::max_element(sigma.begin(), sigma.end()); }

NoiseMeter::NoiseMeter(uint32_t width) : width_(width), across_(width / kBlock) {
  for (auto& row : rows_) row.resize(width);
  bend_.resize(width);
  for (auto& counts : counts_) counts.resize(kBins);
  blocks_.resize(across_);
  close_blocks();
}

void NoiseMeter::add_row(const Row& row) {
  if (across_ == 0) return;
  if (row.y >= 2) {
    add_middle(row.y - 1, rows_[row.y % 2].data(), rows_[(row.y + 1) % 2].data(), row.l.data());
    if (row.y % kBlock == 0) {
      // The picture's first line has nothing above it, so that the first row of blocks is not
      // whole.
      if (row.y > kBlock) {
        for (const Block& block : blocks_) judge(block);
      }
      close_blocks();
    }
  }
  std::copy(row.l.begin(), row.l.end(), rows_[row.y % 2].begin());
}

void NoiseMeter::close_blocks() {
  for (Block& block : blocks_) block = Block{{}, 0, INT16_MAX, 0};
}

void NoiseMeter::add_middle(uint32_t y, const int16_t* above, const int16_t* here,
                            const int16_t* below) {
  for (uint32_t x = 0; x < width_; ++x) bend_[x] = above[x] - 2 * here[x] + below[x];
  const uint32_t part_row = y % kBlock / kPart;
  for (uint32_t b = 0; b < across_; ++b) {
    Block& block = blocks_[b];
    const int16_t* l = here + size_t{b} * kBlock;
    int16_t low = block.low, high = block.high;
    for (uint32_t x = 0; x < kBlock; ++x) {
      low = std::min(low, l[x]);
      high = std::max(high, l[x]);
    }
    block.low = low;
    block.high = high;
    for (uint32_t p = 0; p < kParts; ++p, l += kPart) {
      block.parts[part_row][p] += l[0] + l[1] + l[2] + l[3];
    }
    const uint32_t first = std::max(1u, b * kBlock);
    const uint32_t end = std::min(width_ - 1, (b + 1) * kBlock);
    int32_t sum = 0;
    for (uint32_t x = first; x < end; ++x)
      sum += std::abs(bend_[x - 1] - 2 * bend_[x] + bend_[x + 1]);
    block.mask_sum += sum;
  }
}

void NoiseMeter::judge(const Block& block) {
  constexpr double kPixels = kPart * kPart;
  double sum = 0, squares = 0, along_x = 0, along_y = 0;
  for (uint32_t j = 0; j < kParts; ++j) {
    for (uint32_t i = 0; i < kParts; ++i) {
      const double mean = block.parts[j][i] / (kPixels * kUnit);
      sum += mean;
      squares += mean * mean;
      along_x += mean * (i - 1.5);
      along_y += mean * (j - 1.5);
    }
  }
  const double mean = sum / 16;
  const size_t tone = mean < 30 ? 0 : mean < 70 ? 1 : 2;
  ++seen_[tone];
  if (block.low < kEnds * kUnit || block.high > (100 - kEnds) * kUnit) return;
  // Sums of squares about the best plane: 13 degrees of freedom; the offsets' squares sum to 20.
  const double off = squares - sum * mean - (along_x * along_x + along_y * along_y) / 20;
  const double sigma =
      std::sqrt(std::numbers::pi / 2) / 6 * block.mask_sum / (double(kBlock) * kBlock * kUnit);
  if (off / 13 > kLoose * sigma * sigma / kPixels + kUneven * kUneven) return;
  const auto bin = static_cast<size_t>(std::lround(sigma * 100));
  ++counts_[tone][std::min(bin, kBins - 1)];
}

Noise NoiseMeter::noise() const {
  Noise noise;
  for (size_t tone = 0; tone < 3; ++tone) {
    uint64_t total = 0, below = 0;
    for (uint32_t count : counts_[tone]) total += count;
    if (total < kLeastBlocks || double(total) < kLeastShare * seen_[tone]) continue;
    size_t bin = 0;
    while (below + counts_[tone][bin] <= total / 2) below += counts_[tone][bin++];
    noise.sigma[tone] = double(bin) / 100;
  }
  return noise;
}

}  // namespace proofleaf::condition
