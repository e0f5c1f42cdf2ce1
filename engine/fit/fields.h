// The numbers of a correction and of a monochrome by name, each with its range: what checking and
// JSON go by. Internal to this folder.
#pragma once

#include <string>

#include "fit/monochrome.h"

namespace proofleaf {

inline constexpr std::array<const char*, 3> kToneNames{"shadows", "midtones", "highlights"};

// use(path, value, low, high); a path's parts are joined by dots. The curve is no such number.
template <class Any, class Use>
void each_correction_number(Any& correction, const Use& use) {
  use("shadows", correction.shadows, -7, 7);
  use("highlights", correction.highlights, -7, 7);
  use("contrast", correction.contrast, -100, 100);
  use("saturation", correction.saturation, -100, 100);
  for (size_t i = 0; i < kHueBands; ++i) {
    const std::string band = std::string("bands.") + kHueBandNames[i].name;
    use(band + ".chroma", correction.bands[i].chroma, -100, 100);
    use(band + ".turn", correction.bands[i].turn, -10, 10);
  }
  for (size_t i = 0; i < kToneNames.size(); ++i) {
    const std::string tone = std::string("neutral.") + kToneNames[i];
    use(tone + ".a", correction.neutral[i].a, -10, 10);
    use(tone + ".b", correction.neutral[i].b, -10, 10);
  }
  use("local_contrast", correction.local_contrast, -100, 100);
}

// As above, without the switch `on`.
template <class Any, class Use>
void each_monochrome_number(Any& monochrome, const Use& use) {
  constexpr std::array<const char*, 3> kChannels{"weights.red", "weights.green", "weights.blue"};
  for (size_t i = 0; i < kChannels.size(); ++i) use(kChannels[i], monochrome.weights[i], -2, 3);
  for (size_t i = 0; i < kHueBands; ++i) {
    use(std::string("bands.") + kHueBandNames[i].name, monochrome.bands[i], -30, 30);
  }
  use("shadows.hue", monochrome.shadows.hue, 0, 360);
  use("shadows.chroma", monochrome.shadows.chroma, 0, 30);
  use("highlights.hue", monochrome.highlights.hue, 0, 360);
  use("highlights.chroma", monochrome.highlights.chroma, 0, 30);
  use("balance", monochrome.balance, -100, 100);
}

// whose: "correction" or "monochrome"; what: the path.
Error out_of_range(const std::string& whose, const std::string& what, double low, double high);

}  // namespace proofleaf
