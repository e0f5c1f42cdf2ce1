// A master's own numbers as linear light and as lightness, and back, fast.
//
// Profiles of matrix and curves (all working spaces) are linearised by their own curves, ICC.1:2022
// F.3. Profiles with colour tables have none; for them the luminance along their own greys stands
// in on all three channels, and note() says so. Lightness is CIE 1976 L* of the luminance, which is
// exact for the first kind and an approximation for the second.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "colour/profile.h"

namespace proofleaf::print {

// A smooth function of a number from 0 to 2, by its binary digits: 512 straight pieces to each
// doubling, so that relative accuracy is the same in the deepest shadow. Outside of 2^-36..2 it
// stays at its value there.
class DoublingTable {
 public:
  DoublingTable() = default;
  explicit DoublingTable(const std::function<double(double)>& of);
  float at(float x) const {
    const uint32_t bits = bits_of(x < kLowest ? kLowest : (x > kHighest ? kHighest : x));
    const uint32_t place = (bits >> kShift) - kFirst;
    const float part = static_cast<float>(bits & kMask) * kPart;
    return values_[place] + (values_[place + 1] - values_[place]) * part;
  }

 private:
  // std::bit_cast, which not every standard library has yet.
  static constexpr uint32_t bits_of(float x) { return __builtin_bit_cast(uint32_t, x); }
  static constexpr float kLowest = 0x1p-36f, kHighest = 0x1.fffffep0f;
  static constexpr uint32_t kShift = 14, kMask = (1u << kShift) - 1;
  static constexpr float kPart = 1.0f / (1u << kShift);
  static constexpr uint32_t kFirst = __builtin_bit_cast(uint32_t, kLowest) >> kShift;
  std::vector<float> values_;
};

class Light {
 public:
  // Error: the profile is not RGB or has no usable way from its numbers to colour.
  static Result<Light> of(const Profile& profile);

  // A sentence where an approximation is made, else empty.
  const std::string& note() const { return note_; }

  // Linear light 0..1 of a channel's code. Rising, so that encode() finds every code again (where a
  // profile's own curve is flat, one of the same colour).
  float linear(size_t channel, uint16_t code) const { return (*decode_[channel])[code]; }
  // The nearest code to a channel's linear light; what lies outside 0..1 is held.
  uint16_t encode(size_t channel, float light) const {
    const float code = encode_[channel]->at(light < 0 ? 0 : light);
    return static_cast<uint16_t>((code > 65535.0f ? 65535.0f : code) + 0.5f);
  }
  // Luminance 0..1 of linear light, white 1.
  float luminance(float r, float g, float b) const {
    return weights_[0] * r + weights_[1] * g + weights_[2] * b;
  }
  float luminance(const uint16_t* rgb) const {
    return luminance(linear(0, rgb[0]), linear(1, rgb[1]), linear(2, rgb[2]));
  }
  // CIE 15:2018 8.2.1, luminance 0..1 to L* 0..100 and back.
  float lightness(float luminance) const { return lightness_->at(luminance); }
  static float luminance_of(float lightness);
  float lightness(const uint16_t* rgb) const { return lightness(luminance(rgb)); }
  // A pixel brought to another L* (held to 0..100) by one factor on its linear light, so that its
  // colour stays. Near black, where a factor means nothing, light is added instead. No channel is
  // driven past white, which would turn the hue: a colour that is at its fullest stays.
  void set_lightness(const uint16_t* rgb, float lightness, uint16_t* out) const;
  // The code of a neutral of this L*, the same on all three channels of every working space.
  std::array<uint16_t, 3> neutral(double lightness) const;

 private:
  using Decode = std::shared_ptr<const std::vector<float>>;
  std::array<Decode, 3> decode_;
  std::array<std::shared_ptr<const DoublingTable>, 3> encode_;
  std::shared_ptr<const DoublingTable> lightness_;
  std::array<float, 3> weights_{};
  std::string note_;
};

}  // namespace proofleaf::print
