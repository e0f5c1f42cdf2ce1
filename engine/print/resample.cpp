#include "print/resample.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <numbers>

#include "print/row_window.h"

namespace proofleaf::print {
namespace {

constexpr double kLobes = 3;

// Four floats at a time, in the machine's own registers: a pixel and a spare lane.
using Lanes = float __attribute__((vector_size(16)));
constexpr size_t kLanes = 4;

Lanes load(const float* from) {
  Lanes lanes;
  std::memcpy(&lanes, from, sizeof lanes);
  return lanes;
}
Lanes least(Lanes a, Lanes b) { return a < b ? a : b; }
Lanes most(Lanes a, Lanes b) { return a > b ? a : b; }

// The pixels that make one pixel of the result. The middle lobe is a run within them.
struct Taps {
  uint32_t first = 0, count = 0, lobe = 0, lobe_count = 0;
  size_t weights = 0;  // where its weights begin
};

class Filter {
 public:
  Filter(uint32_t from, uint32_t to) {
    const double scale = double(from) / to, widen = std::max(1.0, scale);
    for (uint32_t i = 0; i < to; ++i) add((i + 0.5) * scale - 0.5, widen, from);
  }
  const Taps& operator[](uint32_t i) const { return taps_[i]; }
  const float* weights(const Taps& taps) const { return &weights_[taps.weights]; }
  uint32_t longest() const { return longest_; }

 private:
  void add(double centre, double widen, uint32_t from) {
    const double reach = kLobes * widen;
    const int64_t last_pixel = int64_t{from} - 1;
    auto inside = [&](int64_t k) {
      return static_cast<uint32_t>(std::clamp<int64_t>(k, 0, last_pixel));
    };
    auto low = static_cast<int64_t>(std::ceil(centre - reach));
    auto high = static_cast<int64_t>(std::floor(centre + reach));
    constexpr double kNothing = 1e-9;  // weights at the sinc's own zeros
    auto weight = [&](int64_t k) { return lanczos3((double(k) - centre) / widen); };
    while (low < high && std::abs(weight(low)) < kNothing) ++low;
    while (high > low && std::abs(weight(high)) < kNothing) --high;
    Taps taps{inside(low), inside(high) - inside(low) + 1, 0, 0, weights_.size()};
    std::vector<double> weights(taps.count);
    double sum = 0;
    uint32_t lobe_end = 0;
    taps.lobe = taps.count;
    for (int64_t k = low; k <= high; ++k) {
      const uint32_t place = inside(k) - taps.first;
      weights[place] += weight(k);
      sum += weight(k);
      if (std::abs(double(k) - centre) < widen * (1 - kNothing)) {
        taps.lobe = std::min(taps.lobe, place);
        lobe_end = std::max(lobe_end, place + 1);
      }
    }
    taps.lobe_count = lobe_end - taps.lobe;
    for (const double w : weights) weights_.push_back(static_cast<float>(w / sum));
    longest_ = std::max(longest_, taps.count);
    taps_.push_back(taps);
  }

  std::vector<Taps> taps_;
  std::vector<float> weights_;
  uint32_t longest_ = 1;
};

class Resampled final : public RowSource {
 public:
  Resampled(std::unique_ptr<RowSource> rows, const Light& light, uint32_t width, uint32_t height)
      : rows_(std::move(rows)),
        light_(light),
        from_(rows_->format()),
        to_{width, height, 3},
        across_(from_.width, width),
        down_(from_.height, height),
        codes_(from_.row_samples()),
        linear_(size_t{from_.width} * kLanes),
        window_(to_.row_samples() + kLanes, down_.longest()) {}

  RowFormat format() const override { return to_; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    for (uint32_t i = 0; i < count; ++i) {
      const Taps& taps = down_[first + i];
      const auto make = [this](uint32_t y, float* row) { return make_row(y, row); };
      if (auto held = window_.hold(taps.first, taps.first + taps.count, make); !held) return held;
      join(taps, &into[to_.row_samples() * i]);
    }
    return done();
  }

 private:
  // A row of the master at the new width, in linear light.
  Status make_row(uint32_t y, float* out) {
    if (auto got = rows_->read(y, 1, codes_); !got) return got;
    for (uint32_t x = 0; x < from_.width; ++x) {
      for (size_t c = 0; c < 3; ++c) {
        linear_[x * kLanes + c] = light_.linear(c, codes_[size_t{x} * 3 + c]);
      }
    }
    for (uint32_t x = 0; x < to_.width; ++x, out += 3) {
      const Taps& taps = across_[x];
      const float* in = &linear_[size_t{taps.first} * kLanes];
      const float* weights = across_.weights(taps);
      Lanes sum{};
      for (uint32_t k = 0; k < taps.count; ++k) sum += weights[k] * load(in + k * kLanes);
      const float* lobe = in + size_t{taps.lobe} * kLanes;
      Lanes low = load(lobe), high = low;
      for (uint32_t k = 1; k < taps.lobe_count; ++k) {
        low = least(low, load(lobe + k * kLanes));
        high = most(high, load(lobe + k * kLanes));
      }
      sum = most(least(sum, high * (1 + kRinging)), low * (1 - kRinging));
      std::memcpy(out, &sum, sizeof sum);  // the next pixel writes over the spare lane
    }
    return done();
  }

  void join(const Taps& taps, uint16_t* out) const {
    constexpr size_t kChunk = 384;  // stays in the nearest cache; whole pixels
    float sum[kChunk], low[kChunk], high[kChunk];
    const float* weights = down_.weights(taps);
    for (size_t start = 0; start < to_.row_samples(); start += kChunk) {
      const size_t n = std::min(kChunk, to_.row_samples() - start);
      std::fill_n(sum, n, 0.0f);
      for (uint32_t k = 0; k < taps.count; ++k) {
        const float* in = window_.row(taps.first + k) + start;
        const float weight = weights[k];
        for (size_t i = 0; i < n; ++i) sum[i] += weight * in[i];
      }
      const float* nearest = window_.row(taps.first + taps.lobe) + start;
      std::copy_n(nearest, n, low);
      std::copy_n(nearest, n, high);
      for (uint32_t k = 1; k < taps.lobe_count; ++k) {
        const float* in = window_.row(taps.first + taps.lobe + k) + start;
        for (size_t i = 0; i < n; ++i) low[i] = low[i] < in[i] ? low[i] : in[i];
        for (size_t i = 0; i < n; ++i) high[i] = high[i] > in[i] ? high[i] : in[i];
      }
      for (size_t i = 0; i < n; ++i) {
        const float top = high[i] * (1 + kRinging), floor = low[i] * (1 - kRinging);
        sum[i] = sum[i] > top ? top : (sum[i] < floor ? floor : sum[i]);
      }
      for (size_t i = 0; i < n; i += 3) {
        for (size_t c = 0; c < 3; ++c) out[start + i + c] = light_.encode(c, sum[i + c]);
      }
    }
  }

  std::unique_ptr<RowSource> rows_;
  Light light_;
  RowFormat from_, to_;
  Filter across_, down_;
  std::vector<uint16_t> codes_;
  std::vector<float> linear_;
  RowWindow<float> window_;
};

class Cropped final : public RowSource {
 public:
  Cropped(std::unique_ptr<RowSource> rows, uint32_t x, uint32_t y, uint32_t width, uint32_t height)
      : rows_(std::move(rows)), x_(x), y_(y), to_{width, height, 3} {
    row_.resize(rows_->format().row_samples());
  }
  RowFormat format() const override { return to_; }
  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    for (uint32_t i = 0; i < count; ++i) {
      if (auto got = rows_->read(y_ + first + i, 1, row_); !got) return got;
      std::copy_n(&row_[size_t{x_} * 3], to_.row_samples(), &into[to_.row_samples() * i]);
    }
    return done();
  }

 private:
  std::unique_ptr<RowSource> rows_;
  uint32_t x_, y_;
  RowFormat to_;
  std::vector<uint16_t> row_;
};

}  // namespace

double lanczos3(double t) {
  if (std::abs(t) >= kLobes) return 0;
  const double x = std::numbers::pi * t;
  if (std::abs(x) < 1e-9) return 1;
  return std::sin(x) / x * std::sin(x / kLobes) / (x / kLobes);
}

Result<std::unique_ptr<RowSource>> resampled(std::unique_ptr<RowSource> rows, const Light& light,
                                             uint32_t width, uint32_t height) {
  const RowFormat from = rows->format();
  if (width == 0 || height == 0 || from.width == 0 || from.height == 0) {
    return Error{"A picture of no pixels cannot be brought to another size."};
  }
  if (from.width == width && from.height == height) return rows;
  return std::unique_ptr<RowSource>(
      std::make_unique<Resampled>(std::move(rows), light, width, height));
}

Result<std::unique_ptr<RowSource>> cropped(std::unique_ptr<RowSource> rows, uint32_t x, uint32_t y,
                                           uint32_t width, uint32_t height) {
  const RowFormat from = rows->format();
  if (width == 0 || height == 0 || uint64_t{x} + width > from.width ||
      uint64_t{y} + height > from.height) {
    return Error{"That part does not lie inside the picture."};
  }
  if (width == from.width && height == from.height) return rows;
  return std::unique_ptr<RowSource>(
      std::make_unique<Cropped>(std::move(rows), x, y, width, height));
}

}  // namespace proofleaf::print
