#include "print/grain.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "print/gaussian.h"
#include "print/row_window.h"
#include "print/size.h"

namespace proofleaf::print {
namespace {

constexpr float kSpare = 3;  // standard deviations that must fit between a tone and black or white

// Full width at half of the correlation exp(-r^2 / 4 sigma^2) is 4 sigma sqrt(ln 2).
double sigma_of(double size_mm, double ppi) {
  return size_mm / kMmPerInch * ppi / (4 * std::sqrt(std::numbers::ln2));
}

// 2^32 over the golden and over the plastic number, made odd: multiples of them fall evenly.
constexpr uint32_t kGolden = 0x9e3779b9, kPlastic = 0xc13fa9a9;

// Spreads every bit of its input over all of its output: fold and multiply, twice.
uint32_t scatter(uint32_t h) {
  h = (h ^ h >> 16) * kGolden;
  h = (h ^ h >> 15) * kPlastic;
  return h ^ h >> 16;
}

// Noise of mean 0 and variance 1 made of a hash: the sum of its four bytes, nearly a bell.
float noise_of(uint32_t h) {
  const auto sum = static_cast<int32_t>((h & 255) + (h >> 8 & 255) + (h >> 16 & 255) + (h >> 24));
  constexpr float kScale = 0.0067658f;  // 1 / sqrt(4 (256^2 - 1) / 12)
  return static_cast<float>(sum - 510) * kScale;
}

// The grain's own noise, row by row.
class Field {
 public:
  Field(uint32_t width, double sigma, uint32_t seed)
      : bell_(sigma),
        scale_(static_cast<float>(1 / bell_.power())),
        seed_(scatter(seed + kGolden)),
        white_(width + 2 * size_t{bell_.reach()}, 2 * bell_.reach() + 1),
        column_(width + 2 * size_t{bell_.reach()}) {}

  // Root mean square 1, mean 0.
  void row(uint32_t y, std::span<float> out) {
    // Rows of white noise are counted from one reach above the print.
    const auto make = [this](uint32_t at, float* white) {
      const uint32_t key = scatter(at * kPlastic + seed_);
      for (size_t x = 0; x < column_.size(); ++x) {
        white[x] = noise_of(scatter(static_cast<uint32_t>(x) * kGolden ^ key));
      }
      return done();
    };
    const uint32_t middle = y + bell_.reach();
    // Cannot fail: nothing is read.
    static_cast<void>(white_.hold(y, y + 2 * bell_.reach() + 1, make));
    bell_.down([&](int64_t k) { return white_.row(static_cast<uint32_t>(middle + k)); }, column_);
    bell_.across(column_, out);
    for (float& value : out) value *= scale_;
  }

 private:
  Gaussian bell_;
  float scale_;
  uint32_t seed_;
  RowWindow<float> white_;
  std::vector<float> column_;
};

class Grained final : public RowSource {
 public:
  Grained(std::unique_ptr<RowSource> rows, const Light& light, double ppi, const Grain& grain)
      : rows_(std::move(rows)),
        light_(light),
        format_(rows_->format()),
        field_(format_.width, sigma_of(grain.size_mm, ppi), grain.seed),
        noise_(format_.width) {
    for (size_t i = 0; i < amounts_.size(); ++i) {
      amounts_[i] = static_cast<float>(grain_amount(grain, double(i) / kPerL));
    }
  }
  RowFormat format() const override { return format_; }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    for (uint32_t i = 0; i < count; ++i) {
      const auto out = into.subspan(format_.row_samples() * i, format_.row_samples());
      if (auto got = rows_->read(first + i, 1, out); !got) return got;
      field_.row(first + i, noise_);
      for (uint32_t x = 0; x < format_.width; ++x) {
        uint16_t* rgb = &out[size_t{x} * 3];
        const float l = light_.lightness(rgb);
        const float amount = amounts_[static_cast<size_t>(std::clamp(l, 0.0f, 100.0f) * kPerL)];
        if (amount > 0) light_.set_lightness(rgb, l + amount * noise_[x], rgb);
      }
    }
    return done();
  }

 private:
  static constexpr int kPerL = 16;

  std::unique_ptr<RowSource> rows_;
  Light light_;
  RowFormat format_;
  Field field_;
  std::vector<float> noise_;
  std::array<float, 100 * kPerL + 1> amounts_{};
};

double smooth(double t) {
  t = std::clamp(t, 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

}  // namespace

Status check(const Grain& grain) {
  const std::pair<const Range&, double> fields[] = {{kGrainSizeMm, grain.size_mm},
                                                    {kShadows, grain.shadows},
                                                    {kMids, grain.mids},
                                                    {kHighlights, grain.highlights}};
  for (const auto& [range, value] : fields) {
    if (auto sound = within(range, value); !sound) return sound;
  }
  return done();
}

double grain_amount(const Grain& grain, double lightness) {
  constexpr double kLow = 15, kMiddle = 50, kHigh = 85;
  const double wanted =
      lightness < kMiddle
          ? std::lerp(grain.shadows, grain.mids, smooth((lightness - kLow) / (kMiddle - kLow)))
          : std::lerp(grain.mids, grain.highlights,
                      smooth((lightness - kMiddle) / (kHigh - kMiddle)));
  const double room = std::min(lightness, 100 - lightness) / kSpare;
  return std::clamp(wanted, 0.0, std::max(0.0, room));
}

Result<std::unique_ptr<RowSource>> grained(std::unique_ptr<RowSource> rows, const Light& light,
                                           double ppi, const Grain& grain) {
  if (auto sound = check(grain); !sound) return sound.error();
  if (auto sound = within(kPpi, ppi); !sound) return sound.error();
  if (!grain.on || (grain.shadows == 0 && grain.mids == 0 && grain.highlights == 0)) return rows;
  return std::unique_ptr<RowSource>(std::make_unique<Grained>(std::move(rows), light, ppi, grain));
}

}  // namespace proofleaf::print
