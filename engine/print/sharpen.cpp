#include "print/sharpen.h"

#include <algorithm>
#include <cmath>

#include "print/gaussian.h"
#include "print/row_window.h"
#include "print/size.h"

namespace proofleaf::print {
namespace {

constexpr double kLeastMaskSigma = 1.5;  // [pixels] fewer hold too few pixels to know a texture by
constexpr float kMaskSpan = 2.5f;

double sigma_of(const Sharpening& sharpening, double ppi) {
  return sharpening.radius_mm / kMmPerInch * ppi;
}

class Sharpened final : public RowSource {
 public:
  Sharpened(std::unique_ptr<RowSource> rows, const Light& light, double sigma,
            const Sharpening& sharpening, double factor)
      : rows_(std::move(rows)),
        light_(light),
        format_(rows_->format()),
        blur_(sigma),
        spread_(std::max(sigma, kLeastMaskSigma)),
        around_(static_cast<uint32_t>(std::ceil(std::max(1.0, sigma)))),
        amount_(static_cast<float>(sharpening.amount * factor)),
        threshold_(static_cast<float>(sharpening.threshold)),
        mask_(static_cast<float>(sharpening.mask)),
        halo_(static_cast<float>(sharpening.halo)) {
    const uint32_t ahead = blur_.reach() + spread_.reach();
    const uint32_t depth = std::max(2 * blur_.reach(), ahead + around_) + 1;
    codes_ = RowWindow<uint16_t>(format_.row_samples(), depth);
    lightness_ = RowWindow<float>(format_.width, depth);
    details_ = RowWindow<float>(format_.width, 2 * spread_.reach() + 1);
    squares_ = RowWindow<float>(format_.width, 2 * spread_.reach() + 1);
    padded_.resize(format_.width + 2 * size_t{std::max(spread_.reach(), around_)});
    mean_.resize(format_.width);
    low_.resize(format_.width);
    high_.resize(format_.width);
  }
  RowFormat format() const override { return format_; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    for (uint32_t i = 0; i < count; ++i) {
      const uint32_t y = first + i;
      const auto details = [this](uint32_t row, float* out) { return make_details(row, out); };
      const auto squares = [this](uint32_t row, float* out) {
        const float* detail = details_.row(row);
        for (uint32_t x = 0; x < format_.width; ++x) out[x] = detail[x] * detail[x];
        return done();
      };
      // Both windows move together, so that the details of the squares are there.
      const uint32_t reach = spread_.reach();
      if (auto held = details_.hold(above(y, reach), below(y, reach) + 1, details); !held) {
        return held;
      }
      if (auto held = squares_.hold(above(y, reach), below(y, reach) + 1, squares); !held) {
        return held;
      }
      if (auto got = hold_picture(above(y, around_), below(y, around_)); !got) return got;
      sharpen(y, &into[format_.row_samples() * i]);
    }
    return done();
  }

 private:
  uint32_t above(uint32_t y, uint32_t reach) const { return y - std::min(y, reach); }
  uint32_t below(uint32_t y, uint32_t reach) const {
    return std::min(y + reach, format_.height - 1);
  }
  uint32_t inside(int64_t y) const {
    return static_cast<uint32_t>(std::clamp<int64_t>(y, 0, int64_t{format_.height} - 1));
  }

  // The picture and its lightness, rows first..last; both windows move together.
  Status hold_picture(uint32_t first, uint32_t last) {
    const auto codes = [this](uint32_t y, uint16_t* row) {
      return rows_->read(y, 1, std::span(row, format_.row_samples()));
    };
    if (auto held = codes_.hold(first, last + 1, codes); !held) return held;
    const auto lightness = [this](uint32_t y, float* row) {
      const uint16_t* rgb = codes_.row(y);
      for (uint32_t x = 0; x < format_.width; ++x, rgb += 3) row[x] = light_.lightness(rgb);
      return done();
    };
    return lightness_.hold(first, last + 1, lightness);
  }

  Status make_details(uint32_t y, float* out) {
    const uint32_t reach = blur_.reach();
    if (auto held = hold_picture(above(y, reach), below(y, reach)); !held) return held;
    const std::span padded(padded_.data(), format_.width + 2 * size_t{reach});
    blur_.down([&](int64_t k) { return lightness_.row(inside(y + k)); },
               padded.subspan(reach, format_.width));
    pad_ends(padded, reach);
    blur_.across(padded, mean_);
    const float* l = lightness_.row(y);
    for (uint32_t x = 0; x < format_.width; ++x) out[x] = l[x] - mean_[x];
    return done();
  }

  // The least and most lightness within `around_` of each pixel of row y.
  void find_bounds(uint32_t y) {
    const uint32_t reach = around_, width = format_.width;
    const std::span padded(padded_.data(), width + 2 * size_t{reach});
    for (const bool least : {true, false}) {
      std::vector<float>& out = least ? low_ : high_;
      const auto nearer = [least](float a, float b) {
        return least ? (a < b ? a : b) : (a > b ? a : b);
      };
      float* middle = &padded[reach];
      std::copy_n(lightness_.row(y), width, middle);
      for (uint32_t row = above(y, reach); row <= below(y, reach); ++row) {
        const float* l = lightness_.row(row);
        for (uint32_t x = 0; x < width; ++x) middle[x] = nearer(middle[x], l[x]);
      }
      pad_ends(padded, reach);
      std::copy_n(padded.data(), width, out.data());
      for (uint32_t k = 1; k <= 2 * reach; ++k) {
        for (uint32_t x = 0; x < width; ++x) out[x] = nearer(out[x], padded[x + k]);
      }
    }
  }

  void sharpen(uint32_t y, uint16_t* out) {
    const uint32_t reach = spread_.reach();
    const std::span padded(padded_.data(), format_.width + 2 * size_t{reach});
    spread_.down([&](int64_t k) { return squares_.row(inside(y + k)); },
                 padded.subspan(reach, format_.width));
    pad_ends(padded, reach);
    spread_.across(padded, mean_);
    find_bounds(y);
    const float *l = lightness_.row(y), *details = details_.row(y);
    const uint16_t* in = codes_.row(y);
    const float threshold = threshold_ * threshold_;
    for (uint32_t x = 0; x < format_.width; ++x, in += 3, out += 3) {
      const float mask = mask_of(std::sqrt(mean_[x]), mask_);
      const float square = details[x] * details[x];
      const float core = threshold > 0 ? square / (square + threshold) : 1;
      const float step = amount_ * details[x] * core * mask;
      const float wanted = std::clamp(l[x] + step, low_[x] - halo_, high_[x] + halo_);
      if (std::abs(wanted - l[x]) < kNothing) {
        std::copy_n(in, 3, out);
      } else {
        light_.set_lightness(in, wanted, out);
      }
    }
  }

  static constexpr float kNothing = 1e-3f;  // [L*]

  std::unique_ptr<RowSource> rows_;
  Light light_;
  RowFormat format_;
  Gaussian blur_, spread_;
  uint32_t around_;
  float amount_, threshold_, mask_, halo_;
  RowWindow<uint16_t> codes_;
  RowWindow<float> lightness_, details_, squares_;
  std::vector<float> padded_, mean_, low_, high_;
};

}  // namespace

Status check(const Sharpening& sharpening) {
  const std::pair<const Range&, double> fields[] = {{kAmount, sharpening.amount},
                                                    {kRadiusMm, sharpening.radius_mm},
                                                    {kThreshold, sharpening.threshold},
                                                    {kMask, sharpening.mask},
                                                    {kHalo, sharpening.halo}};
  for (const auto& [range, value] : fields) {
    if (auto sound = within(range, value); !sound) return sound;
  }
  return done();
}

double usual_radius_mm(double ppi) {
  constexpr double kPixels = 2;
  return std::clamp(kPixels * kMmPerInch / std::max(ppi, 1.0), kRadiusMm.low, kRadiusMm.high);
}

double paper_factor(PaperClass paper) {
  switch (paper) {
    case PaperClass::gloss:
      return 1;
    case PaperClass::baryta:
      return 1.15;
    case PaperClass::matte:
      return 1.5;
    case PaperClass::canvas:
      return 1.8;
  }
  return 1;
}

float mask_of(float rms, float setting) {
  if (setting <= 0) return 1;
  const float t = std::clamp((rms / setting - 1) / (kMaskSpan - 1), 0.0f, 1.0f);
  return t * t * (3 - 2 * t);
}

Result<std::unique_ptr<RowSource>> sharpened(std::unique_ptr<RowSource> rows, const Light& light,
                                             double ppi, const Sharpening& sharpening,
                                             PaperClass paper) {
  if (auto sound = check(sharpening); !sound) return sound.error();
  if (auto sound = within(kPpi, ppi); !sound) return sound.error();
  if (!sharpening.on || sharpening.amount == 0) return rows;
  return std::unique_ptr<RowSource>(std::make_unique<Sharpened>(
      std::move(rows), light, sigma_of(sharpening, ppi), sharpening, paper_factor(paper)));
}

}  // namespace proofleaf::print
