// Opening what requests name. Internal to this folder.
#pragma once

#include "base/json.h"
#include "colour/profile.h"
#include "job/work.h"
#include "paper/paper.h"
#include "proof/chain.h"
#include "rank/facts.h"
#include "raster/preview.h"
#include "recipe/recipe.h"

namespace proofleaf {

inline constexpr uint64_t kLargestFacts = 64u << 20;       // [bytes]
inline constexpr int64_t kMostPicturePixels = 16'000'000;  // of a preview, or of a part looked at
inline constexpr uint64_t kLargestPicture = uint64_t{kMostPicturePixels} * 6;  // [bytes]

// A side of a picture, or a place along one, [pixels] 0..1048576. Nothing, or no such number: 0.
uint32_t side_of(const Json& request, const char* key);

struct OpenedMaster {
  std::shared_ptr<ByteSource> file;
  std::unique_ptr<Master> master;
  MasterColour colour;
};

Result<Profile> read_profile(ByteSource& source);
Result<OpenedMaster> open_with_colour(const Json& request, const WorkFiles& files);
// The request's standard space, or the paper among the files.
Result<Paper> open_paper(const Json& request, const WorkFiles& files);
// The master's RGB profile among the files. Error: none was given.
Result<Profile> open_master_profile(const WorkFiles& files);
// The preview's 16-bit R, G, B among the files. Error: none was given.
Result<std::vector<uint16_t>> read_picture(const WorkFiles& files);
// The same with the request's "width" and "height", which may not agree with it.
Result<Picture> read_preview_picture(const Json& request, const WorkFiles& files);
Result<PrintIntent> print_of(const Json& request);
// The master's profile, the paper and the way of printing on it.
struct MasterOnPaper {
  Profile master;
  Paper paper;
  PrintIntent print;
};
Result<MasterOnPaper> open_on_paper(const Json& request, const WorkFiles& files);
// The rows of a preview to be made out of them with `factor`.
struct PreviewRows {
  std::unique_ptr<RowSource> rows;
  uint32_t factor = 1;
};
// For a whole master as means of its pixels, upright, at most `most` of them, in its RGB profile.
Result<PreviewRows> preview_rows(OpenedMaster& opened, uint64_t most);
// The same, made.
Result<Picture> read_preview(OpenedMaster& opened, uint64_t most, const Watch& watch);
// A whole master from the top, upright, in its RGB profile.
Result<std::unique_ptr<RowSource>> master_rows(OpenedMaster& opened);
// What the recipe's local contrast needs to know of the master; empty where it has none.
Result<std::shared_ptr<const LocalContrast>> contrast_guide(OpenedMaster& opened,
                                                            const Recipe& recipe,
                                                            const Watch& watch);
// The master's rows as the recipe makes them ready for print (recipe/recipe.h). ppi: of a recipe
// without a size.
Result<std::unique_ptr<RowSource>> prepared_master(OpenedMaster& opened, const Recipe& recipe,
                                                   double ppi, const Watch& watch);
// What is known of the picture, among the files. Error: none were given, or they are damaged.
Result<Bytes> read_packed_facts(const WorkFiles& files);
Result<PictureFacts> read_facts(const WorkFiles& files);
// The request's "recipe", one that changes nothing where there is none.
Result<Recipe> recipe_of(const Json& request);

}  // namespace proofleaf
