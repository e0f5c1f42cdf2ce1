#include "print/recipe_stages.h"

namespace proofleaf::print {
namespace {

Result<std::unique_ptr<RowSource>> join(std::unique_ptr<RowSource> rows, const Light& light,
                                        const PrintPlan& plan, const Sharpening& sharpening,
                                        const Grain& grain, PaperClass paper) {
  const PixelRect& crop = plan.crop;
  auto stage = cropped(std::move(rows), crop.x, crop.y, crop.width, crop.height);
  if (!stage) return stage;
  stage = resampled(stage.take(), light, plan.width, plan.height);
  if (!stage) return stage;
  stage = sharpened(stage.take(), light, plan.ppi, sharpening, paper);
  if (!stage) return stage;
  return grained(stage.take(), light, plan.ppi, grain);
}

}  // namespace

Result<std::unique_ptr<RowSource>> prepared_picture(std::unique_ptr<RowSource> rows,
                                                    const Profile& master_profile,
                                                    const PrintPlan& plan,
                                                    const Sharpening& sharpening,
                                                    const Grain& grain, PaperClass paper) {
  auto light = Light::of(master_profile);
  if (!light) return light.error();
  return join(std::move(rows), light.value(), plan, sharpening, grain, paper);
}

Result<std::unique_ptr<RowSource>> prepared(std::unique_ptr<RowSource> rows,
                                            const Profile& master_profile, const PrintPlan& plan,
                                            const Sharpening& sharpening, const Grain& grain,
                                            PaperClass paper) {
  auto light = Light::of(master_profile);
  if (!light) return light.error();
  auto picture = join(std::move(rows), light.value(), plan, sharpening, grain, paper);
  if (!picture) return picture;
  return bordered(picture.take(), light.value(), plan);
}

}  // namespace proofleaf::print
