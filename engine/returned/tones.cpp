// What a photo tells of a print's greys and tones.
#include <algorithm>
#include <cmath>

#include "returned/compare.h"

namespace proofleaf::returned {
namespace {

constexpr double kNeutral = 4;                 // [C*] of the promise
constexpr double kZones[4] = {6, 35, 65, 94};  // [L*]
constexpr double kLeastGrey = 0.002;           // of the front
// Common practice, no source: a photo's white is good to about one and a half units.
constexpr double kCastFine = 2.5, kCastWrong = 5;  // [C*]
constexpr double kMixed = 3;                       // [C*] between the border's sides
constexpr float kFlat = 3;                         // [L*] between neighbours

bool usable(const Laid& laid, const Promise& promise, size_t i) {
  if (laid.outside(i) || laid.clipped.values[i] > 0) return false;
  const size_t x = i % promise.l.width, y = i / promise.l.width;
  if (x < 2 || y < 2 || x + 2 >= promise.l.width || y + 2 >= promise.l.height) return false;
  const std::vector<float>& l = promise.l.values;
  const size_t w = promise.l.width;
  return std::abs(l[i + 2] - l[i - 2]) < kFlat && std::abs(l[i + 2 * w] - l[i - 2 * w]) < kFlat;
}

bool in_picture(const Promise& promise, size_t i) {
  const size_t column = i % promise.l.width, row = i / promise.l.width;
  const double u = (double(column) + 0.5) / promise.l.width,
               v = (double(row) + 0.5) / promise.l.height;
  return u > promise.left && u < promise.right && v > promise.top && v < promise.bottom;
}

// Means of the print over small areas, so that single pixels' noise is no spread.
struct Step {
  double count = 0, sum = 0, square = 0, promised = 0;
  void add(const Step& other) {
    count += other.count, sum += other.sum, square += other.square, promised += other.promised;
  }
  double mean() const { return count > 0 ? sum / count : 0; }
  // Of the mean, were one in `together` pixels independent of the rest.
  double error(double together) const {
    if (count < 2 * together) return 1e3;
    const double variance = std::max(0.0, square / count - mean() * mean());
    return std::sqrt(variance / (count / together));
  }
};

std::array<double, 4> box_of(const Promise& promise, double below) {
  // The cell with most of them, of a grid of 8 by 8.
  constexpr uint32_t kSide = 8;
  std::array<uint32_t, kSide * kSide> counts{};
  for (size_t i = 0; i < promise.l.values.size(); ++i) {
    if (promise.l.values[i] >= below || !in_picture(promise, i)) continue;
    const auto x = uint32_t(i % promise.l.width * kSide / promise.l.width);
    const auto y = uint32_t(i / promise.l.width * kSide / promise.l.height);
    ++counts[y * kSide + x];
  }
  const auto best = uint32_t(std::max_element(counts.begin(), counts.end()) - counts.begin());
  const uint32_t column = best % kSide, row = best / kSide;
  return {double(column) / kSide, double(row) / kSide, 1.0 / kSide, 1.0 / kSide};
}

void judge(ShadowFound& found) {
  size_t told = 0;
  for (const ShadowStep& step : found.steps) {
    told += step.is != ShadowStep::unsure ? 1 : 0;
    if (step.is == ShadowStep::closed && step.l < kDeepest - 2 * kShadowStep) {
      found.closed_until = step.l + kShadowStep;
    }
  }
  if (told == 0) return;
  const double deepest = found.steps.front().l;
  found.verdict = !found.closed_until                               ? Found::fine
                  : *found.closed_until > deepest + 3 * kShadowStep ? Found::wrong
                                                                    : Found::look;
}

}  // namespace

CastFound find_cast(const Promise& promise, const Laid& laid, const Seen& seen,
                    const White& white) {
  CastFound cast;
  cast.white = white.from;
  cast.mixed_light = white.uneven > kMixed;
  std::array<std::array<double, 3>, 3> sums{};
  std::array<double, 3> counts{};
  for (size_t i = 0; i < promise.l.values.size(); ++i) {
    if (std::hypot(promise.a.values[i], promise.b.values[i]) > float(kNeutral)) continue;
    if (!in_picture(promise, i) || !usable(laid, promise, i)) continue;
    const double l = promise.l.values[i];
    if (l < kZones[0] || l >= kZones[3]) continue;
    const size_t zone = l < kZones[1] ? 0 : l < kZones[2] ? 1 : 2;
    sums[zone][0] += l;
    sums[zone][1] += double(seen.a.values[i]) - promise.a.values[i];
    sums[zone][2] += double(seen.b.values[i]) - promise.b.values[i];
    ++counts[zone];
  }
  bool any = false;
  for (size_t zone = 0; zone < 3; ++zone) {
    GreyFound& grey = cast.greys[zone];
    const double share = counts[zone] / double(promise.l.values.size());
    if (share < kLeastGrey) continue;
    const double n = counts[zone];
    grey = {sums[zone][0] / n, sums[zone][1] / n, sums[zone][2] / n, share};
    cast.largest = std::max(cast.largest, std::hypot(grey.a, grey.b));
    any = true;
  }
  if (!any || white.from == WhiteFrom::none || cast.mixed_light) return cast;
  cast.verdict = cast.largest <= kCastFine    ? Found::fine
                 : cast.largest <= kCastWrong ? Found::look
                                              : Found::wrong;
  return cast;
}

std::vector<ToneFound> find_tones(const Promise& promise, const Laid& laid, const Seen& seen) {
  constexpr size_t kTones = 11, kLeast = 300;  // 0, 10, .. 100 L*; pixels of a tone
  std::array<std::vector<float>, kTones> offs, at;
  for (size_t i = 0; i < promise.l.values.size(); i += 3) {
    if (!usable(laid, promise, i)) continue;
    const float l = promise.l.values[i];
    const auto tone = static_cast<size_t>(std::clamp(std::lround(l / 10), 0l, 10l));
    offs[tone].push_back(seen.l.values[i] - l);
    at[tone].push_back(l);
  }
  std::vector<ToneFound> tones;
  for (size_t k = 0; k < kTones; ++k) {
    if (offs[k].size() < kLeast) continue;
    tones.push_back({median_of(at[k]), median_of(offs[k])});
  }
  return tones;
}

ShadowFound find_shadow(const Promise& promise, const Laid& laid, const Seen& seen) {
  constexpr auto kSteps = static_cast<size_t>(kDeepest / kShadowStep) + 1;
  constexpr double kTogether = 14;  // pixels that share their fate: noise and texture have a size
  constexpr double kKept = 0.35;    // of a step's rise, to count as told apart
  constexpr double kLeastArea = 4e-4;  // of the front, for a step to be judged
  std::array<Step, kSteps> steps;
  const Plane smooth = blurred(seen.l, 1);
  for (size_t i = 0; i < promise.l.values.size(); ++i) {
    const double l = promise.l.values[i];
    if (l < 0 || l >= kSteps * kShadowStep || !in_picture(promise, i) ||
        !usable(laid, promise, i)) {
      continue;
    }
    Step& step = steps[static_cast<size_t>(l / kShadowStep)];
    step.count += 1;
    step.sum += smooth.values[i];
    step.promised += l;
    step.square += double(smooth.values[i]) * smooth.values[i];
  }
  ShadowFound found;
  const double least = kLeastArea * double(promise.l.values.size());
  for (size_t k = 0; k + 1 < kSteps; ++k) {
    if (steps[k].count < least || steps[k + 1].count < least) continue;
    // Both sides take in their next neighbour, so that few pixels tell enough.
    Step low = steps[k], high = steps[k + 1];
    if (k > 0) low.add(steps[k - 1]);
    if (k + 2 < kSteps) high.add(steps[k + 2]);
    const double rise = high.promised / high.count - low.promised / low.count;
    ShadowStep step{double(k) * kShadowStep, (high.mean() - low.mean()) / rise, ShadowStep::unsure};
    const double error = std::hypot(low.error(kTogether), high.error(kTogether)) / rise;
    if (step.kept > kKept && step.kept - 1.5 * error > 0) step.is = ShadowStep::apart;
    if (step.kept < kKept && step.kept + 1.5 * error < 0.7) step.is = ShadowStep::closed;
    found.steps.push_back(step);
  }
  if (found.steps.empty()) return found;
  judge(found);
  if (found.closed_until) found.place = box_of(promise, *found.closed_until);
  return found;
}

}  // namespace proofleaf::returned
