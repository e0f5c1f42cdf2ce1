// What a print is to be, as JSON and back. Reading is strict: a field that is not known, of another
// type or out of its range is an error that names it and says what it may be; a field that is left
// out has the default of its struct.
//
//   size        {"width_mm"|null,"height_mm"|null,"ppi"|null,"crop":{"x","y","width","height"},
//                "ratio_locked","edge":"none"|"bleed_mirrored"|"bleed_extended"|"wrapped","edge_mm",
//                "border_mm","mat_mm","signature_line","signature_place":"left"|"middle"|"right"}
//   sharpening  {"on","amount","radius_mm","threshold","mask","halo"}
//   grain       {"on","size_mm","shadows","mids","highlights","seed"}
//   limits      {"maximum_side_mm","largest_file_bytes","ppi_steps":[..]}
//   plan        {"crop":[x,y,w,h],"width","height","edge","border","mat","sheet_width",
//                "sheet_height","ppi","width_mm","height_mm","sheet_width_mm","sheet_height_mm",
//                "enlargement","effective_ppi","reading_distance_mm","file_bytes","warnings":[..]}
#pragma once

#include "base/json.h"
#include "print/grain.h"
#include "print/sharpen.h"
#include "print/size.h"

namespace proofleaf::print {

Json to_json(const PrintSize& size);
Json to_json(const HouseLimits& limits);
Json to_json(const Sharpening& sharpening);
Json to_json(const Grain& grain);
Json to_json(const PrintPlan& plan);

Result<PrintSize> print_size_from_json(const Json& json);
Result<HouseLimits> house_limits_from_json(const Json& json);
Result<Sharpening> sharpening_from_json(const Json& json);
Result<Grain> grain_from_json(const Json& json);

const char* word_for(PaperClass paper);  // gloss, baryta, matte, canvas
Result<PaperClass> paper_class_of(const std::string& word);

}  // namespace proofleaf::print
