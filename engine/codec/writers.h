// The two writers behind open_writer(), which has checked what is common to both.
#pragma once

#include <memory>

#include "codec/writer.h"

namespace proofleaf {

Result<std::unique_ptr<ImageWriter>> open_jpeg_writer(const WriteSpec& spec, ByteSink& sink);
Result<std::unique_ptr<ImageWriter>> open_tiff_writer(const WriteSpec& spec, ByteSink& sink);

inline uint32_t channels_of(ColourModel model) {
  return model == ColourModel::grey ? 1 : model == ColourModel::rgb ? 3 : 4;
}

// Checks one call of write8() or write16(): the depth is the spec's, the samples are whole rows,
// and not more rows than the picture has.
Status check_rows(const WriteSpec& spec, uint32_t bits, uint32_t written, size_t samples,
                  uint32_t count);

inline Error too_few_rows() { return Error{"The print file is missing rows of its picture."}; }

}  // namespace proofleaf
