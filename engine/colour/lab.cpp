#include "colour/lab.h"

#include <cmath>
#include <numbers>

namespace proofleaf {
namespace {

constexpr double kEpsilon = 216.0 / 24389.0;  // CIE 15:2018, exact form of 0.008856
constexpr double kKappa = 24389.0 / 27.0;     // CIE 15:2018, exact form of 903.3

double lab_f(double t) { return t > kEpsilon ? std::cbrt(t) : (kKappa * t + 16.0) / 116.0; }

double lab_f_inverse(double f) {
  const double cube = f * f * f;
  return cube > kEpsilon ? cube : (116.0 * f - 16.0) / kKappa;
}

double degrees(double radians) { return radians * 180.0 / std::numbers::pi; }
double radians(double degrees) { return degrees * std::numbers::pi / 180.0; }

// Hue angle 0..360, 0 for a neutral.
double hue(double a, double b) {
  if (a == 0 && b == 0) return 0;
  const double h = degrees(std::atan2(b, a));
  return h < 0 ? h + 360 : h;
}

double seventh(double x) {
  const double cube = x * x * x;
  return cube * cube * x;
}

}  // namespace

Lab lab_from_xyz(const XYZ& xyz, const XYZ& white) {
  const double fx = lab_f(xyz.x / white.x), fy = lab_f(xyz.y / white.y),
               fz = lab_f(xyz.z / white.z);
  return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

XYZ xyz_from_lab(const Lab& lab, const XYZ& white) {
  const double fy = (lab.l + 16.0) / 116.0;
  return {white.x * lab_f_inverse(fy + lab.a / 500.0), white.y * lab_f_inverse(fy),
          white.z * lab_f_inverse(fy - lab.b / 200.0)};
}

double delta_e_2000(const Lab& one, const Lab& two) {
  // Numbers in brackets are the paper's equations.
  constexpr double k25to7 = 6103515625.0;
  const double c_mean = (std::hypot(one.a, one.b) + std::hypot(two.a, two.b)) / 2;  // (2) (3)
  const double c_mean7 = seventh(c_mean);
  const double g = 0.5 * (1 - std::sqrt(c_mean7 / (c_mean7 + k25to7)));  // (4)
  const double a1 = (1 + g) * one.a, a2 = (1 + g) * two.a;               // (5)
  const double c1 = std::hypot(a1, one.b), c2 = std::hypot(a2, two.b);   // (6)
  const double h1 = hue(a1, one.b), h2 = hue(a2, two.b);                 // (7)

  const double dl = two.l - one.l;  // (8)
  const double dc = c2 - c1;        // (9)
  double dh_angle = 0;              // (10)
  if (c1 * c2 != 0) {
    dh_angle = h2 - h1;
    if (dh_angle > 180) dh_angle -= 360;
    if (dh_angle < -180) dh_angle += 360;
  }
  const double dh = 2 * std::sqrt(c1 * c2) * std::sin(radians(dh_angle / 2));  // (11)

  const double l_mean = (one.l + two.l) / 2;  // (12)
  const double cp_mean = (c1 + c2) / 2;       // (13)
  double h_mean = h1 + h2;                    // (14)
  if (c1 * c2 != 0) {
    if (std::abs(h1 - h2) <= 180) {
      h_mean /= 2;
    } else {
      h_mean = h_mean < 360 ? (h_mean + 360) / 2 : (h_mean - 360) / 2;
    }
  }
  const double t = 1 - 0.17 * std::cos(radians(h_mean - 30)) +
                   0.24 * std::cos(radians(2 * h_mean)) + 0.32 * std::cos(radians(3 * h_mean + 6)) -
                   0.20 * std::cos(radians(4 * h_mean - 63));  // (15)
  const double turn = (h_mean - 275) / 25;
  const double theta = 30 * std::exp(-turn * turn);  // (16)
  const double cp7 = seventh(cp_mean);
  const double rc = 2 * std::sqrt(cp7 / (cp7 + k25to7));  // (17)
  const double l50 = (l_mean - 50) * (l_mean - 50);
  const double sl = 1 + 0.015 * l50 / std::sqrt(20 + l50);  // (18)
  const double sc = 1 + 0.045 * cp_mean;                    // (19)
  const double sh = 1 + 0.015 * cp_mean * t;                // (20)
  const double rt = -std::sin(radians(2 * theta)) * rc;     // (21)
  const double el = dl / sl, ec = dc / sc, eh = dh / sh;
  return std::sqrt(std::fmax(0.0, el * el + ec * ec + eh * eh + rt * ec * eh));  // (22)
}

}  // namespace proofleaf
