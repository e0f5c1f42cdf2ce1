// Spectra on one fixed grid, and what a standard observer sees of them.
#pragma once

#include <array>
#include <cstddef>

namespace proofleaf::demo {

// Reflectances and densities are sampled at 380, 390 .. 730 nm.
inline constexpr size_t kBands = 36;
using Spectrum = std::array<double, kBands>;
constexpr double wavelength(size_t band) {
  return 380.0 + 10.0 * static_cast<double>(band);
}  // [nm]

struct Xyz {
  double x = 0, y = 0, z = 0;  // relative, a perfect diffuser has y = 1
};
struct Lab {
  double l = 0, a = 0, b = 0;  // CIE 1976 L*a*b*, D50; l is 0..100
};

// The profile connection space's illuminant (ICC.1:2022, 7.2.16).
inline constexpr Xyz kD50{0.9642, 1.0, 0.8249};

// Tristimulus values of a reflectance under CIE D50 for the CIE 1931 2-degree observer, as summed
// from the 10 nm tables; a perfect diffuser comes out within 0.2 % of kD50.
Xyz integrate(const Spectrum& reflectance);

// Tristimulus values scaled so that a perfect diffuser is exactly kD50.
Xyz under_d50(const Spectrum& reflectance);

// CIE 15:2018, 8.2.1: L*a*b* of `colour` against `white`, and back (Lab -> XYZ against white).
Lab to_lab(const Xyz& colour, const Xyz& white);
Xyz to_xyz(const Lab& lab, const Xyz& white);

}  // namespace proofleaf::demo
