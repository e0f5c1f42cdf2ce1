#include "condition_pictures.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "colour/lab.h"

namespace proofleaf::test {
namespace {

// 0..1, a function of place and seed alone.
double hashed(int64_t x, int64_t y, uint32_t seed) {
  uint64_t h = static_cast<uint64_t>(x) * 0x9E3779B97F4A7C15u ^
               static_cast<uint64_t>(y) * 0xC2B2AE3D27D4EB4Fu ^ seed * 0x165667B19E3779F9u;
  h ^= h >> 29;
  h *= 0xBF58476D1CE4E5B9u;
  h ^= h >> 32;
  return double(h >> 11) / 9007199254740992.0;
}

// Smooth noise, -1..1, features about one unit wide.
double smooth_noise(double x, double y, uint32_t seed) {
  const auto ix = static_cast<int64_t>(std::floor(x)), iy = static_cast<int64_t>(std::floor(y));
  const double fx = x - double(ix), fy = y - double(iy);
  const double u = fx * fx * (3 - 2 * fx), v = fy * fy * (3 - 2 * fy);
  const double top = hashed(ix, iy, seed) * (1 - u) + hashed(ix + 1, iy, seed) * u;
  const double bottom = hashed(ix, iy + 1, seed) * (1 - u) + hashed(ix + 1, iy + 1, seed) * u;
  return 2 * (top * (1 - v) + bottom * v) - 1;
}

// Octaves from 131 pixels down to about 2, amplitude falling with frequency to the power `fall`;
// each lattice is turned and sized so that none keeps to a grid of whole pixels.
double octaves(double x, double y, uint32_t seed, double fall) {
  double sum = 0, scale = 1, size = 131;
  for (uint32_t i = 0; i < 7; ++i) {
    const double c = std::cos(0.5 + i), s = std::sin(0.5 + i);
    sum += scale * smooth_noise((c * x + s * y) / size, (c * y - s * x) / size, seed * 31 + i);
    scale *= std::pow(0.5, fall);
    size /= 1.93;
  }
  return sum;
}

double brick(double x, double y, uint32_t seed) {
  const double row = std::floor(y / 22);
  const double shifted = x + (std::fmod(row, 2) == 0 ? 0 : 29);
  const double in_x = std::fmod(shifted, 58), in_y = y - row * 22;
  const double edge = std::min({in_x, 58 - in_x, in_y, 22 - in_y});
  const double mortar = std::clamp((edge - 1.5) / 1.2, 0.0, 1.0);
  const double tint =
      12 * hashed(static_cast<int64_t>(shifted / 58), static_cast<int64_t>(row), seed);
  return 68 * (1 - mortar) + (38 + tint) * mortar + 4 * octaves(x, y, seed, 0.3);
}

double water(double x, double y, uint32_t seed) {
  const double wave =
      smooth_noise(x / 22, y / 6, seed) + 0.6 * smooth_noise(x / 9, y / 2.5, seed + 1);
  const double glitter = std::max(0.0, wave - 1.05) * 160;
  return std::min(100.0, 35 + 12 * wave + glitter);
}

double gravel(double x, double y, uint32_t seed) {
  double best = 1e9, shade = 0;
  const auto cx = static_cast<int64_t>(x / 14), cy = static_cast<int64_t>(y / 14);
  for (int64_t j = cy - 1; j <= cy + 1; ++j) {
    for (int64_t i = cx - 1; i <= cx + 1; ++i) {
      const double px = (double(i) + hashed(i, j, seed)) * 14,
                   py = (double(j) + hashed(j, i, seed + 7)) * 14;
      const double d = std::hypot(x - px, y - py);
      if (d >= best) continue;
      best = d;
      shade = hashed(i, j, seed + 9);
    }
  }
  return 30 + 40 * shade - 1.6 * best + 3 * octaves(x, y, seed, 0.2);
}

}  // namespace

Tones tones(uint32_t width, uint32_t height, const std::function<double(double, double)>& of) {
  Tones picture{width, height, std::vector<double>(size_t{width} * height)};
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) picture.at(x, y) = of(x, y);
  }
  return picture;
}

void add_noise(Tones& picture, double sigma, uint32_t seed) {
  std::mt19937 random(seed);
  const auto uniform = [&] { return (double(random()) + 0.5) / 4294967296.0; };
  for (double& l : picture.l) {  // Box and Muller
    l += sigma * std::sqrt(-2 * std::log(uniform())) * std::cos(2 * std::numbers::pi * uniform());
  }
}

const char* name_of(Texture texture) {
  constexpr const char* kNames[] = {"foliage", "brick", "water", "gravel", "grass", "cloth"};
  return kNames[static_cast<size_t>(texture)];
}

Tones texture(Texture kind, uint32_t width, uint32_t height, uint32_t seed) {
  return tones(width, height, [&](double x, double y) {
    switch (kind) {
      case Texture::foliage:
        return std::clamp(40 + 14 * octaves(x, y, seed, 0.6), 0.0, 100.0);
      case Texture::brick:
        return brick(x, y, seed);
      case Texture::water:
        return water(x, y, seed);
      case Texture::gravel:
        return gravel(x, y, seed);
      case Texture::grass:
        return 45 + 18 * smooth_noise(x / 2.2, y / 17, seed) + 8 * octaves(x, y, seed, 0.5);
      case Texture::cloth:
        break;
    }
    return 60 + 5 * std::sin(x * 0.9) * std::cos(y * 0.8) + 3 * octaves(x, y, seed, 0.9);
  });
}

uint16_t srgb_sample(double l, uint32_t bits) {
  const double y = std::clamp(xyz_from_lab({l, 0, 0}).y, 0.0, 1.0);
  const double v = y <= 0.0031308 ? 12.92 * y : 1.055 * std::pow(y, 1 / 2.4) - 0.055;
  return static_cast<uint16_t>(bits == 8 ? std::lround(v * 255) * 257 : std::lround(v * 65535));
}

std::vector<uint16_t> rgb_of(const Tones& picture, uint32_t bits) {
  std::vector<uint16_t> rgb;
  rgb.reserve(picture.l.size() * 3);
  for (const double l : picture.l) rgb.insert(rgb.end(), 3, srgb_sample(l, bits));
  return rgb;
}

Bytes tiff_of(uint32_t width, uint32_t height, const std::vector<uint16_t>& rgb, uint32_t bits) {
  WriteSpec spec;
  spec.container = Container::tiff;
  spec.width = width;
  spec.height = height;
  spec.bits = bits;
  static const Bytes icc = standard_profile("srgb").value().bytes();
  spec.icc = icc;
  MemorySink sink;
  auto writer = open_writer(spec, sink);
  REQUIRE(writer);
  if (bits == 8) {
    std::vector<uint8_t> narrow(rgb.size());
    std::transform(rgb.begin(), rgb.end(), narrow.begin(),
                   [](uint16_t v) { return static_cast<uint8_t>(v / 257); });
    REQUIRE(writer.value()->write8(narrow, height).ok());
  } else {
    REQUIRE(writer.value()->write16(rgb, height).ok());
  }
  REQUIRE(writer.value()->finish().ok());
  return sink.take();
}

ConditionReport report_of(const Bytes& file, const ConditionSettings& settings) {
  auto master = open_master(memory("picture", file));
  REQUIRE(master);
  auto colour = master_colour(master.value()->info(), "picture", "", {});
  REQUIRE(colour);
  auto report = examine(*master.value(), colour.value(), settings, {});
  REQUIRE_MESSAGE(report.ok(), (report.ok() ? "" : report.error().message));
  return report.take();
}

const Finding* finding(const ConditionReport& report, const std::string& id) {
  for (const Finding& one : report.findings) {
    if (one.id == id) return &one;
  }
  return nullptr;
}

Finding found(const ConditionReport& report, const std::string& id) {
  const Finding* one = finding(report, id);
  REQUIRE_MESSAGE(one != nullptr, id);
  return *one;
}

double number(const Finding& finding, const std::string& name) {
  for (const auto& [key, value] : finding.numbers) {
    if (key == name) return value;
  }
  return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace proofleaf::test
