#include <algorithm>
#include <cmath>
#include <numbers>

#include "condition/dust.h"
#include "condition/measures.h"

namespace proofleaf {
namespace condition {
namespace {

constexpr double kPassShare = 0.97;  // of the time: the rest is for the small picture
constexpr uint32_t kMostStripRows = 4096;

// All accumulators, fed with the same rows.
class Pass {
 public:
  Pass(uint32_t width, uint32_t height, uint32_t bits, double dust_px)
      : frame_(width),
        clipping_(width, height),
        levels_(width, height, bits),
        stairs_(width, height),
        noise_(width),
        grid_(width),
        edges_(width, height),
        dust_(width, dust_px),
        small_(width, height) {}

  void add_row(const Row& row) {
    frame_.add_row(row);
    clipping_.add_row(row);
    levels_.add_row(row);
    stairs_.add_row(row);
    noise_.add_row(row);
    grid_.add_row(row);
    edges_.add_row(row);
    dust_.add_row(row.l);
    small_.add_row(row);
  }

  void finish(Measures& measures) {
    measures.frame = frame_.frame();
    measures.clipping = clipping_.finish(measures.frame);
    measures.levels = levels_.levels();
    measures.banding = stairs_.banding();
    measures.noise = noise_.noise();
    measures.sharpness = edges_.sharpness(measures.frame);
    measures.blocking = grid_.blocking();
    measures.spots = dust_.spots();
    SmallPicture small = small_.finish();
    small.crop_to(measures.frame);
    measures.tilt = find_tilt(small);
    measures.sides_judged = sides_can_be_judged(small);
    measures.cut_off = find_cut_off(small);
  }

 private:
  FrameFinder frame_;
  ClippingCounter clipping_;
  LevelCounter levels_;
  StairFinder stairs_;
  NoiseMeter noise_;
  GridSteps grid_;
  EdgeCollector edges_;
  DustFinder dust_;
  SmallPictureMaker small_;
};

Status run(RowSource& rows, const Lightness& lightness, uint32_t strip_rows, const Watch& watch,
           Pass& pass) {
  const RowFormat format = rows.format();
  const uint32_t most = std::clamp(strip_rows, 1u, std::min(kMostStripRows, format.height));
  std::vector<uint16_t> strip(format.row_samples() * most);
  std::vector<int16_t> l(format.width);
  for (uint32_t y = 0; y < format.height; y += most) {
    if (!keep_going(watch, kPassShare * y / format.height)) return stopped();
    const uint32_t count = std::min(most, format.height - y);
    const std::span<uint16_t> samples(strip.data(), format.row_samples() * count);
    if (auto got = rows.read(y, count, samples); !got) return got;
    for (uint32_t r = 0; r < count; ++r) {
      const auto rgb = samples.subspan(r * format.row_samples(), format.row_samples());
      lightness.convert(rgb, l);
      pass.add_row({y + r, rgb, l});
    }
  }
  return done();
}

ProfileState profile_state(const MasterInfo& info, const MasterColour& colour) {
  if (!colour.note.empty()) return ProfileState::unusable;
  if (colour.assumed) return ProfileState::missing;
  if (info.icc.empty()) return ProfileState::from_exif;
  if (info.model == ColourModel::rgb && !keeps_neutrals(colour.profile)) return ProfileState::odd;
  return ProfileState::sound;
}

std::vector<PrintSize> print_sizes(uint32_t width, uint32_t height) {
  std::vector<PrintSize> sizes;
  for (const double ppi : {360.0, 300.0, 240.0, 180.0}) {
    const double across = width / ppi, down = height / ppi;
    sizes.push_back({ppi, across * 2.54, down * 2.54, across, down, viewing_distance_mm(ppi) / 10});
  }
  return sizes;
}

Status check(const ConditionSettings& settings) {
  if (settings.print_width_mm &&
      !(*settings.print_width_mm >= 1 && *settings.print_width_mm <= 1e5)) {
    return Error{"The width of the print has to be between 1 mm and 100 m."};
  }
  if (!(settings.dust_mm >= 0.05 && settings.dust_mm <= 20)) {
    return Error{"The smallest spot that counts has to be between 0.05 and 20 mm."};
  }
  return done();
}

}  // namespace
}  // namespace condition

double viewing_distance_mm(double ppi) {
  constexpr double kMinute = std::numbers::pi / 180 / 60;
  return 25.4 / ppi / std::tan(kMinute);
}

Result<ConditionReport> examine(Master& master, const MasterColour& colour,
                                const ConditionSettings& settings, const Watch& watch) {
  using namespace condition;
  if (auto sound = check(settings); !sound) return sound.error();
  const MasterInfo& info = master.info();
  ConditionReport report;
  report.width = info.width;
  report.height = info.height;
  report.settings = settings;
  if (settings.print_width_mm) report.print_ppi = info.width / (*settings.print_width_mm / 25.4);
  report.dust_px = settings.dust_mm / 25.4 * report.print_ppi;
  report.sizes = print_sizes(info.width, info.height);

  auto lightness = Lightness::of(colour.profile);
  if (!lightness) return lightness.error();
  auto file_rows = master.open_rows();
  if (!file_rows) return file_rows.error();
  auto rows = as_rgb(file_rows.take(), info, colour);
  if (!rows) return rows.error();
  Pass pass(info.width, info.height, info.bits, report.dust_px);
  if (auto ran = run(*rows.value(), lightness.value(), settings.strip_rows, watch, pass); !ran) {
    return ran.error();
  }
  Measures measures;
  measures.pixels = uint64_t{info.width} * info.height;
  measures.compression = estimate_quality(info.jpeg_tables);
  measures.profile = profile_state(info, colour);
  pass.finish(measures);
  judge(measures, info, report);
  report.spots = std::move(measures.spots);
  return report;
}

}  // namespace proofleaf
