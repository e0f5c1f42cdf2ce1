// The bounds master.h promises, in one place.
#pragma once

#include <cstdint>
#include <string>

#include "base/result.h"

namespace proofleaf {

inline constexpr uint32_t kLongestSide = 65500;                // [pixels] libjpeg's own bound
inline constexpr uint64_t kMostPixels = 600'000'000;           // [pixels]
inline constexpr size_t kLargestProfile = size_t{16} << 20;    // [bytes]
inline constexpr size_t kLargestExif = size_t{1} << 20;        // [bytes]
inline constexpr size_t kLargestUnit = size_t{64} << 20;       // [bytes] one decoded row or tile
inline constexpr size_t kLargestBand = size_t{256} << 20;      // [bytes] one row of decoded tiles
inline constexpr size_t kLargestWhole = size_t{512} << 20;     // [bytes] an interlaced PNG
inline constexpr size_t kProgressiveMemory = size_t{1} << 30;  // [bytes] a progressive JPEG
inline constexpr size_t kReadBlock = size_t{256} << 10;        // [bytes] one look into the source

// Error: a side of zero, a side or an area past the bounds above.
Status check_dimensions(const std::string& name, uint64_t width, uint64_t height);
// Error: a file of `size` bytes cannot hold a picture that takes at least `least`, however well it
// is compressed. Asked before anything is decoded or any memory is taken for it.
Status check_length(const std::string& name, uint64_t size, uint64_t least);

}  // namespace proofleaf
