#include "print/size.h"

#include <algorithm>
#include <cmath>

#include "codec/limits.h"
#include "condition/condition.h"

namespace proofleaf::print {
namespace {

constexpr double kSeenFrom =
    200;  // [ppi] below this, softness is told of; common practice, no source

std::string cm(double mm) { return plain_number(mm / 10, 1); }
std::string by(double width_mm, double height_mm) {
  return cm(width_mm) + " x " + cm(height_mm) + " cm";
}
std::string megabytes(double bytes) { return plain_number(std::ceil(bytes / 1e6), 0) + " MB"; }

uint32_t pixels(double mm, double ppi) {
  return static_cast<uint32_t>(std::lround(mm / kMmPerInch * ppi));
}

double margins_mm(const PrintSize& size) {
  return 2 * (size.edge_mm * (size.edge != EdgeKind::none) + size.border_mm + size.mat_mm);
}

Status check_crop(const Crop& crop) {
  for (const auto& [name, value] : {std::pair{"crop.x", crop.x}, std::pair{"crop.y", crop.y}}) {
    if (auto sound = within({name, 0, 1, ""}, value); !sound) return sound;
  }
  for (const auto& [name, value] :
       {std::pair{"crop.width", crop.width}, std::pair{"crop.height", crop.height}}) {
    if (!(value > 0 && value <= 1)) {
      return Error{"{} must be more than 0 and at most 1, not {}.", name, plain_number(value, 4)};
    }
  }
  constexpr double kRounding = 1e-9;
  if (crop.x + crop.width > 1 + kRounding || crop.y + crop.height > 1 + kRounding) {
    return Error{"The crop reaches outside of the picture."};
  }
  return done();
}

// Shares of a side as whole pixels of it.
void to_pixels(double start, double length, uint32_t side, uint32_t& first, uint32_t& count) {
  const auto low = std::lround(start * side), high = std::lround((start + length) * side);
  const auto end = static_cast<uint32_t>(std::clamp<int64_t>(high, 1, side));
  first = static_cast<uint32_t>(std::clamp<int64_t>(low, 0, int64_t{end} - 1));
  count = end - first;
}

PixelRect crop_pixels(const Crop& crop, uint32_t width, uint32_t height) {
  PixelRect rect;
  to_pixels(crop.x, crop.width, width, rect.x, rect.width);
  to_pixels(crop.y, crop.height, height, rect.y, rect.height);
  return rect;
}

// Trims the longer side around its middle.
void trim_to(double ratio, PixelRect& crop) {
  const double width = std::min(double(crop.width), crop.height * ratio);
  const double height = std::min(double(crop.height), crop.width / ratio);
  const auto across = static_cast<uint32_t>(std::max(1L, std::lround(width)));
  const auto down = static_cast<uint32_t>(std::max(1L, std::lround(height)));
  crop.x += (crop.width - across) / 2;
  crop.y += (crop.height - down) / 2;
  crop.width = across;
  crop.height = down;
}

// The sides of the picture [mm], and the crop brought to their shape.
Status settle_shape(const PrintSize& size, const HouseLimits& limits, PrintPlan& plan) {
  const double ratio = double(plan.crop.width) / plan.crop.height;
  if (size.width_mm && size.height_mm) {
    plan.width_mm = *size.width_mm;
    plan.height_mm = *size.height_mm;
    const double wanted = plan.width_mm / plan.height_mm;
    // Half a pixel of the crop, either way, is no other shape.
    const double slack = 0.5 / std::min(plan.crop.width, plan.crop.height);
    if (std::abs(ratio / wanted - 1) > slack) {
      if (!size.ratio_locked) {
        return Error{
            "The crop is {} times as wide as high, but {} is {} times; give one side only, or let "
            "the crop follow the print.",
            plain_number(ratio), by(plan.width_mm, plan.height_mm), plain_number(wanted)};
      }
      const PixelRect before = plan.crop;
      trim_to(wanted, plan.crop);
      const double lost =
          1 - double(plan.crop.width) * plan.crop.height / (double(before.width) * before.height);
      plan.warnings.push_back(said("To fit {}, {} % of the crop is trimmed away.",
                                   by(plan.width_mm, plan.height_mm),
                                   plain_number(std::max(lost * 100, 0.1), 1)));
    }
  } else if (size.width_mm) {
    plan.width_mm = *size.width_mm;
    plan.height_mm = plan.width_mm / ratio;
  } else if (size.height_mm) {
    plan.height_mm = *size.height_mm;
    plan.width_mm = plan.height_mm * ratio;
  } else {
    const double room = limits.maximum_side_mm - margins_mm(size);
    plan.width_mm = room * std::min(1.0, ratio);
    plan.height_mm = room * std::min(1.0, 1 / ratio);
  }
  constexpr double kSmallest = 1;
  if (!(std::min(plan.width_mm, plan.height_mm) >= kSmallest)) {
    return Error{"Nothing is left for the picture: its shorter side would be under 1 mm."};
  }
  return done();
}

// The fewest of the house's pixels per inch that lose none of the master's, else the most there
// are; never so many that the file is too large, where fewer are allowed.
double chosen_ppi(const HouseLimits& limits, double effective_ppi, double sheet_square_inches) {
  if (limits.ppi_steps.empty()) return kUsualPpi;
  std::vector<double> steps = limits.ppi_steps;
  std::sort(steps.begin(), steps.end());
  auto at = std::find_if(steps.begin(), steps.end(),
                         [&](double step) { return step >= effective_ppi * (1 - 1e-6); });
  if (at == steps.end()) --at;
  while (at != steps.begin() && *at * *at * sheet_square_inches * 3 > limits.largest_file_bytes) {
    --at;
  }
  return *at;
}

Status settle_ppi(const PrintSize& size, const HouseLimits& limits, PrintPlan& plan) {
  plan.ppi = size.ppi.value_or(0);
  if (!size.ppi) {
    plan.ppi = chosen_ppi(limits, plan.effective_ppi,
                          plan.sheet_width_mm * plan.sheet_height_mm / (kMmPerInch * kMmPerInch));
    return done();
  }
  const auto& steps = limits.ppi_steps;
  const bool taken = steps.empty() || std::any_of(steps.begin(), steps.end(), [&](double step) {
                       return std::abs(step - *size.ppi) < 0.01;
                     });
  if (taken) return done();
  std::string list;
  for (const double step : steps) list += (list.empty() ? "" : ", ") + plain_number(step);
  return Error{"This print house takes {} pixels per inch, not {}.", list, plain_number(*size.ppi)};
}

Status settle_pixels(const PrintSize& size, PrintPlan& plan) {
  const double across = std::round(plan.sheet_width_mm / kMmPerInch * plan.ppi);
  const double down = std::round(plan.sheet_height_mm / kMmPerInch * plan.ppi);
  constexpr uint32_t kRounding = 4;  // each margin is rounded by itself
  if (std::max(across, down) > kLongestSide - kRounding || across * down > kMostPixels) {
    return Error{
        "The print would have {} x {} pixels; a file may have up to {} on a side and {} megapixels "
        "in all: choose fewer pixels per inch or a smaller print.",
        plain_number(across, 0), plain_number(down, 0), kLongestSide, kMostPixels / 1'000'000};
  }
  plan.width = std::max(1u, pixels(plan.width_mm, plan.ppi));
  plan.height = std::max(1u, pixels(plan.height_mm, plan.ppi));
  plan.edge = size.edge == EdgeKind::none ? 0 : pixels(size.edge_mm, plan.ppi);
  plan.border = pixels(size.border_mm, plan.ppi);
  plan.mat = pixels(size.mat_mm, plan.ppi);
  const uint32_t margin = 2 * (plan.edge + plan.border + plan.mat);
  plan.sheet_width = plan.width + margin;
  plan.sheet_height = plan.height + margin;
  if (plan.edge > std::min(plan.width, plan.height)) {
    return Error{
        "edge_mm is wider than the picture itself; there is not enough picture to fill "
        "it."};
  }
  plan.enlargement = double(plan.width) / plan.crop.width;
  plan.file_bytes = double(plan.sheet_width) * plan.sheet_height * 3;
  return done();
}

void warn(const HouseLimits& limits, PrintPlan& plan) {
  const std::string size = by(plan.width_mm, plan.height_mm);
  if (plan.effective_ppi < kSeenFrom) {
    plan.warnings.push_back(said(
        "At {} this file gives {} real pixels per inch; from closer than {} cm its pixels' "
        "softness "
        "can be seen.",
        size, plain_number(plan.effective_ppi, 0), plain_number(plan.reading_distance_mm / 10, 0)));
  }
  if (plan.effective_ppi > plan.ppi * 1.02) {
    plan.warnings.push_back(said(
        "At {} this file has {} pixels per inch, more than the {} that are printed; its finest "
        "detail is averaged away.",
        size, plain_number(plan.effective_ppi, 0), plain_number(plan.ppi, 0)));
  }
  if (plan.file_bytes > limits.largest_file_bytes) {
    plan.warnings.push_back(
        said("Uncompressed, this print's file has {}, more than the {} the print house takes; send "
             "fewer pixels per inch, or a JPEG.",
             megabytes(plan.file_bytes), megabytes(limits.largest_file_bytes)));
  }
}

}  // namespace

Status check(const PrintSize& size) {
  if (auto sound = check_crop(size.crop); !sound) return sound;
  const std::pair<const Range&, std::optional<double>> fields[] = {
      {kWidthMm, size.width_mm}, {kHeightMm, size.height_mm}, {kPpi, size.ppi},
      {kEdgeMm, size.edge_mm},   {kBorderMm, size.border_mm}, {kMatMm, size.mat_mm}};
  for (const auto& [range, value] : fields) {
    if (!value) continue;
    if (auto sound = within(range, *value); !sound) return sound;
  }
  if (size.edge != EdgeKind::none && (size.border_mm > 0 || size.mat_mm > 0)) {
    return Error{
        "A bleed or wrapped edge leaves no place for a white border: set border_mm and "
        "mat_mm to 0, or edge to none."};
  }
  if (size.edge != EdgeKind::none && size.edge_mm == 0) {
    return Error{"edge_mm must be more than 0 for a bleed or a wrapped edge."};
  }
  if (size.signature_line && size.border_mm < kLeastBorderToSign) {
    return Error{"A signature line needs a border of at least {} mm; border_mm is {}.",
                 plain_number(kLeastBorderToSign), plain_number(size.border_mm)};
  }
  return done();
}

Status check(const HouseLimits& limits) {
  if (auto sound = within(kMaximumSideMm, limits.maximum_side_mm); !sound) return sound;
  if (auto sound = within(kLargestFile, limits.largest_file_bytes); !sound) return sound;
  if (limits.ppi_steps.size() > kMostPpiSteps) {
    return Error{"ppi_steps may hold at most {} numbers.", plain_number(kMostPpiSteps)};
  }
  for (const double step : limits.ppi_steps) {
    if (auto sound = within(kPpiStep, step); !sound) return sound;
  }
  return done();
}

Result<PrintPlan> plan_print(uint32_t master_width, uint32_t master_height, const PrintSize& size,
                             const HouseLimits& limits) {
  if (auto sound = check_dimensions(said("The master"), master_width, master_height); !sound) {
    return sound.error();
  }
  if (auto sound = check(size); !sound) return sound.error();
  if (auto sound = check(limits); !sound) return sound.error();
  PrintPlan plan;
  plan.edge_kind = size.edge;
  plan.signature_line = size.signature_line;
  plan.signature_place = size.signature_place;
  plan.crop = crop_pixels(size.crop, master_width, master_height);
  if (auto settled = settle_shape(size, limits, plan); !settled) return settled.error();
  plan.sheet_width_mm = plan.width_mm + margins_mm(size);
  plan.sheet_height_mm = plan.height_mm + margins_mm(size);
  if (std::max(plan.sheet_width_mm, plan.sheet_height_mm) > limits.maximum_side_mm + 0.05) {
    return Error{"The print would be {} with its edges; this print house takes at most {} cm.",
                 by(plan.sheet_width_mm, plan.sheet_height_mm), cm(limits.maximum_side_mm)};
  }
  plan.effective_ppi = plan.crop.width / (plan.width_mm / kMmPerInch);
  if (auto settled = settle_ppi(size, limits, plan); !settled) return settled.error();
  if (auto settled = settle_pixels(size, plan); !settled) return settled.error();
  plan.reading_distance_mm = viewing_distance_mm(std::min(plan.effective_ppi, plan.ppi));
  warn(limits, plan);
  return plan;
}

}  // namespace proofleaf::print
