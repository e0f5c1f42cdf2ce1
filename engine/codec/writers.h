// The two containers behind bands.h; open_band_encoder() and open_band_joiner() have checked what
// is common to both.
#pragma once

#include <memory>

#include "codec/bands.h"

namespace proofleaf {

Result<std::unique_ptr<BandEncoder>> open_jpeg_encoder(const WriteSpec& spec);
Result<std::unique_ptr<BandJoiner>> open_jpeg_joiner(const WriteSpec& spec, ByteSink& sink);
Result<std::unique_ptr<BandEncoder>> open_tiff_encoder(const WriteSpec& spec);
Result<std::unique_ptr<BandJoiner>> open_tiff_joiner(const WriteSpec& spec, ByteSink& sink);

inline uint32_t channels_of(ColourModel model) {
  return model == ColourModel::grey ? 1 : model == ColourModel::rgb ? 3 : 4;
}

// 8-bit samples without the lanes that do not count, in `room` if there were any.
std::span<const uint8_t> without_spare_lanes(const WriteSpec& spec,
                                             std::span<const uint8_t> samples, uint32_t rows,
                                             std::vector<uint8_t>& room);

inline Error too_few_rows() { return Error{"The print file is missing rows of its picture."}; }
inline Error too_many_rows() { return Error{"There are more rows than the print file is high."}; }
inline Error no_jpeg_depth() { return Error{"A JPEG holds 8 bits per channel."}; }
inline Error other_depth() { return Error{"The rows do not have the print file's bit depth."}; }

}  // namespace proofleaf
