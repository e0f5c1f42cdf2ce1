// What a JPEG's marker segments say before the picture's own data: JFIF 1.02 density, Exif (APP1),
// ICC profile chunks (APP2, ICC.1:2022 annex B.4). Read apart from libjpeg, which would keep
// whatever a hostile file puts there.
#pragma once

#include <functional>
#include <memory>
#include <optional>

#include "codec/block_reader.h"

namespace proofleaf {

struct JpegMarkers {
  std::optional<double> ppi;    // from JFIF, units 1 (per inch) or 2 (per centimetre)
  Bytes exif;                   // from "II*\0" or "MM\0*" on; empty if none
  Bytes icc;                    // empty if none
  bool icc_incomplete = false;  // chunks of a profile are there, but not all, or too many bytes
};

JpegMarkers read_markers(BlockReader& reader);

// A segment's marker byte, and where what it says begins [bytes] and how long that is.
using SegmentSeen = std::function<void(uint8_t marker, uint64_t at, size_t length)>;

// The segments before the picture's own data, in their order; stops at the first that makes no
// sense.
void walk_segments(BlockReader& reader, const SegmentSeen& seen);

}  // namespace proofleaf
