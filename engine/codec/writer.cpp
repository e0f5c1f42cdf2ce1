#include "codec/writer.h"

#include "codec/limits.h"
#include "codec/writers.h"

namespace proofleaf {

Status check_rows(const WriteSpec& spec, uint32_t bits, uint32_t written, size_t samples,
                  uint32_t count) {
  if (bits != spec.bits) return Error{"The rows do not have the print file's bit depth."};
  if (samples != size_t{count} * spec.width * channels_of(spec.model)) {
    return Error{"The rows do not have the print file's width."};
  }
  if (count > spec.height - written) {
    return Error{"There are more rows than the print file is high."};
  }
  return done();
}

Result<std::unique_ptr<ImageWriter>> open_writer(const WriteSpec& spec, ByteSink& sink) {
  if (Status ok = check_dimensions("The print file", spec.width, spec.height); !ok) {
    return ok.error();
  }
  if (!(spec.ppi >= 1 && spec.ppi <= 65535)) {
    return Error{"A print file needs between 1 and 65,535 pixels per inch."};
  }
  if (spec.icc.size() > kLargestProfile) return Error{"The profile is too large to be embedded."};
  switch (spec.container) {
    case Container::jpeg:
      return open_jpeg_writer(spec, sink);
    case Container::tiff:
      return open_tiff_writer(spec, sink);
    default:
      return Error{"A print file is a JPEG or a TIFF."};
  }
}

}  // namespace proofleaf
