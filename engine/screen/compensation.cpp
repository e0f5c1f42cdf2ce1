#include "screen/compensation.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "proof/view.h"

namespace proofleaf::screen {
namespace {

constexpr size_t kEntries = 4097;

// The code that shows each of kEntries meant codes: the response turned round.
std::vector<double> turned(const Response& response) {
  std::vector<double> shown(kEntries);
  for (size_t i = 0; i < kEntries; ++i) shown[i] = response.shown(double(i) / (kEntries - 1));
  for (size_t i = 1; i < kEntries; ++i) shown[i] = std::max(shown[i], shown[i - 1]);
  std::vector<double> codes(kEntries);
  for (size_t i = 0, at = 0; i < kEntries; ++i) {
    const double meant = double(i) / (kEntries - 1);
    while (at + 2 < kEntries && shown[at + 1] < meant) ++at;
    const double step = shown[at + 1] - shown[at];
    const double part = step > 0 ? std::clamp((meant - shown[at]) / step, 0.0, 1.0) : 0;
    codes[i] = (double(at) + part) / (kEntries - 1);
  }
  return codes;
}

// How much of each channel's light gives a grey the tint, none above 1. Once the responses are made
// up for, a grey has equal parts of all three.
std::array<double, 3> gains_for(const Neutral& neutral, Screen canvas,
                                const std::array<Response, 3>& responses) {
  const auto tinted = neutral_codes(neutral, canvas);
  std::array<double, 3> gains{};
  for (size_t c = 0; c < 3; ++c) gains[c] = responses[c].light(tinted[c] / 255.0);
  const double most = *std::max_element(gains.begin(), gains.end());
  for (double& gain : gains) gain /= most;
  return gains;
}

// A lane's code is 128 * (255 x + 128), less 32768 where it is kept; see cube.h.
double value_of_lane(int lane) { return (lane + 16384) / (128 * 255.0); }
size_t place_of(int lane) {
  const int place = lane + 32768;
  return static_cast<size_t>(place);
}
int16_t lane_of_value(double value) {
  return int16_t(std::clamp(std::lround(value * 128 * 255) - 16384, -32768L, 32767L));
}

}  // namespace

Result<Compensation> Compensation::from(const Answers& answers, Screen canvas) {
  const auto responses = responses_of(answers);
  if (!responses) return responses.error();
  Compensation made;
  for (size_t c = 0; c < 3; ++c) made.codes_[c] = turned(responses.value()[c]);
  if (answers.neutral) made.gains_ = gains_for(*answers.neutral, canvas, responses.value());
  return made;
}

double Compensation::code(size_t channel, double wanted) const {
  const double meant = srgb_encode(gains_[channel] * srgb_decode(wanted));
  if (meant <= 0 || meant >= 1) return meant;
  const std::vector<double>& codes = codes_[channel];
  const double at = meant * (kEntries - 1);
  const auto low = std::min(size_t(at), kEntries - 2);
  return codes[low] + (codes[low + 1] - codes[low]) * (at - double(low));
}

Price price_of(const Compensation& compensation) {
  Price price;
  for (size_t c = 0; c < 3; ++c) {
    std::set<long> levels;
    int swallowed = 0;
    for (int code = 0; code < 256; ++code) {
      const long drawn = std::lround(255 * compensation.code(c, code / 255.0));
      levels.insert(drawn);
      if (code > 0 && drawn == 0) ++swallowed;
    }
    price.levels = std::min(price.levels, int(levels.size()));
    price.swallowed = std::max(price.swallowed, swallowed);
  }
  std::array<double, 3> white{};
  for (size_t c = 0; c < 3; ++c) white[c] = srgb_encode(compensation.gain(c));
  price.white = ScreenEncoder::srgb().decode(white).y;
  return price;
}

void fold(const Compensation& compensation, Cube& cube) {
  std::array<std::vector<int16_t>, 3> lanes;
  for (size_t c = 0; c < 3; ++c) {
    lanes[c].resize(65536);
    for (int lane = -32768; lane < 32768; ++lane)
      lanes[c][place_of(lane)] = lane_of_value(compensation.code(c, value_of_lane(lane)));
  }
  for (std::vector<int16_t>* nodes : {&cube.nodes, &cube.fine})
    for (size_t i = 0; i + 3 < nodes->size(); i += 4)
      for (size_t c = 0; c < 3; ++c) {
        int16_t& lane = (*nodes)[i + c];
        lane = lanes[c][place_of(lane)];
      }
}

void compensate(const Compensation& compensation, std::span<uint8_t> rgba) {
  std::array<std::array<uint8_t, 256>, 3> drawn{};
  for (size_t c = 0; c < 3; ++c)
    for (size_t code = 0; code < 256; ++code)
      drawn[c][code] = uint8_t(
          std::clamp(std::lround(255 * compensation.code(c, double(code) / 255)), 0L, 255L));
  for (size_t i = 0; i + 3 < rgba.size(); i += 4)
    for (size_t c = 0; c < 3; ++c) rgba[i + c] = drawn[c][rgba[i + c]];
}

}  // namespace proofleaf::screen
