// A picture at another number of pixels.
//
// Windowed sinc, Lanczos with three lobes (C. E. Duchon, "Lanczos filtering in one and two
// dimensions", J. Appl. Meteorol. 18, 1979): sinc(t) sinc(t/3) for |t| < 3, across and then down,
// on linear light, so that fine detail keeps its mean brightness. On reduction the kernel is
// widened by the reduction. Past the edges the last pixel goes on.
//
// Ringing: in each direction no value leaves the span of the pixels under the kernel's middle lobe
// (the two neighbours, on enlargement) by more than kRinging of their light: at most 2 L* in the
// highlights, less below.
#pragma once

#include "print/light.h"
#include "raster/rows.h"

namespace proofleaf::print {

inline constexpr float kRinging = 0.05f;

// sinc(t) sinc(t/3) within |t| < 3, else 0.
double lanczos3(double t);

// rows: three channels in the numbers `light` is of. The size it has already is handed back as it
// is. Holds 6 rows of the new width (6 times the reduction). Error: a side of zero.
Result<std::unique_ptr<RowSource>> resampled(std::unique_ptr<RowSource> rows, const Light& light,
                                             uint32_t width, uint32_t height);

// A whole-pixel part of a picture. The whole of it is handed back as it is. Error: it does not lie
// inside.
Result<std::unique_ptr<RowSource>> cropped(std::unique_ptr<RowSource> rows, uint32_t x, uint32_t y,
                                           uint32_t width, uint32_t height);

}  // namespace proofleaf::print
