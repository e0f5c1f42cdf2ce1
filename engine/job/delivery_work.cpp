#include "job/delivery_work.h"

#include "job/words.h"

namespace proofleaf {
namespace {

constexpr int64_t kLongestSide = 65500;  // [pixels]

Result<DeliverySettings> settings_of(const Json& request) {
  auto print = print_of(request);
  if (!print) return print.error();
  const std::string format = text_of(request, "format", "jpeg");
  const auto container = print_container_of(format);
  if (!container) return Error{"A print file is a JPEG or a TIFF, not " + format + "."};
  DeliverySettings settings;
  settings.print = print.value();
  settings.container = *container;
  settings.bits = static_cast<uint32_t>(whole_of(request, "bits", 8, 1, 64));
  settings.quality = static_cast<int>(whole_of(request, "quality", 95, 1, 100));
  settings.full_colour_detail = flag_of(request, "full_colour_detail", true);
  settings.ppi = number_of(request, "ppi", 300);
  settings.keep_private = flag_of(request, "keep_private", false);
  settings.seed = static_cast<uint32_t>(whole_of(request, "seed", 1, 0, UINT32_MAX));
  return settings;
}

Result<Answer> answer_for(const Delivery& file, const std::string& more) {
  return Answer{dump_json({{"kind", "delivered"},
                           {"width", file.width},
                           {"height", file.height},
                           {"bytes", file.bytes},
                           {"mean", file.check.mean},
                           {"p95", file.check.p95},
                           {"max", file.check.max},
                           {"samples", file.check.samples},
                           {"sentence", file.sentence + more}}),
                {}};
}

constexpr uint64_t kGuidePixels = 2'000'000;  // as the page's preview

// A recipe that changes colours alone costs nothing: they are corrected on the way to the paper.
Result<PrintSource> source_of(OpenedMaster& opened, const Recipe& recipe,
                              DeliverySettings& settings, const Watch& watch) {
  PrintSource source;
  const Profile& profile = opened.colour.profile;
  if (!changes_pixels(recipe)) {
    auto before = colours_of(recipe, profile);
    if (!before) return before.error();
    source.before = before.take();
    return source;
  }
  const MasterInfo& info = opened.master->info();
  auto plan = plan_of(recipe, info.width, info.height, settings.ppi);
  if (!plan) return plan.error();
  settings.ppi = plan.value().ppi;
  std::shared_ptr<const LocalContrast> guide;
  if (recipe.correction.local_contrast != 0) {
    auto preview = read_preview(opened, kGuidePixels, watch);
    if (!preview) return preview.error();
    auto found = find_local_contrast(profile, preview.value(), watch);
    if (!found) return found.error();
    guide = std::make_shared<const LocalContrast>(found.take());
  }
  auto file_rows = opened.master->open_rows();
  if (!file_rows) return file_rows.error();
  auto rows = as_rgb(file_rows.take(), info, opened.colour);
  if (!rows) return rows.error();
  auto ready = prepared_rows(rows.take(), profile, recipe, std::move(guide), settings.ppi);
  if (!ready) return ready.error();
  source.rows = ready.take();
  return source;
}

Error nowhere() { return Error{"There is nowhere to write the file to."}; }

}  // namespace

Result<Answer> delivery(const Json& request, const WorkFiles& files, const Watch& watch) {
  auto settings = settings_of(request);
  if (!settings) return settings.error();
  auto opened = open_with_colour(request, files);
  if (!opened) return opened.error();
  auto paper = open_paper(request, files);
  if (!paper) return paper.error();
  if (files.sink == nullptr || !files.reopen) return nowhere();
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  auto source = source_of(opened.value(), recipe.value(), settings.value(), watch);
  if (!source) return source.error();
  auto delivered = deliver(*opened.value().master, opened.value().colour, paper.value(),
                           settings.value(), *files.sink, files.reopen, watch, source.take());
  if (!delivered) return delivered.error();
  return answer_for(delivered.value(), "");
}

Result<std::unique_ptr<SharedDelivery>> SharedDelivery::open(const std::string& request,
                                                             const WorkFiles& files) {
  Json json = parse_json(request);
  auto settings = settings_of(json);
  if (!settings) return settings.error();
  auto opened = open_with_colour(json, files);
  if (!opened) return opened.error();
  auto paper = open_paper(json, files);
  if (!paper) return paper.error();
  if (files.sink == nullptr || !files.reopen) return nowhere();
  std::unique_ptr<SharedDelivery> shared(new SharedDelivery);
  shared->opened_ = opened.take();
  shared->paper_ = paper.take();
  shared->seed_ = settings.value().seed;
  shared->reopen_ = files.reopen;
  auto recipe = recipe_of(json);
  if (!recipe) return recipe.error();
  auto source = source_of(shared->opened_, recipe.value(), settings.value(), {});
  if (!source) return source.error();
  auto file = open_print_file(*shared->opened_.master, shared->opened_.colour, shared->paper_,
                              settings.value(), *files.sink, source.take());
  if (!file) return file.error();
  shared->file_ = file.take();
  json["ppi"] = settings.value().ppi;
  // Makers get rows that are prepared already; only colours alone are left to them.
  if (changes_pixels(recipe.value())) json.erase("recipe");
  json["width"] = shared->file_->spec().width;
  json["height"] = shared->file_->spec().height;
  shared->maker_request_ = dump_json(json);
  return shared;
}

Result<std::span<const uint16_t>> SharedDelivery::read(uint32_t band) {
  if (Status got = file_->read(band, rgb_); !got) return got.error();
  band_ = band;
  return std::span<const uint16_t>(rgb_);
}

Result<Bytes> SharedDelivery::make() {
  if (!maker_) {
    auto maker = BandMaker::make(file_->chain(), file_->spec(), seed_);
    if (!maker) return maker.error();
    maker_ = maker.take();
  }
  return maker_->make(band_, rgb_);
}

Result<Answer> SharedDelivery::finish(uint32_t lost, const Watch& watch) {
  auto delivered = file_->finish(reopen_, watch);
  if (!delivered) return delivered.error();
  return answer_for(delivered.value(),
                    lost == 0 ? ""
                              : " One of the workers at it stopped on the way; its part was done "
                                "again, and the check above is of the whole file.");
}

Result<std::unique_ptr<BandMaker>> open_maker(const std::string& request, const WorkFiles& files) {
  const Json json = parse_json(request);
  auto settings = settings_of(json);
  if (!settings) return settings.error();
  auto master = open_master_profile(files);
  if (!master) return master.error();
  auto paper = open_paper(json, files);
  if (!paper) return paper.error();
  auto recipe = recipe_of(json);
  if (!recipe) return recipe.error();
  auto before = colours_of(recipe.value(), master.value());
  if (!before) return before.error();
  auto chain =
      ProofChain::make(master.value(), paper.value(), settings.value().print, {}, before.value());
  if (!chain) return chain.error();
  const auto side = [&](const char* key) {
    return static_cast<uint32_t>(whole_of(json, key, 0, 0, kLongestSide));
  };
  return BandMaker::make(chain.take(),
                         print_spec(side("width"), side("height"), paper.value(), settings.value()),
                         settings.value().seed);
}

}  // namespace proofleaf
