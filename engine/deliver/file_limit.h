// A JPEG that a print house takes: the highest quality under a limit of bytes.
#pragma once

#include "base/bytes.h"
#include "codec/writer.h"
#include "proof/chain.h"
#include "raster/rows.h"

namespace proofleaf {

inline constexpr int kLeastQuality = 50;  // below it prints show the blocks; common practice

// Encodes up to 24 bands spread evenly over the print (all of them where there are no more, which
// is exact) at halved intervals of quality. What is not encoded is estimated from its neighbours,
// with three standard errors to spare, by successive differences (Wolter, "Introduction to Variance
// Estimation", 1985, chapter on systematic samples, from memory).
// rows: the print's, in the master's space. spec: of a JPEG; its quality is the highest tried.
// seed: of the dithering. limit: [bytes] of the whole file. Answers the quality, spec.quality at
// most; the same without any encoding where the limit is far above what any quality gives. Error:
// too large even at kLeastQuality (or at spec.quality, where that is lower), or a damaged master.
Result<int> quality_within(RowSource& rows, std::shared_ptr<const ProofChain> chain,
                           const WriteSpec& spec, uint32_t seed, uint64_t limit);

// "20 MB", for messages.
std::string in_megabytes(uint64_t bytes);

}  // namespace proofleaf
