#include "job/open_work.h"

#include "proof/words.h"
#include "raster/working_size.h"

namespace proofleaf {

Result<Answer> open_work(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto opening = Opening::begin(request, files);
  if (!opening) return opening.error();
  while (!opening.value()->finished()) {
    if (!keep_going(watch, opening.value()->share())) return stopped();
    if (Status got = opening.value()->step(); !got) return got.error();
  }
  return opening.value()->answer();
}

Result<std::unique_ptr<Opening>> Opening::begin(const Json& request, const WorkFiles& files) {
  auto opened = open_with_colour(request, files);
  if (!opened) return opened.error();
  auto opening = std::make_unique<Opening>();
  opening->opened_ = opened.take();
  const int64_t most =
      whole_of(request, "preview_pixels", kUsualWorkingPixels, 1, kMostPicturePixels);
  auto rows = preview_rows(opening->opened_, static_cast<uint64_t>(most));
  if (!rows) return rows.error();
  opening->rows_ = rows.take();
  opening->shrinking_.emplace(*opening->rows_.rows, opening->rows_.factor);
  return opening;
}

Result<Answer> Opening::answer() {
  if (Status same = opened_.file->unchanged(); !same) return same.error();
  const Picture preview = shrinking_->take();
  const MasterInfo& info = opened_.master->info();
  const MasterColour& colour = opened_.colour;
  Json notes = info.notes;
  if (!colour.note.empty()) notes.push_back(colour.note);
  const Json json{{"kind", "master"},
                  {"name", opened_.file->name()},
                  {"width", info.width},
                  {"height", info.height},
                  {"preview_width", preview.width},
                  {"preview_height", preview.height},
                  {"bits", info.bits},
                  {"model", word_for(info.model)},
                  {"container", word_for(info.container)},
                  {"profile", colour.title},
                  {"assumed", colour.assumed},
                  {"ppi", info.ppi ? Json(*info.ppi) : Json()},
                  {"notes", notes},
                  {"private",
                   {{"place", info.traces.place},
                    {"serial", info.traces.serial},
                    {"owner", info.traces.owner}}}};
  return Answer{dump_json(json),
                {{"preview", bytes_of(preview.rgb)}, {"profile", colour.profile.bytes()}}};
}

}  // namespace proofleaf
