#include "screen/unshown.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "proof/view.h"

namespace proofleaf::screen {
namespace {

constexpr double kVisible = 1;        // [dE00] about what is just seen
constexpr double kHalfLevel = 0.002;  // of a code 0..1: less is rounding

std::array<double, 3> values_of(const uint16_t* lanes) {
  std::array<double, 3> values{};
  for (size_t c = 0; c < 3; ++c) values[c] = (lanes[c] / 128.0 - 128) / 255;
  return values;
}

bool is_beyond(const std::array<double, 3>& wanted, const ScreenEncoder& encoder) {
  const auto [low, high] = std::minmax_element(wanted.begin(), wanted.end());
  if (*low > -kHalfLevel && *high < 1 + kHalfLevel) return false;
  std::array<double, 3> drawn = wanted;
  for (double& value : drawn) value = std::clamp(value, 0.0, 1.0);
  return delta_e_2000(lab_from_xyz(encoder.decode(wanted)), lab_from_xyz(encoder.decode(drawn))) >=
         kVisible;
}

}  // namespace

Result<Unshown> unshown(const Cube& cube, Screen canvas, const ShownTones& tones,
                        std::span<const uint16_t> rgb, size_t step) {
  auto encoder = ScreenEncoder::make(canvas);
  if (!encoder) return encoder.error();
  std::vector<uint16_t> some;
  for (size_t i = 0; i + 2 < rgb.size(); i += 3 * std::max<size_t>(1, step))
    some.insert(some.end(), {rgb[i], rgb[i + 1], rgb[i + 2]});
  const size_t count = some.size() / 3;
  if (count == 0) return Unshown{};
  std::vector<uint16_t> lanes(count * 4);
  apply_cube(cube, some, lanes);
  Unshown found;
  for (size_t i = 0; i < count; ++i) {
    const auto wanted = values_of(&lanes[i * 4]);
    const auto [low, high] = std::minmax_element(wanted.begin(), wanted.end());
    const long darkest = std::lround(255 * *low), lightest = std::lround(255 * *high);
    const bool beyond = is_beyond(wanted, encoder.value());
    const bool dark = lightest > 0 && lightest < tones.first_dark;
    const bool light = darkest < 255 && darkest > tones.last_light;
    found.beyond += beyond;
    found.dark += dark;
    found.light += light;
    found.any += beyond || dark || light;
  }
  for (double* share : {&found.beyond, &found.dark, &found.light, &found.any})
    *share /= double(count);
  return found;
}

}  // namespace proofleaf::screen
