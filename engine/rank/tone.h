// Tone kept: how much of a picture's visible local contrast in lightness is left on paper.
//
// The lightness plane is split into bands of detail by a Laplacian pyramid (Burt and Adelson, "The
// Laplacian pyramid as a compact image code", IEEE Trans. Commun. 31, 1983). Each band's value over
// the local mean's threshold is its local contrast, band by band as in Peli, "Contrast in complex
// images", J. Opt. Soc. Am. A 7 (1990). The threshold is CIEDE2000's lightness weight S_L at the
// local mean, so that 1 is about one just noticeable step of L*. No contrast sensitivity over
// spatial frequency is applied: all bands count alike.
//
//   x = band / S_L(mean)              contrast in just noticeable steps
//   v = x * x^2 / (1 + x^2)           what is seen of it: little below one step, all of it above
//   k = min(v paper, v master) / v master                 where both have the same sign, else 0
//   kept = sum v * k / sum v                              over the master's v
//   gone = sum v * max(0, 1 - 2 k) / sum v                what falls below half: detail that closes
//                                                         up, where kept only grows flatter
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace proofleaf {

// Thirds of the master's L*, by its local mean.
enum class Zone { shadows, midtones, highlights };
inline constexpr size_t kZones = 3;
inline constexpr double kShadowsEnd = 100.0 / 3, kMidtonesEnd = 200.0 / 3;  // [L*]

// What a picture's contrast is made of, to compare others with. Planes of the pyramid's levels.
class ToneBands {
 public:
  // lightness: width x height values of L*.
  ToneBands(std::span<const float> lightness, uint32_t width, uint32_t height);

  struct Level {
    uint32_t width = 0, height = 0;
    std::vector<float> seen;  // v, with the band's sign
    std::vector<float> mean;  // L* of the surroundings
  };
  const std::vector<Level>& levels() const { return levels_; }

 private:
  std::vector<Level> levels_;
};

struct ToneShares {
  std::array<double, kZones> kept{1, 1, 1};  // share of the visible contrast, 0..1; 1 of none
  std::array<double, kZones> gone{};         // share of it, 0..1; 0 of none
  double all_kept = 1, all_gone = 0;         // over all zones
};

// paper: L* of a picture of the master's size.
ToneShares tone_kept(const ToneBands& master, std::span<const float> paper);

// The master's tones by zone.
struct ToneRange {
  double share = 0;  // of the picture's area
  double steps = 0;  // just noticeable steps of L* from the zone's 1st to its 99th percentile
};
// lightness: values of L*.
std::array<ToneRange, kZones> tone_ranges(std::span<const float> lightness);

// CIEDE2000's S_L (Sharma, Wu and Dalal 2005, equation 18), 1 at L* 50 to 1.75 at 0 and 100.
double lightness_weight(double l);

}  // namespace proofleaf
