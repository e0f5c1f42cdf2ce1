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
  auto delivered = deliver(*opened.value().master, opened.value().colour, paper.value(),
                           settings.value(), *files.sink, files.reopen, watch);
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
  auto file = open_print_file(*shared->opened_.master, shared->opened_.colour, shared->paper_,
                              settings.value(), *files.sink);
  if (!file) return file.error();
  shared->file_ = file.take();
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
  auto chain = ProofChain::make(master.value(), paper.value(), settings.value().print, {});
  if (!chain) return chain.error();
  const auto side = [&](const char* key) {
    return static_cast<uint32_t>(whole_of(json, key, 0, 0, kLongestSide));
  };
  return BandMaker::make(chain.take(),
                         print_spec(side("width"), side("height"), paper.value(), settings.value()),
                         settings.value().seed);
}

}  // namespace proofleaf
