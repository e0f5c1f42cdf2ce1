// Corrections as JSON and back; the caller keeps a version beside them.
//
//   correction   {"curve": [[in, out], ...], "shadows": 0, ..., "bands": {"red": {"chroma": 0,
//                "turn": 0}, ...}, "neutral": {"shadows": {"a": 0, "b": 0}, ...}}
//   monochrome   {"on": false, "weights": {"red": 0.2126, ...}, "bands": {"red": 0, ...},
//                "shadows": {"hue": 0, "chroma": 0}, "highlights": {...}, "balance": 0}
//
// Names and ranges are those of correction.h and monochrome.h; what is left out changes nothing.
#pragma once

#include "base/json.h"
#include "fit/monochrome.h"

namespace proofleaf {

Json json_of(const Correction& correction);
Json json_of(const Monochrome& monochrome);

// Error, naming the field: one that is unknown (a newer file is not silently misread), of another
// type, no number, or outside its range; points of the curve in disorder.
Result<Correction> correction_from_json(const Json& json);
Result<Monochrome> monochrome_from_json(const Json& json);

}  // namespace proofleaf
