// What a photo or a scan of a returned print told, as a job keeps it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/json.h"
#include "returned/compare.h"

namespace proofleaf {

struct JobSeen {
  std::string name;  // of the photo's file; not empty
  bool scan = false;
  double match = 0;  // 0..1
  returned::SizeFound size;
  returned::CastFound cast;
  returned::ShadowFound shadow;  // its steps are not kept
  returned::MarksFound marks;
};
// {"name","scan","match",
//  "size":{"verdict","wider","wider_within","width_mm"|null,"height_mm"|null,
//      "cut":[mm|null x 4],"cut_within"},
//  "cast":{"verdict","white":"border"|"neutral"|"none","mixed_light","largest",
//      "greys":[{"l","a","b","share"} x 3]},
//  "shadow":{"verdict","closed_until"|null},
//  "marks":{"verdict","least_mm","glare","marks":[{"kind":"spot"|"scratch"|"band","x","y","w","h",
//      "length_mm","width_mm","contrast"},..]}}, verdicts "fine", "look", "wrong", "untold"
Json json_of(const JobSeen& seen);
// Strict as a job is (job.h).
Result<JobSeen> seen_from_json(const Json& json);

}  // namespace proofleaf
