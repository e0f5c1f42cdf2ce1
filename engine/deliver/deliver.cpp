#include "deliver/deliver.h"

#include <algorithm>
#include <atomic>
#include <optional>

#include "base/beside.h"
#include "base/sha256.h"
#include "deliver/band_maker.h"
#include "deliver/check.h"
#include "deliver/file_limit.h"
#include "deliver/run_bands.h"

namespace proofleaf {
namespace {

constexpr size_t kInHand = 21u << 20;  // of the master's pixels [bytes]
constexpr size_t kMostMakers = 8;

ExifColourSpace exif_space_of(const Profile& profile) {
  auto srgb = standard_profile("srgb");
  const bool is_srgb = srgb && srgb.value().bytes() == profile.bytes();
  return is_srgb ? ExifColourSpace::srgb : ExifColourSpace::uncalibrated;
}

std::string in_words(const DeliveryCheck& check) {
  return said(
      "Read back and checked at {} places: the file is within {} ΔE00 of the proof in the mean, {} "
      "at 95 of 100 places, {} at the worst.",
      check.samples, spoken_number(check.mean, 2), spoken_number(check.p95, 2),
      spoken_number(check.max, 2));
}

class MasterPrintFile final : public PrintFile {
 public:
  MasterPrintFile(const WriteSpec& spec, const Paper& paper, const DeliverySettings& settings,
                  ByteSink& sink)
      : spec_(spec),
        paper_(paper),
        settings_(settings),
        sink_(sink),
        promised_(spec.width, spec.height) {}

  Status open(const MasterColour& colour, PrintSource source) {
    auto chain = ProofChain::make(colour.profile, paper_, settings_.print, {}, source.before);
    if (!chain) return chain.error();
    chain_ = chain.take();
    rows_ = std::move(source.rows);
    if (limited()) {
      auto quality = quality_within(*rows_, chain_, spec_, settings_.seed, settings_.largest_bytes);
      if (!quality) return quality.error();
      spec_.quality = quality.value();
    }
    auto joiner = open_band_joiner(spec_, sink_);
    if (!joiner) return joiner.error();
    joiner_ = joiner.take();
    return done();
  }

  uint32_t bands() const override { return bands_in(spec_.height); }
  const WriteSpec& spec() const override { return spec_; }
  std::shared_ptr<const ProofChain> chain() const override { return chain_; }

  Status read(uint32_t band, Pixels& rgb) override {
    if (band >= bands()) return Error{"There are no more rows."};
    const uint32_t first = band * kBandRows, rows = band_rows(spec_.height, band);
    if (Status got = rows_->read_pixels(first, rows, rgb); !got) return got;
    if (band == noted_) promised_.note(first, rows, rgb.view());
    noted_ = std::max(noted_, band + 1);
    return done();
  }

  Status join(ByteView made) override {
    if (Status joined = joiner_->join(made); !joined) return joined;
    return check_size();
  }

  Result<Delivery> finish(const Reopen& reopen, const Watch& watch) override {
    if (Status closed = joiner_->finish(); !closed) return closed.error();
    if (Status small = check_size(); !small) return small.error();
    auto again = reopen();
    if (!again) return again.error();
    std::optional<Result<std::string>> sum;
    std::atomic<bool> wanted = true;
    const auto still_wanted = [&](double) { return wanted.load(); };
    Beside summing([&] { sum = sha256_of(*again.value(), still_wanted); });
    auto check = promised_.compare(reopen, paper_, *chain_, settings_, watch);
    if (!check) wanted = false;
    summing.wait();
    if (!check) return check.error();
    if (!sum->ok()) return sum->error();
    const int quality = spec_.container == Container::jpeg ? spec_.quality : 0;
    return Delivery{spec_.width,
                    spec_.height,
                    sink_.size(),
                    sum->value(),
                    quality,
                    check.value(),
                    in_words(check.value()) + quality_words()};
  }

 private:
  bool limited() const { return spec_.container == Container::jpeg && settings_.largest_bytes > 0; }

  Status check_size() const {
    if (!limited() || sink_.size() <= settings_.largest_bytes) return done();
    return Error{
        "At JPEG quality {} the file is larger than {}, which the print house does not take; ask "
        "for a lower quality. It is not handed over.",
        spec_.quality, in_megabytes(settings_.largest_bytes)};
  }

  std::string quality_words() const {
    if (!limited() || spec_.quality == settings_.quality) return "";
    return std::string(" ") +
           said("It is written at JPEG quality {} rather than {}, to stay within {}.",
                spec_.quality, settings_.quality, in_megabytes(settings_.largest_bytes));
  }

  WriteSpec spec_;
  Paper paper_;
  DeliverySettings settings_;
  ByteSink& sink_;
  PromisedPixels promised_;
  uint32_t noted_ = 0;  // bands
  std::shared_ptr<const ProofChain> chain_;
  std::unique_ptr<RowSource> rows_;
  std::unique_ptr<BandJoiner> joiner_;
};

Status write_bands(PrintFile& file, uint32_t seed, const Watch& watch) {
  const size_t threads = kThreads ? std::max(1u, std::thread::hardware_concurrency()) : 1;
  const size_t count = std::min(threads, kMostMakers);
  const size_t band_bytes = size_t{file.spec().width} * kBandRows * 3 * sizeof(uint16_t);
  // Gone before the check, which has memory of its own.
  std::vector<std::unique_ptr<BandMaker>> makers;
  const BandWork work{
      [&]() -> Status {
        while (makers.size() < count) {
          auto maker = makers.empty() ? BandMaker::make(file.chain(), file.spec(), seed)
                                      : makers.front()->another();
          if (!maker) return maker.error();
          makers.push_back(maker.take());
        }
        return done();
      },
      [&](uint32_t band, Pixels& rgb) { return file.read(band, rgb); },
      [&](size_t maker, uint32_t band, PixelView rgb) { return makers[maker]->make(band, rgb); },
      [&](uint32_t band, ByteView made) -> Status {
        if (!keep_going(watch, kWritingShare * band / file.bands())) return stopped();
        return file.join(made);
      }};
  return run_bands(file.bands(), count, std::max(count + 2, kInHand / band_bytes), work);
}

}  // namespace

WriteSpec print_spec(uint32_t width, uint32_t height, const Paper& paper,
                     const DeliverySettings& settings) {
  WriteSpec spec;
  spec.container = settings.container;
  spec.model = paper.model;
  spec.width = width;
  spec.height = height;
  spec.bits = settings.bits;
  spec.quality = settings.quality;
  spec.full_colour_detail = settings.full_colour_detail;
  spec.ppi = settings.ppi;
  spec.icc = paper.profile.bytes();
  spec.exif_space = exif_space_of(paper.profile);
  return spec;
}

Result<std::unique_ptr<PrintFile>> open_print_file(Master& master, const MasterColour& colour,
                                                   const Paper& paper,
                                                   const DeliverySettings& settings, ByteSink& sink,
                                                   PrintSource source) {
  if (!(settings.ppi >= 1 && settings.ppi <= 10000)) {
    return Error{"The resolution must lie between 1 and 10000 pixels per inch."};
  }
  const MasterInfo& info = master.info();
  if (!source.rows) {
    auto file_rows = master.open_rows();
    if (!file_rows) return file_rows.error();
    auto rows = as_rgb(file_rows.take(), info, colour);
    if (!rows) return rows.error();
    source.rows = rows.take();
  }
  const RowFormat format = source.rows->format();
  WriteSpec spec = print_spec(format.width, format.height, paper, settings);
  spec.exif = clean_exif(info.exif, {format.width, format.height, settings.ppi, spec.exif_space,
                                     settings.keep_private});
  auto file = std::make_unique<MasterPrintFile>(spec, paper, settings, sink);
  if (Status opened = file->open(colour, std::move(source)); !opened) return opened.error();
  return std::unique_ptr<PrintFile>(std::move(file));
}

Result<Delivery> deliver(Master& master, const MasterColour& colour, const Paper& paper,
                         const DeliverySettings& settings, ByteSink& sink, const Reopen& reopen,
                         const Watch& watch, PrintSource source) {
  auto file = open_print_file(master, colour, paper, settings, sink, std::move(source));
  if (!file) return file.error();
  if (Status written = write_bands(*file.value(), settings.seed, watch); !written) {
    return written.error();
  }
  return file.value()->finish(reopen, [&](double share) {
    return keep_going(watch, kWritingShare + (1 - kWritingShare) * share);
  });
}

}  // namespace proofleaf
