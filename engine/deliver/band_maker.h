// One band of the master to one band of the print file: converted, dithered, encoded. Several
// makers of the same plan, on threads or in workers, make the same bytes.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "codec/bands.h"
#include "deliver/dither.h"
#include "proof/device_cube.h"

namespace proofleaf {

class BandMaker {
 public:
  // spec: the print file's; its Exif and profile are not used. seed: of the dithering.
  // Error: a spec the container cannot hold.
  static Result<std::unique_ptr<BandMaker>> make(std::shared_ptr<const ProofChain> chain,
                                                 const WriteSpec& spec, uint32_t seed);
  // One more of the same plan, for another thread; it shares what can be shared.
  Result<std::unique_ptr<BandMaker>> another() const;
  // rgb: band_rows(height, band) rows of RGB in the master's space. The answer is for the
  // print file's BandJoiner. Error: pixels of another number, or an encoder that gave up.
  Result<Bytes> make(uint32_t band, PixelView rgb);
  // The same but for the encoding, of an 8-bit spec: device samples as BandEncoder::encode8() takes
  // them, good until the next call.
  Result<std::span<const uint8_t>> device8(uint32_t band, PixelView rgb);
  // How many samples the pixels of a band have; 0 past the last.
  size_t samples_of(uint32_t band) const;

 private:
  BandMaker(std::shared_ptr<const ProofChain> chain, const WriteSpec& spec, const Dither& dither,
            std::shared_ptr<DeviceCube> cube)
      : chain_(std::move(chain)), spec_(spec), dither_(dither), cube_(std::move(cube)) {}
  // Into wide_ or eight_; answers how many rows.
  Result<uint32_t> convert(uint32_t band, PixelView rgb);
  void exactly(std::span<const uint16_t> rgb, std::span<uint16_t> device);
  void wide_row(std::span<const uint16_t> rgb, std::span<uint16_t> device);
  void eight_row(uint32_t y, PixelView rgb, std::span<uint8_t> device);
  // Of 16 bits; good until the next call.
  std::span<const uint16_t> widened(PixelView row);

  std::shared_ptr<const ProofChain> chain_;
  WriteSpec spec_;
  Dither dither_;
  std::shared_ptr<DeviceCube> cube_;  // none for a small picture
  std::unique_ptr<BandEncoder> encoder_;
  std::vector<uint16_t> lanes_, widened_;
  std::vector<uint16_t> wide_;  // these two: four lanes a pixel where there is a cube
  std::vector<uint8_t> eight_;
  std::vector<float> in_, out_;
};

}  // namespace proofleaf
