#include "job/opening.h"

#include <cstring>

#include "proof/words.h"

namespace proofleaf {
namespace {

// The largest power of two up to 8 that the container's own reduced decoding may take off.
uint32_t container_shrink(uint32_t factor) {
  for (uint32_t shrink : {8u, 4u, 2u}) {
    if (factor % shrink == 0) return shrink;
  }
  return 1;
}

constexpr uint64_t kGuidePixels = 2'000'000;  // as the page's preview

}  // namespace

uint32_t side_of(const Json& request, const char* key) {
  constexpr int64_t kLargestSide = 1 << 20;
  return static_cast<uint32_t>(whole_of(request, key, 0, 0, kLargestSide));
}

Result<Profile> read_profile(ByteSource& source) {
  auto bytes = read_all(source, kLargestProfileFile);
  if (!bytes) return bytes.error();
  return Profile::open(bytes.take(), source.name());
}

Result<OpenedMaster> open_with_colour(const Json& request, const WorkFiles& files) {
  if (!files.master) return Error{"No master was given."};
  OpenedMaster opened;
  opened.file = files.master;
  auto master = open_master(files.master);
  if (!master) return master.error();
  opened.master = master.take();
  Profile assume;
  if (files.assume) {
    auto profile = read_profile(*files.assume);
    if (!profile) return profile.error();
    assume = profile.take();
  }
  auto colour = master_colour(opened.master->info(), files.master->name(),
                              text_of(request, "assume"), assume);
  if (!colour) return colour.error();
  opened.colour = colour.take();
  return opened;
}

Result<Paper> open_paper(const Json& request, const WorkFiles& files) {
  if (const std::string space = text_of(request, "space"); !space.empty()) {
    auto profile = standard_profile(space);
    if (!profile) return profile.error();
    return paper_from_profile(profile.take(), space);
  }
  if (!files.paper) return Error{"No paper was given."};
  auto bytes = read_all(*files.paper, kLargestProfileFile);
  if (!bytes) return bytes.error();
  return read_paper(bytes.take(), files.paper->name());
}

Result<Profile> open_master_profile(const WorkFiles& files) {
  if (!files.profile) return Error{"No master profile was given."};
  return read_profile(*files.profile);
}

Result<std::vector<uint16_t>> read_picture(const WorkFiles& files) {
  if (!files.picture) return Error{"No picture was given."};
  auto bytes = read_all(*files.picture, kLargestPicture);
  if (!bytes) return bytes.error();
  std::vector<uint16_t> rgb(bytes.value().size() / 2);
  if (!rgb.empty()) std::memcpy(rgb.data(), bytes.value().data(), rgb.size() * 2);
  return rgb;
}

Result<Picture> read_preview_picture(const Json& request, const WorkFiles& files) {
  auto rgb = read_picture(files);
  if (!rgb) return rgb.error();
  return Picture{side_of(request, "width"), side_of(request, "height"), rgb.take()};
}

Result<PrintIntent> print_of(const Json& request) {
  const std::string word = text_of(request, "intent", "relative");
  const auto intent = intent_of(word);
  if (!intent) return Error{"There is no rendering intent called {}.", word};
  return PrintIntent{*intent, flag_of(request, "black_point_compensation", true)};
}

Result<MasterOnPaper> open_on_paper(const Json& request, const WorkFiles& files) {
  auto print = print_of(request);
  if (!print) return print.error();
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto paper = open_paper(request, files);
  if (!paper) return paper.error();
  return MasterOnPaper{master.take(), paper.take(), print.value()};
}

Result<PreviewRows> preview_rows(OpenedMaster& opened, uint64_t most) {
  const MasterInfo& info = opened.master->info();
  const uint32_t factor = shrink_factor(info.width, info.height, most);
  auto file_rows = opened.master->open_rows(container_shrink(factor));
  if (!file_rows) return file_rows.error();
  auto rows = as_rgb(file_rows.take(), info, opened.colour);
  if (!rows) return rows.error();
  const RowFormat format = rows.value()->format();
  return PreviewRows{rows.take(), shrink_factor(format.width, format.height, most)};
}

Result<Picture> read_preview(OpenedMaster& opened, uint64_t most, const Watch& watch) {
  auto found = preview_rows(opened, most);
  if (!found) return found.error();
  return shrink(*found.value().rows, found.value().factor, watch);
}

Result<std::unique_ptr<RowSource>> master_rows(OpenedMaster& opened) {
  auto file_rows = opened.master->open_rows();
  if (!file_rows) return file_rows.error();
  return as_rgb(file_rows.take(), opened.master->info(), opened.colour);
}

Result<std::shared_ptr<const LocalContrast>> contrast_guide(OpenedMaster& opened,
                                                            const Recipe& recipe,
                                                            const Watch& watch) {
  if (recipe.correction.local_contrast == 0) return std::shared_ptr<const LocalContrast>();
  auto preview = read_preview(opened, kGuidePixels, watch);
  if (!preview) return preview.error();
  auto found = find_local_contrast(opened.colour.profile, preview.value(), watch);
  if (!found) return found.error();
  return std::make_shared<const LocalContrast>(found.take());
}

Result<std::unique_ptr<RowSource>> prepared_master(OpenedMaster& opened, const Recipe& recipe,
                                                   double ppi, const Watch& watch) {
  auto guide = contrast_guide(opened, recipe, watch);
  if (!guide) return guide.error();
  auto rows = master_rows(opened);
  if (!rows) return rows.error();
  return prepared_rows(rows.take(), opened.colour.profile, recipe, guide.take(), ppi);
}

Result<Bytes> read_packed_facts(const WorkFiles& files) {
  if (!files.facts) return Error{"The picture has not been looked at yet."};
  return read_all(*files.facts, kLargestFacts);
}

Result<PictureFacts> read_facts(const WorkFiles& files) {
  auto bytes = read_packed_facts(files);
  if (!bytes) return bytes.error();
  return unpack_facts(bytes.value());
}

Result<Recipe> recipe_of(const Json& request) {
  const Json* recipe = member(request, "recipe");
  if (recipe == nullptr || recipe->is_null()) return Recipe{};
  return recipe_from_json(*recipe);
}

}  // namespace proofleaf
