// Local contrast: what stands out from its surroundings stands out more, or less.
//
// An edge-keeping base of L* (guided_filter.h) is found once, in a picture of at most kGuideSide
// pixels a side, as a line base = scale * L* + offset at each of its pixels. At any size the lines
// are looked up by place in the picture and asked with that size's own L*, so that preview, crop
// and delivery get the same look.
//
//   detail = L* - base,   L*' = L* + amount / 100 * detail / (1 + |detail| / kMostDetail)
//
// fading out over the last 8 L* at white and black. The new lightness is reached by scaling linear
// light, which keeps hue and saturation; no channel is pushed past its end.
#pragma once

#include "base/bytes.h"
#include "base/watch.h"
#include "colour/profile.h"
#include "fit/guided_filter.h"
#include "raster/preview.h"

namespace proofleaf {

inline constexpr uint32_t kGuideSide = 256;
inline constexpr double kMostDetail = 10;  // [L*] no pixel's L* changes by more at full amount
// Along the flat sides of a step between two tones, of whatever height, L* passes the tone beside
// it by no more than this at full amount.
inline constexpr double kMostHalo = 3;  // [L*]

using LocalContrast = GuidedPlane;

// preview: the whole picture, small or large, in the profile `master`. Error: an empty picture, a
// profile that is not RGB or cannot be used, stopped.
Result<LocalContrast> find_local_contrast(const Profile& master, const Picture& preview,
                                          const Watch& watch);

// L* and what it becomes under a line of the guide. amount: -100..100.
double with_local_contrast(double l, double scale, double offset, double amount);

// The part of the whole picture some rows show [0..1].
struct PicturePart {
  double left = 0, top = 0, width = 1, height = 1;
};

// rows with more (amount above 0) or less local contrast; amount 0 gives `rows` themselves back.
// 16-bit RGB in and out, some 30 megapixels a second on one core. Error: rows that are not RGB, an
// empty guide, an amount outside -100..100, a profile that cannot be used.
Result<std::unique_ptr<RowSource>> local_contrast_rows(std::unique_ptr<RowSource> rows,
                                                       const Profile& master,
                                                       std::shared_ptr<const LocalContrast> guide,
                                                       double amount, PicturePart part = {});

// For passing between workers, in this machine's byte order. Error on reading: not such a guide, or
// a length that does not fit.
Bytes pack_local_contrast(const LocalContrast& guide);
Result<LocalContrast> unpack_local_contrast(ByteView bytes);

}  // namespace proofleaf
