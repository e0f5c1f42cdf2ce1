// The three containers behind open_master(); each has been recognised by its first bytes.
#pragma once

#include <memory>

#include "codec/exif.h"
#include "codec/master.h"

namespace proofleaf {

Result<std::unique_ptr<Master>> open_jpeg(std::shared_ptr<ByteSource> source);
Result<std::unique_ptr<Master>> open_png(std::shared_ptr<ByteSource> source);
Result<std::unique_ptr<Master>> open_tiff(std::shared_ptr<ByteSource> source);

// Copies what Exif says into info: orientation, colour space, traces, and the resolution unless the
// container has said one itself.
void take_exif(const ExifTree& tree, MasterInfo& info);

// Turns width and height into those of the upright picture.
void stand_upright(MasterInfo& info);

}  // namespace proofleaf
