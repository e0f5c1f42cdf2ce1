// The test strip and what came back from it, as JSON. Reading is strict, as in print_json.h.
//
//   sheet       {"width_mm","height_mm","ppi"}
//   places      [{"reason":"deepest"|"brightest"|"off_gamut"|"finest"|"chosen",
//                 "x","y","width","height"},..]                          at most 8, shares 0..1
//   layout      {"width","height","tiles":[{"place","variant","at":[x,y,w,h],"from":[x,y,w,h]},..],
//                "patches":[{"name","lightness","ground","at":[..]},..]}
//   eye         {"first_from_black"|null,"first_from_white"|null}
//   seen        {"black_until","white_from","sentences":[..]}
//   back        {"mean","p95","max","verdict":"good"|"marginal"|"out","sentence",
//                "patches":[{"name","aim":[L,a,b],"measured":[L,a,b],"delta_e"},..]}
//   correction  {"offsets":[[L,dL,da,db],..],"white":[L,a,b],"white_aim":[..],"black":[..],
//                "black_aim":[..],"sentences":[..]}
#pragma once

#include "base/json.h"
#include "print/read_back.h"
#include "print/strip.h"

namespace proofleaf::print {

Json to_json(const StripSheet& sheet);
Json to_json(std::span<const StripPlace> places);
Json to_json(const StripLayout& layout);
Json to_json(const EyeReading& reading);
Json to_json(const EyeFinding& finding);
Json to_json(const ReadBack& back);
Json to_json(const PaperCorrection& correction);

Result<StripSheet> strip_sheet_from_json(const Json& json);
Result<std::vector<StripPlace>> places_from_json(const Json& json);
Result<EyeReading> eye_reading_from_json(const Json& json);
// Offsets rising in L* (-10..110), at least two and at most 200, none past 50 either way.
Result<PaperCorrection> paper_correction_from_json(const Json& json);

}  // namespace proofleaf::print
