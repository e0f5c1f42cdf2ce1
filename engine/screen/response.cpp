#include "screen/response.h"

#include <algorithm>
#include <cmath>

#include "proof/view.h"

namespace proofleaf::screen {
namespace {

// How far off an eye may leave a comparison [of its light]: at full light, and how that grows with
// light falling, about as the steps of DICOM PS3.14's display function do at the light of a
// screen's single channels. Then the spread of rounding to whole codes.
constexpr double kEye = 0.01, kEyeGrows = -0.3, kRounding = 0.2887;
constexpr double kLeastExponent = 1, kMostExponent = 4;
// Of chi squared with three degrees of freedom, passed by 1 in 20 (table value, from memory).
constexpr double kOneCurve = 7.81;

struct Point {
  double code = 0, light = 0, spread = 0;  // spread of ln(light)
};

// The spread an answer has by itself; an exponent of 2.2 is near enough for it.
double own_spread(double code, double light) {
  return std::hypot(kEye * std::pow(light, kEyeGrows), 2.2 * kRounding / (255 * code));
}

std::array<Point, kToneSteps> points_of(const ToneAnswers& answers) {
  std::array<Point, kToneSteps> points;
  for (size_t i = 0; i < kToneSteps; ++i) {
    const double code = answers[i] / 255.0;
    points[i] = {code, kTonePlan[i].light, own_spread(code, kTonePlan[i].light)};
    const int bright = kTonePlan[i].bright;
    if (bright >= 0) points[i].spread = std::hypot(points[i].spread, points[size_t(bright)].spread);
  }
  std::sort(points.begin(), points.end(),
            [](const Point& p, const Point& q) { return p.light < q.light; });
  return points;
}

// The e that fits ln(light) = e ln(x) best, by weighted least squares.
struct Fit {
  double slope = 0, variance = 0, chi_squared = 0;
};

template <class X>
Fit fit_slope(const std::array<Point, kToneSteps>& points, X&& x_of) {
  double xx = 0, xy = 0;
  for (const Point& p : points) {
    const double x = std::log(x_of(p.code)), weight = 1 / (p.spread * p.spread);
    xx += weight * x * x;
    xy += weight * x * std::log(p.light);
  }
  Fit fit{xy / xx, 1 / xx, 0};
  for (const Point& p : points) {
    const double off = (std::log(p.light) - fit.slope * std::log(x_of(p.code))) / p.spread;
    fit.chi_squared += off * off;
  }
  return fit;
}

}  // namespace

int standard_code(double light) { return int(std::lround(255 * srgb_encode(light))); }

bool all_answered(const ToneAnswers& answers) {
  return std::all_of(answers.begin(), answers.end(), [](int code) { return code > 0; });
}

Result<Response> Response::from(const ToneAnswers& answers) {
  if (!all_answered(answers)) return Error{"Not all comparisons of this channel were made."};
  if (std::any_of(answers.begin(), answers.end(), [](int code) { return code > 254; }))
    return Error{"A comparison of this channel has a code that is none."};
  const auto points = points_of(answers);
  for (size_t i = 1; i < kToneSteps; ++i)
    if (points[i].code <= points[i - 1].code)
      return Error{"The comparisons of this channel contradict each other; please make them anew."};
  const Fit power = fit_slope(points, [](double code) { return code; });
  if (power.slope < kLeastExponent || power.slope > kMostExponent)
    return Error{"The comparisons of this channel fit no screen; please make them anew."};
  const Fit laid_over = fit_slope(points, srgb_decode);

  Response response;
  response.known_ = true;
  response.exponent_ = power.slope;
  // Where the points lie about the line more widely than an eye explains, that counts.
  response.uncertainty_ =
      std::sqrt(power.variance * std::max(1.0, power.chi_squared / (kToneSteps - 1)));
  response.one_curve_ = laid_over.chi_squared < kOneCurve;
  for (size_t i = 0; i < kToneSteps; ++i) {
    const Point& p = points[i];
    const double own = std::log(p.light) / std::log(srgb_decode(p.code));
    response.knots_[i] = {p.code, response.one_curve_ ? laid_over.slope : own};
  }
  return response;
}

double Response::k_at(double code) const {
  if (!known_) return 1;
  Knot before{0, 1};
  for (const Knot& knot : knots_) {
    if (code < knot.code)
      return before.k + (knot.k - before.k) * (code - before.code) / (knot.code - before.code);
    before = knot;
  }
  return before.k;
}

double Response::light(double code) const {
  if (code <= 0) return 0;
  return std::pow(srgb_decode(std::min(code, 1.0)), k_at(code));
}

double Response::shown(double code) const { return srgb_encode(light(code)); }

}  // namespace proofleaf::screen
