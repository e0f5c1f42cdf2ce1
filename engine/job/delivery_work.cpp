#include "job/delivery_work.h"

#include "codec/limits.h"
#include "job/strip_work.h"
#include "proof/words.h"

namespace proofleaf {
namespace {

constexpr double kStripShare = 0.7;  // of a strip's time, for cutting its parts

Result<DeliverySettings> settings_of(const Json& request) {
  auto print = print_of(request);
  if (!print) return print.error();
  const std::string format = text_of(request, "format", "jpeg");
  const auto container = print_container_of(format);
  if (!container) return Error{"A print file is a JPEG or a TIFF, not {}.", format};
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

Answer answer_for(const Delivery& file, const std::string& more, const Json& strip) {
  Json json{{"kind", "delivered"},
            {"width", file.width},
            {"height", file.height},
            {"bytes", file.bytes},
            {"sha256", file.sha256},
            {"quality", file.quality > 0 ? Json(file.quality) : Json()},
            {"mean", file.check.mean},
            {"p95", file.check.p95},
            {"max", file.check.max},
            {"samples", file.check.samples},
            {"sentence", file.sentence + more}};
  if (!strip.is_null()) json["strip"] = strip;
  return Answer{dump_json(json), {}};
}

// What a request prints: the picture or a test strip of it, and what to tell of the strip.
struct PrintedSource {
  PrintSource source;
  Json strip;  // null for a picture
};

// A recipe that changes colours alone costs nothing: they are corrected on the way to the paper.
Result<PrintSource> picture_source(OpenedMaster& opened, const Recipe& recipe,
                                   DeliverySettings& settings, const Watch& watch) {
  PrintSource source;
  if (!changes_pixels(recipe)) {
    auto before = colours_of(recipe, opened.colour.profile);
    if (!before) return before.error();
    source.before = before.take();
    return source;
  }
  const MasterInfo& info = opened.master->info();
  auto plan = plan_of(recipe, info.width, info.height, settings.ppi);
  if (!plan) return plan.error();
  settings.ppi = plan.value().ppi;
  auto ready = prepared_master(opened, recipe, settings.ppi, watch);
  if (!ready) return ready.error();
  source.rows = ready.take();
  return source;
}

Result<PrintedSource> source_of(const Json& request, OpenedMaster& opened, const Paper& paper,
                                DeliverySettings& settings, const Watch& watch) {
  if (const Json* wanted = member(request, "strip")) {
    auto order = strip_order_of(*wanted);
    if (!order) return order.error();
    auto strip = make_strip(order.value(), opened, paper, settings.print, settings.ppi, watch);
    if (!strip) return strip.error();
    settings.ppi = strip.value().ppi;
    return PrintedSource{{std::move(strip.value().rows), {}}, std::move(strip.value().told)};
  }
  auto recipe = recipe_of(request);
  if (!recipe) return recipe.error();
  settings.largest_bytes = static_cast<uint64_t>(recipe.value().limits.largest_file_bytes);
  auto source = picture_source(opened, recipe.value(), settings, watch);
  if (!source) return source.error();
  return PrintedSource{source.take(), {}};
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
  const double reading = member(request, "strip") != nullptr ? kStripShare : 0;
  auto printed = source_of(request, opened.value(), paper.value(), settings.value(),
                           [&](double share) { return keep_going(watch, reading * share); });
  if (!printed) return printed.error();
  auto delivered = deliver(
      *opened.value().master, opened.value().colour, paper.value(), settings.value(), *files.sink,
      files.reopen,
      [&](double share) { return keep_going(watch, reading + (1 - reading) * share); },
      std::move(printed.value().source));
  if (!delivered) return delivered.error();
  if (Status same = opened.value().file->unchanged(); !same) return same.error();
  return answer_for(delivered.value(), "", printed.value().strip);
}

Result<std::unique_ptr<SharedDelivery>> SharedDelivery::open(const std::string& request,
                                                             const WorkFiles& files,
                                                             const Watch& watch) {
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
  auto printed = source_of(json, shared->opened_, shared->paper_, settings.value(), watch);
  if (!printed) return printed.error();
  // Makers get rows that are prepared already; only colours alone are left to them.
  if (printed.value().source.rows) json.erase("recipe");
  json.erase("strip");
  shared->strip_ = std::move(printed.value().strip);
  auto file = open_print_file(*shared->opened_.master, shared->opened_.colour, shared->paper_,
                              settings.value(), *files.sink, std::move(printed.value().source));
  if (!file) return file.error();
  shared->file_ = file.take();
  json["ppi"] = settings.value().ppi;
  json["quality"] = shared->file_->spec().quality;
  json["width"] = shared->file_->spec().width;
  json["height"] = shared->file_->spec().height;
  shared->maker_request_ = dump_json(json);
  return shared;
}

Result<PixelView> SharedDelivery::read(uint32_t band) {
  if (Status got = file_->read(band, rgb_); !got) return got.error();
  band_ = band;
  return rgb_.view();
}

Result<Bytes> SharedDelivery::make() {
  if (!maker_) {
    auto maker = BandMaker::make(file_->chain(), file_->spec(), seed_);
    if (!maker) return maker.error();
    maker_ = maker.take();
  }
  return maker_->make(band_, rgb_.view());
}

Result<Answer> SharedDelivery::finish(uint32_t lost, const Watch& watch) {
  if (Status same = opened_.file->unchanged(); !same) return same.error();
  auto delivered = file_->finish(reopen_, [&](double share) {
    return keep_going(watch, kWritingShare + (1 - kWritingShare) * share);
  });
  if (!delivered) return delivered.error();
  return answer_for(
      delivered.value(),
      lost == 0
          ? ""
          : std::string(" ") + said("One of the workers at it stopped on the way; its part was "
                                    "done again, and the check above is of the whole file."),
      strip_);
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
