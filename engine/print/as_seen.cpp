#include "print/as_seen.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "print/ranges.h"

namespace proofleaf::print {
namespace {

using Wave = std::complex<float>;
constexpr uint32_t kApron = 32;  // [pixels] mirrored between the two ends, at least

// The discrete Fourier transform of a power of two of values, each `step` apart, in place: Cooley
// and Tukey, Math. Comput. 19 (1965). back: the inverse, without its factor.
void transform(Wave* values, uint32_t count, uint32_t step, bool back) {
  for (uint32_t i = 1, j = 0; i < count; ++i) {
    uint32_t bit = count >> 1;
    for (; (j & bit) != 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) std::swap(values[size_t{i} * step], values[size_t{j} * step]);
  }
  for (uint32_t length = 2; length <= count; length *= 2) {
    const double angle = (back ? 2 : -2) * std::numbers::pi / length;
    for (uint32_t k = 0; k < length / 2; ++k) {
      const Wave turn(static_cast<float>(std::cos(angle * k)),
                      static_cast<float>(std::sin(angle * k)));
      for (uint32_t start = k; start < count; start += length) {
        Wave& one = values[size_t{start} * step];
        Wave& other = values[size_t{start + length / 2} * step];
        const Wave turned(other.real() * turn.real() - other.imag() * turn.imag(),
                          other.real() * turn.imag() + other.imag() * turn.real());
        other = one - turned;
        one += turned;
      }
    }
  }
}

void transform_plane(std::vector<Wave>& plane, uint32_t width, uint32_t height, bool back) {
  for (uint32_t y = 0; y < height; ++y) transform(&plane[size_t{y} * width], width, 1, back);
  for (uint32_t x = 0; x < width; ++x) transform(&plane[x], height, width, back);
}

uint32_t power_of_two(uint32_t least) {
  uint32_t power = 1;
  while (power < least) power *= 2;
  return power;
}

// The pixel that stands at a place of a side made longer, so that both ends meet without a step.
uint32_t mirrored(uint32_t at, uint32_t side, uint32_t longer) {
  if (at < side) return at;
  const uint32_t past = at - side;
  if (past < (longer - side) / 2) return side - 1 - std::min(past, side - 1);
  return std::min(longer - 1 - at, side - 1);
}

Status check(std::span<const float> light, uint32_t width, uint32_t height) {
  if (width == 0 || height == 0 || width > kLargestSeen || height > kLargestSeen ||
      light.size() != size_t{width} * height * 3) {
    return Error{"The piece of the print and its size do not agree."};
  }
  return done();
}

// [cycles per pixel] of a place in a transform.
double frequency(uint32_t at, uint32_t count) { return double(std::min(at, count - at)) / count; }

// The stretch of a side under one new pixel, as shares of the old pixels it touches.
struct Under {
  uint32_t first = 0;
  std::vector<float> shares;  // summing to 1
};
std::vector<Under> stretches(uint32_t from, uint32_t to) {
  std::vector<Under> all(to);
  const double each = double(from) / to;
  for (uint32_t i = 0; i < to; ++i) {
    const double begin = i * each, end = std::min((i + 1) * each, double(from));
    all[i].first = std::min(static_cast<uint32_t>(begin), from - 1);
    for (uint32_t k = all[i].first; k < from && k < end; ++k) {
      const double part = std::min(end, k + 1.0) - std::max(begin, double(k));
      all[i].shares.push_back(static_cast<float>(part / (end - begin)));
    }
  }
  return all;
}

}  // namespace

double contrast_sensitivity(double cycles_per_degree) {
  const double u = 0.114 * cycles_per_degree;
  return 2.6 * (0.0192 + u) * std::exp(-std::pow(u, 1.1));
}

double share_seen(double cycles_per_degree) {
  static const double most = contrast_sensitivity(kPeakSensitivity);
  return cycles_per_degree <= kPeakSensitivity ? 1 : contrast_sensitivity(cycles_per_degree) / most;
}

double pixels_per_degree(double ppi, double distance_mm) {
  return distance_mm * std::tan(std::numbers::pi / 180) * ppi / kMmPerInch;
}

Result<std::vector<float>> seen_from(std::span<const float> light, uint32_t width, uint32_t height,
                                     double ppi, double distance_mm) {
  if (const Status sound = check(light, width, height); !sound) return sound.error();
  if (!(ppi > 0) || !(distance_mm > 0)) return Error{"The distance must be more than nothing."};
  const uint32_t across = power_of_two(width + kApron), down = power_of_two(height + kApron);
  const double per_degree = pixels_per_degree(ppi, distance_mm);
  std::vector<Wave> plane(size_t{across} * down);
  std::vector<float> seen(light.size());
  for (size_t c = 0; c < 3; ++c) {
    for (uint32_t y = 0; y < down; ++y) {
      const size_t row = size_t{mirrored(y, height, down)} * width;
      for (uint32_t x = 0; x < across; ++x) {
        plane[size_t{y} * across + x] = light[(row + mirrored(x, width, across)) * 3 + c];
      }
    }
    transform_plane(plane, across, down, false);
    for (uint32_t y = 0; y < down; ++y) {
      for (uint32_t x = 0; x < across; ++x) {
        const double cycles = std::hypot(frequency(x, across), frequency(y, down));
        plane[size_t{y} * across + x] *= static_cast<float>(share_seen(cycles * per_degree));
      }
    }
    transform_plane(plane, across, down, true);
    const float scale = 1 / (float(across) * float(down));
    for (uint32_t y = 0; y < height; ++y) {
      for (uint32_t x = 0; x < width; ++x) {
        seen[(size_t{y} * width + x) * 3 + c] = plane[size_t{y} * across + x].real() * scale;
      }
    }
  }
  return seen;
}

Result<std::vector<float>> on_pixels(std::span<const float> light, uint32_t width, uint32_t height,
                                     uint32_t to_width, uint32_t to_height) {
  if (const Status sound = check(light, width, height); !sound) return sound.error();
  if (to_width == 0 || to_height == 0 || to_width > kLargestSeen || to_height > kLargestSeen) {
    return Error{"The piece of the print and its size do not agree."};
  }
  const auto across = stretches(width, to_width), down = stretches(height, to_height);
  std::vector<float> all(size_t{to_width} * to_height * 3);
  for (uint32_t y = 0; y < to_height; ++y) {
    for (uint32_t x = 0; x < to_width; ++x) {
      float* out = &all[(size_t{y} * to_width + x) * 3];
      for (size_t j = 0; j < down[y].shares.size(); ++j) {
        for (size_t i = 0; i < across[x].shares.size(); ++i) {
          const float share = down[y].shares[j] * across[x].shares[i];
          const float* in = &light[((down[y].first + j) * width + across[x].first + i) * 3];
          for (size_t c = 0; c < 3; ++c) out[c] += share * in[c];
        }
      }
    }
  }
  return all;
}

}  // namespace proofleaf::print
