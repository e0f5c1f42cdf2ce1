#include "spectra.h"

#include <cmath>

namespace proofleaf::demo {
namespace {

struct Observer {
  double x, y, z, d50;
};

// CIE 15:2018, tables T.4 (CIE 1931 colour-matching functions) and T.1 (relative spectral power of
// D50), every 10 nm; typed in from memory of the standard and checked by the white they give.
constexpr std::array<Observer, kBands> kTable{{
    {0.001368, 0.000039, 0.006450, 24.49},  {0.004243, 0.000120, 0.020050, 29.87},
    {0.014310, 0.000396, 0.067850, 49.31},  {0.043510, 0.001210, 0.207400, 56.51},
    {0.134380, 0.004000, 0.645600, 60.03},  {0.283900, 0.011600, 1.385600, 57.82},
    {0.348280, 0.023000, 1.747060, 74.82},  {0.336200, 0.038000, 1.772110, 87.25},
    {0.290800, 0.060000, 1.669200, 90.61},  {0.195360, 0.090980, 1.287640, 91.37},
    {0.095640, 0.139020, 0.812950, 95.11},  {0.032010, 0.208020, 0.465180, 91.96},
    {0.004900, 0.323000, 0.272000, 95.72},  {0.009300, 0.503000, 0.158200, 96.61},
    {0.063270, 0.710000, 0.078250, 97.13},  {0.165500, 0.862000, 0.042160, 102.10},
    {0.290400, 0.954000, 0.020300, 100.75}, {0.433450, 0.994950, 0.008750, 102.32},
    {0.594500, 0.995000, 0.003900, 100.00}, {0.762100, 0.952000, 0.002100, 97.74},
    {0.916300, 0.870000, 0.001650, 98.92},  {1.026300, 0.757000, 0.001100, 93.50},
    {1.062200, 0.631000, 0.000800, 97.69},  {1.002600, 0.503000, 0.000340, 99.27},
    {0.854450, 0.381000, 0.000190, 99.04},  {0.642400, 0.265000, 0.000050, 95.72},
    {0.447900, 0.175000, 0.000020, 98.86},  {0.283500, 0.107000, 0.000000, 95.67},
    {0.164900, 0.061000, 0.000000, 98.19},  {0.087400, 0.032000, 0.000000, 103.00},
    {0.046770, 0.017000, 0.000000, 99.13},  {0.022700, 0.008210, 0.000000, 87.38},
    {0.011359, 0.004102, 0.000000, 91.60},  {0.005790, 0.002091, 0.000000, 92.89},
    {0.002899, 0.001047, 0.000000, 76.85},  {0.001440, 0.000520, 0.000000, 86.51},
}};

double f(double t) {
  constexpr double limit = 216.0 / 24389.0;
  return t > limit ? std::cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0;
}

double inverse_f(double v) {
  const double cube = v * v * v;
  return cube > 216.0 / 24389.0 ? cube : (116.0 * v - 16.0) * 27.0 / 24389.0;
}

}  // namespace

Xyz integrate(const Spectrum& reflectance) {
  Xyz sum;
  double white = 0;
  for (size_t i = 0; i < kBands; ++i) {
    const Observer& o = kTable[i];
    const double light = o.d50 * reflectance[i];
    sum.x += light * o.x;
    sum.y += light * o.y;
    sum.z += light * o.z;
    white += o.d50 * o.y;
  }
  return {sum.x / white, sum.y / white, sum.z / white};
}

Xyz under_d50(const Spectrum& reflectance) {
  static const Xyz diffuser = [] {
    Spectrum one;
    one.fill(1.0);
    return integrate(one);
  }();
  const Xyz c = integrate(reflectance);
  return {c.x * kD50.x / diffuser.x, c.y * kD50.y / diffuser.y, c.z * kD50.z / diffuser.z};
}

Lab to_lab(const Xyz& colour, const Xyz& white) {
  const double fx = f(colour.x / white.x), fy = f(colour.y / white.y), fz = f(colour.z / white.z);
  return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

Xyz to_xyz(const Lab& lab, const Xyz& white) {
  const double fy = (lab.l + 16.0) / 116.0;
  return {white.x * inverse_f(fy + lab.a / 500.0), white.y * inverse_f(fy),
          white.z * inverse_f(fy - lab.b / 200.0)};
}

}  // namespace proofleaf::demo
