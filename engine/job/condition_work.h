// The condition report as work (work.h):
//
//   {"op":"condition","assume","print_width_mm":mm,"dust_mm":0.5}          needs master
//      ->
//      {"kind":"condition","width","height","print_ppi","print_width_mm"|null,"dust_mm","dust_px",
//          "counts":{"act","look","good"},
//          "findings":[{"id","severity","variant","title","value"|null,"unit","what","why","do",
//                       "places":[[x,y,w,h],..],"numbers":{..},"sides":[..] (edges only)},..],
//          "unsaid":[{"id","title","what"},..],
//          "dust":[{"x","y","diameter","contrast"},..],
//          "print_sizes":[{"ppi","width_cm","height_cm","width_in","height_in","distance_cm"},..]}
#pragma once

#include "base/json.h"
#include "job/work.h"

namespace proofleaf {

Result<Answer> condition_work(const Json& request, const WorkFiles& files, const Watch& watch);

}  // namespace proofleaf
