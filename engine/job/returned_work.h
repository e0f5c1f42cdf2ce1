// The print that came back, seen in a photo or a scan, or measured, as work (work.h):
//
//   {"op":"returned","intent","black_point_compensation","recipe","ppi","width","height",
//    "master_width","master_height","corners":[[x,y] x 4]|null,"refine":true,"scan":false,
//    "neutral":[x,y]|null,"mark_mm":1.5,"screen":"srgb"|"p3","paper_white":true}
//                                        needs master (the photo or scan), profile, picture, paper
//      (width, height: the picture's; corners, neutral: shares of the photo, from its upper left;
//      corners: of the print's own upper left, upper right, lower right, lower left)
//      -> {"kind":"returned","name","width","height" (of the photo as shown),"scan_ppi"|null,
//          "profile","assumed","corners":[[x,y] x 4],"match","found":bool,"refined":bool,
//          "light_falls","bend","print_width","print_height",
//          "front":{"width_mm","height_mm","picture":[left,top,right,bottom],
//              "crop":[x,y,w,h] (of the master)},
//          "seen":{..} as sheet/seen.h has it | null where the print was not found,
//          "tones":[[l,off],..],"mixed_light":bool,"shadow_place":[x,y,w,h]|null}
//         buffers: "photo" (screen R, G, B, A, as brought), "print" (the same of the print laid
//         flat and evened, print_width x print_height; where it was found)
//
//   {"op":"returned_readings","intent","black_point_compensation","patches":[..]|null}
//                                        needs profile, paper, readings; patches: as "read_back"
//      Where the readings carry the paper's own device values (CMYK_C.. or RGB_R..), what its
//      profile says of them is the promise; else the strip's patches are.
//      -> as "read_back", without a correction where device values were read
#pragma once

#include "base/json.h"
#include "job/work.h"

namespace proofleaf {

Result<Answer> returned_work(const Json& request, const WorkFiles& files, const Watch& watch);
Result<Answer> returned_readings_work(const Json& request, const WorkFiles& files);

}  // namespace proofleaf
