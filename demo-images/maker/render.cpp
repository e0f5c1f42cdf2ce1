#include <thread>

#include "noise.h"
#include "scene.h"

namespace proofleaf::demo {
namespace {

constexpr float kGrain = 0.0042f;  // standard deviation in encoded values, at mid tone

// Sum of uniform draws, close enough to a normal distribution; mean 0, deviation 1.
float grain(uint32_t x, uint32_t y, uint32_t seed) {
  float sum = 0;
  for (uint32_t i = 0; i < 4; ++i)
    sum += lottery(static_cast<int32_t>(x), static_cast<int32_t>(y), seed + i);
  return (sum - 2.0f) * 1.7320508f;
}

class Rendered final : public RowSource {
 public:
  Rendered(Scene scene, uint32_t width, uint32_t height, int keep_bits)
      : scene_(scene), format_{width, height, scene == Scene::saltings ? 3u : 1u} {
    step_ = static_cast<float>((1u << std::clamp(keep_bits, 8, 16)) - 1u);
  }
  RowFormat format() const override { return format_; }

  Status read(uint32_t first, uint32_t count, std::span<uint16_t> into) override {
    if (into.size() != count * format_.row_samples() || first + count > format_.height)
      return Error{"The scene was asked for rows it does not have."};
    const auto every = [&](uint32_t from, uint32_t stride) {
      for (uint32_t i = from; i < count; i += stride)
        row(first + i, into.subspan(i * format_.row_samples(), format_.row_samples()));
    };
    const uint32_t threads = std::min(count, std::max(1u, std::thread::hardware_concurrency()));
    std::vector<std::thread> others;
    for (uint32_t t = 1; t < threads; ++t) others.emplace_back(every, t, threads);
    every(0, threads);
    for (auto& t : others) t.join();
    return done();
  }

 private:
  uint16_t sample(float encoded, float g) const {
    const float noisy = encoded + kGrain * g * (0.35f + 1.3f * encoded * (1.0f - encoded) * 2.0f);
    return static_cast<uint16_t>(
        std::lround(std::round(clamp01(noisy) * step_) / step_ * 65535.0f));
  }

  void row(uint32_t y, std::span<uint16_t> out) const {
    const float aspect = scene_ == Scene::saltings ? 4.0f / 3.0f : 0.75f;
    Place at;
    at.pixel = 1.0f / static_cast<float>(format_.height);
    at.y = (static_cast<float>(y) + 0.5f) / static_cast<float>(format_.height);
    for (uint32_t x = 0; x < format_.width; ++x) {
      at.x = aspect * (static_cast<float>(x) + 0.5f) / static_cast<float>(format_.width);
      const float common = grain(x, y, 11);
      if (scene_ == Scene::stairwell) {
        out[x] = sample(std::pow(clamp01(stairwell(at)), 1.0f / 2.2f), common);
        continue;
      }
      const Light c = saltings(at);
      const std::array<float, 3> v{romm_encode(c.r), romm_encode(c.g), romm_encode(c.b)};
      for (uint32_t k = 0; k < 3; ++k)
        out[3 * x + k] = sample(v[k], 0.85f * common + 0.30f * grain(x, y, 23 + 7 * k));
    }
  }

  Scene scene_;
  RowFormat format_;
  float step_;
};

}  // namespace

std::unique_ptr<RowSource> render(Scene scene, uint32_t width, uint32_t height, int keep_bits) {
  return std::make_unique<Rendered>(scene, width, height, keep_bits);
}

}  // namespace proofleaf::demo
