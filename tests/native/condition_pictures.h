// Pictures with a known condition, and what the examination says of them.
#pragma once

#include <functional>
#include <random>
#include <string>
#include <vector>

#include "condition/condition.h"
#include "pictures.h"

namespace proofleaf::test {

// Neutral picture in L*.
struct Tones {
  uint32_t width = 0, height = 0;
  std::vector<double> l;
  double& at(uint32_t x, uint32_t y) { return l[size_t{y} * width + x]; }
  double at(uint32_t x, uint32_t y) const { return l[size_t{y} * width + x]; }
};
Tones tones(uint32_t width, uint32_t height, const std::function<double(double, double)>& of);

// White noise of a standard deviation [L*], the same for the same seed.
void add_noise(Tones& picture, double sigma, uint32_t seed);

// Seeded textures, none of which holds a spot, a halo or a band.
enum class Texture { foliage, brick, water, gravel, grass, cloth };
constexpr Texture kTextures[] = {Texture::foliage, Texture::brick, Texture::water,
                                 Texture::gravel,  Texture::grass, Texture::cloth};
const char* name_of(Texture texture);
Tones texture(Texture kind, uint32_t width, uint32_t height, uint32_t seed);

// sRGB sample 0..65535 of a neutral L*, IEC 61966-2-1 turned round.
uint16_t srgb_sample(double l, uint32_t bits = 16);

// Interleaved RGB samples, all of one bit depth (8-bit ones times 257).
std::vector<uint16_t> rgb_of(const Tones& picture, uint32_t bits = 16);

// A TIFF in sRGB.
Bytes tiff_of(uint32_t width, uint32_t height, const std::vector<uint16_t>& rgb,
              uint32_t bits = 16);
inline Bytes tiff_of(const Tones& picture, uint32_t bits = 16) {
  return tiff_of(picture.width, picture.height, rgb_of(picture, bits), bits);
}

ConditionReport report_of(const Bytes& file, const ConditionSettings& settings = {});

// Null where the report does not tell of it.
const Finding* finding(const ConditionReport& report, const std::string& id);
// REQUIREs that it is there.
Finding found(const ConditionReport& report, const std::string& id);
// NaN, which no check accepts, where it is not there.
double number(const Finding& finding, const std::string& name);

}  // namespace proofleaf::test
