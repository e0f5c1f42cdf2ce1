#include "deliver/check.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <numeric>
#include <optional>

#include "base/beside.h"
#include "colour/lcms.h"

namespace proofleaf {
namespace {

constexpr double kSamples = 100000;

// How far a sound file may be from the promise [dE00]: what 16 bits, 8 dithered bits and JPEG's
// quantisation do to it, with room. Common practice, no source.
struct Limits {
  double mean, p95;
};
Limits limits_for(const DeliverySettings& settings) {
  if (settings.container == Container::jpeg) return {2.5, 8.0};
  return settings.bits == 16 ? Limits{0.25, 0.75} : Limits{1.0, 3.0};
}

// Media-relative L*a*b* of device colours by a profile's own colorimetric table.
std::vector<Lab> labs_of(const Profile& profile, std::span<const float> device01) {
  const uint32_t channels = profile.channels();
  const float scale = float_scale(profile.colour_space());
  std::vector<float> device(device01.begin(), device01.end());
  for (float& value : device) value *= scale;
  const size_t count = device.size() / channels;
  std::vector<float> lab(count * 3);
  const Transform transform = to_lab(profile, INTENT_RELATIVE_COLORIMETRIC);
  if (!transform) return {};
  cmsDoTransform(transform.get(), device.data(), lab.data(), static_cast<cmsUInt32Number>(count));
  std::vector<Lab> labs(count);
  for (size_t i = 0; i < count; ++i) labs[i] = {lab[i * 3], lab[i * 3 + 1], lab[i * 3 + 2]};
  return labs;
}

DeliveryCheck statistics(const std::vector<Lab>& promised, const std::vector<Lab>& written) {
  std::vector<double> errors(promised.size());
  for (size_t i = 0; i < errors.size(); ++i) errors[i] = delta_e_2000(promised[i], written[i]);
  DeliveryCheck check;
  check.samples = errors.size();
  check.mean = std::accumulate(errors.begin(), errors.end(), 0.0) / double(errors.size());
  std::sort(errors.begin(), errors.end());
  check.p95 = errors[(errors.size() - 1) * 95 / 100];
  check.max = errors.back();
  return check;
}

Error not_as_promised(const std::string& what) {
  return Error{"The written file was read back and is not as promised: {} It is not handed over.",
               what};
}

Result<std::unique_ptr<Master>> written_file(const Reopen& reopen) {
  auto source = reopen();
  if (!source) return source.error();
  auto file = open_master(source.take());
  if (!file) return not_as_promised(file.error().message);
  return file;
}

}  // namespace

PromisedPixels::PromisedPixels(uint32_t width, uint32_t height) : width_(width), height_(height) {
  const double apart = std::sqrt(double(width) * height / kSamples);
  // An odd step does not keep step with JPEG's blocks of eight.
  step_ = std::max(1u, static_cast<uint32_t>(apart)) | 1u;
}

void PromisedPixels::note(uint32_t first, uint32_t count, PixelView rgb) {
  const auto note_row = [this](auto row) {
    for (size_t x = 0; x < width_; x += step_) {
      for (const auto code : row.subspan(x * 3, 3)) rgb_.push_back(as_sixteen(code));
    }
  };
  const size_t in_row = size_t{width_} * 3;
  for (uint32_t y = 0; y < count; ++y) {
    if ((first + y) % step_ == 0) std::visit(note_row, part_of(rgb, y * in_row, in_row));
  }
}

std::vector<Lab> PromisedPixels::promised_labs(const Paper& paper, const ProofChain& chain) const {
  std::vector<float> wanted(rgb_.size()), device(rgb_.size() / 3 * chain.device_channels());
  std::transform(rgb_.begin(), rgb_.end(), wanted.begin(),
                 [](uint16_t v) { return float(v) / 65535; });
  chain.to_device(wanted, device);
  return labs_of(paper.profile, device);
}

Result<std::vector<float>> PromisedPixels::found_in(RowSource& rows, uint32_t first, uint32_t last,
                                                    const Watch& watch) const {
  const uint32_t channels = rows.format().channels;
  std::vector<uint16_t> row(rows.format().row_samples());
  std::vector<float> found;
  for (uint32_t i = first; i < last; ++i) {
    if (!keep_going(watch, double(i - first) / (last - first))) return stopped();
    if (auto got = rows.read(i * step_, 1, row); !got) return not_as_promised(got.error().message);
    for (size_t x = 0; x < width_; x += step_) {
      for (uint32_t c = 0; c < channels; ++c) found.push_back(float(row[x * channels + c]) / 65535);
    }
  }
  return found;
}

Result<std::vector<float>> PromisedPixels::all_found(RowSource& rows, RowSource* lower,
                                                     const Watch& watch) const {
  const uint32_t count = sampled_rows(), middle = count / 2;
  if (lower == nullptr) return found_in(rows, 0, count, watch);
  std::atomic<bool> wanted = true;
  std::optional<Result<std::vector<float>>> below;
  Beside reading(
      [&] { below = found_in(*lower, middle, count, [&](double) { return wanted.load(); }); });
  // They meet in a row that both read: nothing between them is left out.
  auto found = found_in(rows, 0, middle + 1, watch);
  if (!found) wanted = false;
  reading.wait();
  if (!found) return found.error();
  if (!below->ok()) return below->error();
  std::vector<float>& all = found.value();
  const auto in_row = static_cast<ptrdiff_t>(all.size() / (middle + 1));
  if (!std::equal(all.end() - in_row, all.end(), below->value().begin()))
    return not_as_promised(said("its halves do not fit together."));
  all.insert(all.end(), below->value().begin() + in_row, below->value().end());
  return found;
}

Result<DeliveryCheck> PromisedPixels::compare(const Reopen& reopen, const Paper& paper,
                                              const ProofChain& chain,
                                              const DeliverySettings& settings,
                                              const Watch& watch) const {
  auto file = written_file(reopen);
  if (!file) return file.error();
  const MasterInfo& info = file.value()->info();
  if (info.width != width_ || info.height != height_ || info.bits != settings.bits) {
    return not_as_promised(said("its size or depth is another."));
  }
  auto embedded = Profile::open(info.icc, said("The profile in the written file"));
  if (!embedded || info.icc != paper.profile.bytes()) {
    return not_as_promised(said("the profile in it is not the paper's."));
  }
  auto rows = file.value()->open_rows();
  if (!rows) return not_as_promised(rows.error().message);
  std::unique_ptr<Master> once_more;
  std::unique_ptr<RowSource> lower;
  if (kThreads) {
    auto again = written_file(reopen);
    if (!again) return again.error();
    once_more = again.take();
    auto opened = once_more->open_rows();
    if (!opened) return not_as_promised(opened.error().message);
    lower = opened.take();
  }

  const uint32_t channels = rows.value()->format().channels;
  if (channels != chain.device_channels()) return not_as_promised(said("its channels are others."));
  std::vector<Lab> promised;
  Beside promising([&] { promised = promised_labs(paper, chain); });
  auto found = all_found(*rows.value(), lower.get(), watch);
  promising.wait();
  if (!found) return found.error();
  if (found.value().size() != rgb_.size() / 3 * channels) {
    return not_as_promised(said("it holds another number of pixels."));
  }
  const auto seen = labs_of(embedded.value(), found.value());
  if (promised.empty() || promised.size() != seen.size()) {
    return not_as_promised(said("the profile in it cannot be used."));
  }
  const DeliveryCheck check = statistics(promised, seen);
  const Limits limits = limits_for(settings);
  if (!(check.mean <= limits.mean && check.p95 <= limits.p95)) {
    const std::string more =
        settings.container == Container::jpeg
            ? std::string(" ") + said("A higher JPEG quality or a TIFF will help.")
            : "";
    return not_as_promised(
        said("its colours differ by {} ΔE00 in the mean and {} in one place of twenty.",
             spoken_number(check.mean, 1), spoken_number(check.p95, 1)) +
        more);
  }
  return check;
}

}  // namespace proofleaf
