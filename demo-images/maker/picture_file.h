// Scenes into files.
#pragma once

#include <string>

#include "base/bytes.h"
#include "raster/rows.h"

namespace proofleaf::demo {

enum class FileKind { png, tiff, jpeg };

struct PictureSpec {
  FileKind kind = FileKind::png;
  uint32_t bits = 16;  // 8, or 16 with PNG and TIFF
  Bytes icc;           // embedded as it is
};

// Writes a new file, a strip of rows at a time; never overwrites. Grey or RGB rows.
// Error: the name is taken, the disk refuses, or the kind cannot hold the spec.
Status write_picture(RowSource& rows, const PictureSpec& spec, const std::string& path);

// Writes bytes as a new file. Error: the name is taken or the disk refuses.
Status write_bytes(ByteView bytes, const std::string& path);

}  // namespace proofleaf::demo
