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

// Samples without the lanes that do not count, in `room` if there were any.
template <class Sample>
std::span<const Sample> without_spare_lanes(const WriteSpec& spec, std::span<const Sample> samples,
                                            uint32_t rows, std::vector<Sample>& room) {
  const size_t pixels = size_t{spec.width} * rows, channels = channels_of(spec.model);
  if (channels == 4 || samples.size() != pixels * 4) return samples;
  room.resize(pixels * channels);
  for (size_t i = 0; i < pixels; ++i) {
    for (size_t c = 0; c < channels; ++c) room[i * channels + c] = samples[i * 4 + c];
  }
  return room;
}

inline Error too_few_rows() { return Error{"The print file is missing rows of its picture."}; }
inline Error too_many_rows() { return Error{"There are more rows than the print file is high."}; }
inline Error no_jpeg_depth() { return Error{"A JPEG holds 8 bits per channel."}; }
inline Error other_depth() { return Error{"The rows do not have the print file's bit depth."}; }

}  // namespace proofleaf
