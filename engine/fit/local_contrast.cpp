#include "fit/local_contrast.h"

#include <cmath>
#include <cstring>

#include "fit/master_space.h"
#include "fit/smooth.h"
#include "proof/cube_build.h"
#include "rank/lanes.h"
#include "raster/picture_rows.h"

namespace proofleaf {
namespace {

constexpr uint32_t kWindows = 20;  // radii along the longer side
constexpr double kEps = 36;        // [L*^2]: steps well above 12 L* are edges
constexpr double kEnds = 8;        // [L*]
constexpr uint32_t kLightnessGrid = 33;

// A cube whose first lane is code_of_lightness() of any colour of the space.
Cube lightness_cube(const MasterSpace& space) {
  Cube cube{kLightnessGrid, 4, space.shaper(), {}, {}, {}};
  const std::vector<float> levels = node_levels(cube.shaper, cube.grid);
  std::vector<float> rgb;
  for (const float red : levels) {
    for (const float green : levels) {
      for (const float blue : levels) rgb.insert(rgb.end(), {red, green, blue});
    }
  }
  const std::vector<Lab> colours = space.colours(rgb);
  cube.nodes.assign(colours.size() * 4, 0);
  for (size_t i = 0; i < colours.size(); ++i) {
    cube.nodes[i * 4] = node_code(code_of_lightness(colours[i].l));
  }
  return cube;
}

// Codes as linear light and back, by the space's own tone curve.
class LinearLight {
 public:
  explicit LinearLight(const MasterSpace& space) : linear_(65536), codes_(kRoots + 1) {
    for (size_t code = 0; code < linear_.size(); ++code) {
      linear_[code] = static_cast<float>(space.linear(double(code) / 65535));
    }
    size_t code = 0;
    for (size_t i = 0; i <= kRoots; ++i) {
      const float root = static_cast<float>(i) / kRoots, light = root * root;
      while (code < 65534 && linear_[code + 1] < light) ++code;
      const float low = linear_[code], high = linear_[code + 1];
      const float between = high > low ? std::clamp((light - low) / (high - low), 0.0f, 1.0f) : 1;
      codes_[i] = static_cast<float>(code) + between;
    }
  }
  float light(uint16_t code) const { return linear_[code]; }
  // light: 0..1.
  uint16_t code(float light) const {
    const float at = std::sqrt(light) * kRoots;
    const size_t i = std::min(static_cast<size_t>(at), kRoots - 1);
    const float between = at - static_cast<float>(i);
    return static_cast<uint16_t>(codes_[i] + (codes_[i + 1] - codes_[i]) * between + 0.5f);
  }

 private:
  static constexpr size_t kRoots = 16384;  // even steps of the square root of light
  std::vector<float> linear_, codes_;
};

// Y of L*, CIE 15:2018 8.2.1.
float luminance(float l) {
  constexpr float kKappa = 24389.0f / 27;
  if (l <= 8) return l / kKappa;
  const float root = (l + 16) * (1 / 116.0f);
  return root * root * root;
}

// What L* becomes by L*, looked up: the fading of both ends is the same for all pixels.
class Fade {
 public:
  Fade() {
    for (size_t i = 0; i < table_.size(); ++i) {
      const double l = double(i) / 8;
      table_[i] = static_cast<float>(smooth_step(l / kEnds) * smooth_step((100 - l) / kEnds));
    }
  }
  float at(float l) const {
    const float place = std::clamp(l, 0.0f, 99.99f) * 8;
    const auto i = static_cast<size_t>(place);
    return table_[i] + (table_[i + 1] - table_[i]) * (place - static_cast<float>(i));
  }

 private:
  std::array<float, 802> table_{};
};

float changed(float l, float scale, float offset, float amount, float fade) {
  const float detail = l - (scale * l + offset);
  const float bounded = detail / (1 + std::abs(detail) / float(kMostDetail));
  return std::clamp(l + amount / 100 * fade * bounded, 0.0f, 100.0f);
}

// Two neighbours of a guide's side and the share of the second.
struct Between {
  uint32_t first = 0, second = 0;
  float share = 0;
};
// place: 0..1 along the side.
Between between(double place, uint32_t side) {
  const double at = std::clamp(place * side - 0.5, 0.0, double(side - 1));
  const auto first = static_cast<uint32_t>(at);
  return {first, std::min(first + 1, side - 1), static_cast<float>(at - first)};
}

class LocalContrastRows final : public RowSource {
 public:
  LocalContrastRows(std::unique_ptr<RowSource> rows, const MasterSpace& space,
                    std::shared_ptr<const LocalContrast> guide, double amount, PicturePart part)
      : rows_(std::move(rows)),
        guide_(std::move(guide)),
        amount_(static_cast<float>(amount)),
        part_(part),
        cube_(lightness_cube(space)),
        light_(space),
        lanes_(size_t{rows_->format().width} * 4),
        scale_(guide_->width),
        offset_(guide_->width) {
    const uint32_t width = rows_->format().width;
    for (uint32_t x = 0; x < width; ++x) {
      across_.push_back(between(part.left + part.width * (x + 0.5) / width, guide_->width));
    }
  }

  RowFormat format() const override { return rows_->format(); }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    if (auto got = rows_->read(first, count, into); !got) return got;
    const size_t samples = format().row_samples();
    for (uint32_t row = 0; row < count; ++row) {
      change_row(first + row, into.subspan(row * samples, samples));
    }
    return done();
  }

 private:
  void change_row(uint32_t y, std::span<uint16_t> rgb) {
    take_lines(y);
    apply_cube(cube_, rgb, lanes_);
    for (size_t x = 0; x < across_.size(); ++x) {
      const Between& at = across_[x];
      const float scale = scale_[at.first] + (scale_[at.second] - scale_[at.first]) * at.share;
      const float offset = offset_[at.first] + (offset_[at.second] - offset_[at.first]) * at.share;
      const float l = quick_lightness(lanes_[x * 4]);
      const float to = changed(l, scale, offset, amount_, fade_.at(l));
      if (l > 0.01f && to != l) lighten(luminance(to) / luminance(l), &rgb[x * 3]);
    }
  }

  // The guide's lines at a row, between two of the guide's own.
  void take_lines(uint32_t y) {
    const double place = part_.top + part_.height * (y + 0.5) / rows_->format().height;
    const Between at = between(place, guide_->height);
    const size_t above = size_t{at.first} * guide_->width,
                 below = size_t{at.second} * guide_->width;
    for (size_t x = 0; x < scale_.size(); ++x) {
      const float s = guide_->scale[above + x], o = guide_->offset[above + x];
      scale_[x] = s + (guide_->scale[below + x] - s) * at.share;
      offset_[x] = o + (guide_->offset[below + x] - o) * at.share;
    }
  }

  void lighten(float factor, uint16_t* rgb) const {
    const std::array<float, 3> light{light_.light(rgb[0]), light_.light(rgb[1]),
                                     light_.light(rgb[2])};
    const float most = std::max({light[0], light[1], light[2]});
    const float held = std::min(factor, most > 0 ? 1 / most : 1.0f);
    for (size_t c = 0; c < 3; ++c) rgb[c] = light_.code(std::min(light[c] * held, 1.0f));
  }

  std::unique_ptr<RowSource> rows_;
  std::shared_ptr<const LocalContrast> guide_;
  float amount_;
  PicturePart part_;
  Cube cube_;
  LinearLight light_;
  Fade fade_;
  std::vector<Between> across_;
  std::vector<uint16_t> lanes_;
  std::vector<float> scale_, offset_;  // of the row, one to each of the guide's pixels
};

Error not_a_guide() { return Error{"The guide of the local contrast is damaged."}; }

bool sound(const LocalContrast& guide) {
  const size_t pixels = size_t{guide.width} * guide.height;
  return guide.width > 0 && guide.height > 0 && guide.width <= kGuideSide &&
         guide.height <= kGuideSide && guide.scale.size() == pixels &&
         guide.offset.size() == pixels;
}

}  // namespace

Result<LocalContrast> find_local_contrast(const Profile& master, const Picture& preview,
                                          const Watch& watch) {
  if (preview.width == 0 || preview.height == 0 ||
      preview.rgb.size() != size_t{preview.width} * preview.height * 3) {
    return Error{"The picture and its size do not agree."};
  }
  auto space = MasterSpace::make(master);
  if (!space) return space.error();
  PictureRows rows(preview.rgb, preview.width, preview.height);
  const uint32_t side = std::max(preview.width, preview.height);
  auto small = shrink(rows, (side + kGuideSide - 1) / kGuideSide, watch);
  if (!small) return small.error();
  std::vector<float> rgb(small.value().rgb.begin(), small.value().rgb.end()), l;
  for (float& code : rgb) code /= 65535;
  for (const Lab& colour : space.value()->colours(rgb)) {
    l.push_back(static_cast<float>(std::clamp(colour.l, 0.0, 100.0)));
  }
  const uint32_t width = small.value().width, height = small.value().height;
  const uint32_t radius = std::max(1u, (std::max(width, height) + kWindows / 2) / kWindows);
  return guided_plane(l, width, height, radius, kEps);
}

double with_local_contrast(double l, double scale, double offset, double amount) {
  static const Fade fade;
  return changed(static_cast<float>(l), static_cast<float>(scale), static_cast<float>(offset),
                 static_cast<float>(amount), fade.at(static_cast<float>(l)));
}

Result<std::unique_ptr<RowSource>> local_contrast_rows(std::unique_ptr<RowSource> rows,
                                                       const Profile& master,
                                                       std::shared_ptr<const LocalContrast> guide,
                                                       double amount, PicturePart part) {
  if (!(amount >= -100 && amount <= 100)) {
    return Error{"The local contrast must be a number between -100 and 100."};
  }
  if (rows->format().channels != 3) return Error{"The picture's rows are not RGB."};
  if (amount == 0) return rows;
  if (!guide || !sound(*guide)) return not_a_guide();
  auto space = MasterSpace::make(master);
  if (!space) return space.error();
  return std::unique_ptr<RowSource>(std::make_unique<LocalContrastRows>(
      std::move(rows), *space.value(), std::move(guide), amount, part));
}

Bytes pack_local_contrast(const LocalContrast& guide) {
  const size_t plane = guide.scale.size() * sizeof(float);
  Bytes bytes(8 + 2 * plane);
  std::memcpy(bytes.data(), &guide.width, 4);
  std::memcpy(bytes.data() + 4, &guide.height, 4);
  if (plane == 0) return bytes;
  std::memcpy(bytes.data() + 8, guide.scale.data(), plane);
  std::memcpy(bytes.data() + 8 + plane, guide.offset.data(), plane);
  return bytes;
}

Result<LocalContrast> unpack_local_contrast(ByteView bytes) {
  LocalContrast guide;
  if (bytes.size() < 8) return not_a_guide();
  std::memcpy(&guide.width, bytes.data(), 4);
  std::memcpy(&guide.height, bytes.data() + 4, 4);
  if (guide.width > kGuideSide || guide.height > kGuideSide) return not_a_guide();
  const size_t pixels = size_t{guide.width} * guide.height, plane = pixels * sizeof(float);
  if (pixels == 0 || bytes.size() != 8 + 2 * plane) return not_a_guide();
  guide.scale.resize(pixels);
  guide.offset.resize(pixels);
  std::memcpy(guide.scale.data(), bytes.data() + 8, plane);
  std::memcpy(guide.offset.data(), bytes.data() + 8 + plane, plane);
  for (size_t i = 0; i < pixels; ++i) {
    if (!std::isfinite(guide.scale[i] + guide.offset[i])) return not_a_guide();
  }
  return guide;
}

}  // namespace proofleaf
