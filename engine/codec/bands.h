// A print file in bands: each band of rows is encoded apart from the others, in any order and by as
// many workers as there are, and the bands are joined from the top down. The joined file depends on
// the picture alone, not on who encoded what.
//
// JPEG: a restart interval (ITU-T T.81 section E.1.4) is one band, so every band is a run of coded
// data of its own. TIFF: a band is some whole strips.
#pragma once

#include <memory>
#include <span>

#include "codec/writer.h"

namespace proofleaf {

// A multiple of every block height JPEG has here (8 and 16), and so low that the widest band
// (65,500 pixels) has no more than the 65,535 blocks a restart interval may have.
inline constexpr uint32_t kBandRows = 32;

// Encodes bands one at a time; keeps no picture between them.
class BandEncoder {
 public:
  virtual ~BandEncoder() = default;
  // count whole rows of interleaved samples: kBandRows, or for the last band what is left. They
  // may stand in four lanes a pixel, of which the model's first ones count. 16-bit samples in host
  // byte order; CMYK: 0 = no ink. The answer is for a BandJoiner of the same spec.
  // Error: samples of another depth or size, or no memory.
  virtual Result<Bytes> encode8(std::span<const uint8_t> samples, uint32_t count) = 0;
  virtual Result<Bytes> encode16(std::span<const uint16_t> samples, uint32_t count) = 0;
};

// Puts encoded bands into a sink; it holds a whole file only after finish() returned done().
class BandJoiner {
 public:
  virtual ~BandJoiner() = default;
  // The next band from the top. Error: one too many, a damaged band, or the sink's own.
  virtual Status join(ByteView band) = 0;
  // Error: bands are missing, or the sink's own.
  virtual Status finish() = 0;
};

// Error: a spec the container cannot hold (16-bit JPEG, a side too long, a profile too large).
Result<std::unique_ptr<BandEncoder>> open_band_encoder(const WriteSpec& spec);
Result<std::unique_ptr<BandJoiner>> open_band_joiner(const WriteSpec& spec, ByteSink& sink);

inline uint32_t bands_in(uint32_t height) { return (height + kBandRows - 1) / kBandRows; }
inline uint32_t band_rows(uint32_t height, uint32_t band) {
  const uint32_t left = height - band * kBandRows;
  return left < kBandRows ? left : kBandRows;
}

}  // namespace proofleaf
