// Pixels remembered while a delivery is written, and looked up in it afterwards.
#pragma once

#include <span>
#include <vector>

#include "deliver/deliver.h"

namespace proofleaf {

class PromisedPixels {
 public:
  // Spreads about kSamples places evenly over the picture.
  PromisedPixels(uint32_t width, uint32_t height);
  // Takes note of the master's colours in rows first .. first+count-1.
  void note(uint32_t first, uint32_t count, PixelView rgb);
  // Decodes the written file through the profile embedded in it and compares with the exact chain.
  // reopen: gives it once for each thread that reads it; a second one reads the lower half.
  // Error: it cannot be read, has another size or profile, or shows other colours than promised.
  Result<DeliveryCheck> compare(const Reopen& reopen, const Paper& paper, const ProofChain& chain,
                                const DeliverySettings& settings, const Watch& watch) const;

 private:
  // Where the places lie on the paper by the exact chain.
  std::vector<Lab> promised_labs(const Paper& paper, const ProofChain& chain) const;
  uint32_t sampled_rows() const { return (height_ + step_ - 1) / step_; }
  // The written file's device values 0..1 at the places of its sampled rows first .. last - 1.
  Result<std::vector<float>> found_in(RowSource& rows, uint32_t first, uint32_t last,
                                      const Watch& watch) const;
  // At all places. lower: the same rows opened once more, or none.
  Result<std::vector<float>> all_found(RowSource& rows, RowSource* lower, const Watch& watch) const;

  uint32_t width_, height_, step_;
  std::vector<uint16_t> rgb_;  // three to a place, in reading order
};

}  // namespace proofleaf
