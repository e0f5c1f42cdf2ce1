#include "job/contrast_work.h"

#include "raster/picture_rows.h"

namespace proofleaf {
namespace {

constexpr uint64_t kLargestGuide = uint64_t{kGuideSide} * kGuideSide * 8 + 8;  // [bytes]

}  // namespace

Result<std::shared_ptr<const LocalContrast>> read_guide(const WorkFiles& files) {
  if (!files.guide) return Error{"No guide of the local contrast was given."};
  auto bytes = read_all(*files.guide, kLargestGuide);
  if (!bytes) return bytes.error();
  auto guide = unpack_local_contrast(bytes.value());
  if (!guide) return guide.error();
  return std::make_shared<const LocalContrast>(guide.take());
}

Result<std::vector<uint16_t>> with_local_contrast(const Picture& picture, const Profile& master,
                                                  std::shared_ptr<const LocalContrast> guide,
                                                  double amount, PicturePart part,
                                                  const Watch& watch) {
  auto rows =
      local_contrast_rows(std::make_unique<PictureRows>(picture.rgb, picture.width, picture.height),
                          master, std::move(guide), amount, part);
  if (!rows) return rows.error();
  auto changed = cut(*rows.value(), 0, 0, picture.width, picture.height, watch);
  if (!changed) return changed.error();
  return std::move(changed.take().rgb);
}

Result<Answer> local_contrast_work(const Json& request, const WorkFiles& files,
                                   const Watch& watch) {
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto preview = read_preview_picture(request, files);
  if (!preview) return preview.error();
  const Picture& picture = preview.value();
  const double amount = number_of(request, "amount", 0);
  auto found = find_local_contrast(master.value(), picture, watch);
  if (!found) return found.error();
  Bytes packed = pack_local_contrast(found.value());
  auto guide = std::make_shared<const LocalContrast>(found.take());
  auto changed = with_local_contrast(picture, master.value(), guide, amount, {}, watch);
  if (!changed) return changed.error();
  return Answer{dump_json({{"kind", "local_contrast"},
                           {"width", picture.width},
                           {"height", picture.height},
                           {"amount", amount}}),
                {{"picture", bytes_of(changed.value())}, {"guide", std::move(packed)}}};
}

}  // namespace proofleaf
