#include "share/shown_offer.h"

#include <algorithm>
#include <cmath>

#include "proof/cube.h"
#include "proof/view.h"

namespace proofleaf {
namespace {

constexpr size_t kLights = 16384;  // steps of linear light: five to an 8-bit level near black

uint8_t code8(double level) {
  return static_cast<uint8_t>(std::lround(std::clamp(level, 0.0, 1.0) * 255));
}

// Takes a paper's white off its proof, in linear light.
class WhiteTakenOff {
 public:
  explicit WhiteTakenOff(const Lab& paper_white) : light_(kCodes), level_(kLights + 1) {
    for (size_t code = 0; code < kCodes; ++code)  // of a screen cube's lane, proof/cube.h
      light_[code] = static_cast<float>(srgb_decode((double(code) / 128 - 128) / 255));
    for (size_t i = 0; i <= kLights; ++i) level_[i] = code8(srgb_encode(double(i) / kLights));
    const XYZ white = xyz_from_lab(paper_white);
    const ScreenEncoder screen = ScreenEncoder::srgb();
    for (size_t c = 0; c < 3; ++c) {
      std::array<double, 3> one{};
      one[c] = 1;
      const XYZ xyz = screen.decode(one);
      const auto rgb = screen.encode(
          {xyz.x * kD50.x / white.x, xyz.y * kD50.y / white.y, xyz.z * kD50.z / white.z});
      for (size_t r = 0; r < 3; ++r) matrix_[r][c] = static_cast<float>(srgb_decode(rgb[r]));
    }
  }

  void operator()(const uint16_t* lanes, uint8_t* rgba) const {
    for (size_t r = 0; r < 3; ++r) {
      float light = 0;
      for (size_t c = 0; c < 3; ++c) light += matrix_[r][c] * light_[lanes[c]];
      rgba[r] = level_[static_cast<size_t>(std::clamp(light, 0.0f, 1.0f) * kLights + 0.5f)];
    }
  }

 private:
  std::vector<float> light_;
  std::vector<uint8_t> level_;
  std::array<std::array<float, 3>, 3> matrix_{};
};

void show_without_white(const Cube& cube, const OfferPicture& picture, const Lab& white,
                        Bytes& rgba) {
  const WhiteTakenOff take_off(white);
  const size_t width = picture.width;
  std::vector<uint16_t> codes(width * 3), lanes(width * 4);
  for (size_t y = 0; y < picture.height; ++y) {
    std::transform(&picture.rgb[y * width * 3], &picture.rgb[y * width * 3] + width * 3,
                   codes.begin(), [](uint8_t code) { return static_cast<uint16_t>(code * 257); });
    apply_cube(cube, codes, lanes);
    for (size_t x = 0; x < width; ++x) take_off(&lanes[x * 4], &rgba[(y * width + x) * 4]);
  }
}

bool can_be_taken_off(const Lab& white) {
  const XYZ xyz = xyz_from_lab(white);
  return std::min({xyz.x, xyz.y, xyz.z}) > 0.05;
}

}  // namespace

Bytes shown_on(const Offer& offer, const OfferPicture& picture, size_t paper, bool paper_white) {
  if (paper >= offer.papers.size()) return {};
  const OfferPaper& on = offer.papers[paper];
  const Cube cube = cube_of(offer.set, on.nodes);
  Bytes rgba(picture.rgb.size() / 3 * 4);
  if (paper_white || !can_be_taken_off(on.white))
    proof_to_screen8(cube, picture.rgb, rgba);
  else
    show_without_white(cube, picture, on.white, rgba);
  for (size_t i = 3; i < rgba.size(); i += 4) rgba[i] = 255;
  return rgba;
}

std::array<uint8_t, 3> screen_white(const OfferPaper& paper) {
  const auto rgb = ScreenEncoder::srgb().encode(xyz_from_lab(paper.white));
  return {code8(rgb[0]), code8(rgb[1]), code8(rgb[2])};
}

}  // namespace proofleaf
