#include "inks.h"

#include <cmath>

namespace proofleaf::demo {
namespace {

double bell(double nm, double centre, double width) {
  const double u = (nm - centre) / width;
  return std::exp(-u * u);
}

// Optical density of a solid ink over a perfect diffuser: the main band, then what a real ink
// absorbs where it should not.
double density(int ink, double nm, const Recipe& r) {
  const double wide = 1.0 + 0.35 * (1.0 - r.purity), stray = 1.0 + 2.0 * (1.0 - r.purity);
  switch (ink) {
    case 0: {  // cyan: steep towards green, slow towards the far red
      const double main = nm < 655 ? bell(nm, 655, 66 * wide) : bell(nm, 655, 140);
      return r.strength * (1.75 * main + stray * (0.05 + 0.06 * bell(nm, 400, 40)));
    }
    case 1:
      return r.strength * (1.70 * bell(nm, 543, 40 * wide) + 0.30 * bell(nm, 505, 26) +
                           stray * (0.02 + 0.34 * bell(nm, 425, 60)));
    case 2: {
      const double edge = 1.0 / (1.0 + std::exp((nm - 492) / (10.5 * wide)));
      return r.strength * (1.70 * edge + stray * 0.015);
    }
    default:
      return r.strength * (2.0 - 0.05 * (nm - 550) / 175);
  }
}

Spectrum bare_paper(const Recipe& r) {
  Spectrum s;
  for (size_t i = 0; i < kBands; ++i) {
    const double nm = wavelength(i);
    const double uv_edge = 0.5 / (1.0 + std::exp((nm - 392) / 9.0));  // coatings absorb near UV
    s[i] = r.paper * (1.0 - uv_edge) * (1.0 - r.warmth / (1.0 + std::exp((nm - 455) / 34.0))) *
           (1.0 + r.rosiness * bell(nm, 620, 70)) * (1.0 + r.brightener * bell(nm, 440, 26));
  }
  return s;
}

}  // namespace

InkModel::InkModel(const Recipe& recipe) : gain_(recipe.dot_gain), n_(recipe.yule_nielsen) {
  const Spectrum paper = bare_paper(recipe);
  for (size_t mix = 0; mix < 16; ++mix) {
    for (size_t i = 0; i < kBands; ++i) {
      double through = 0;
      for (int ink = 0; ink < 4; ++ink)
        if (mix >> ink & 1u) through += density(ink, wavelength(i), recipe);
      const double body = paper[i] * std::pow(10.0, -through);
      // The surface's own reflection counts fully only where ink hides the sheet, so that the bare
      // paper keeps its stated reflectance.
      const double surface = recipe.surface * (1.0 - std::pow(10.0, -through));
      roots_[mix][i] = std::pow(body + surface, 1.0 / n_);
    }
  }
  white_ = under_d50(paper);
}

Xyz InkModel::patch(const Inks& inks) const {
  std::array<double, 4> dots;
  for (size_t k = 0; k < 4; ++k) {
    const double a = std::fmin(std::fmax(inks[k], 0.0), 1.0);
    dots[k] = a + 4.0 * gain_ * a * (1.0 - a);
  }
  Spectrum s{};
  for (size_t mix = 0; mix < 16; ++mix) {
    double weight = 1.0;
    for (size_t k = 0; k < 4; ++k) weight *= (mix >> k & 1u) ? dots[k] : 1.0 - dots[k];
    if (weight <= 0.0) continue;
    for (size_t i = 0; i < kBands; ++i) s[i] += weight * roots_[mix][i];
  }
  for (double& v : s) v = std::pow(v, n_);
  return under_d50(s);
}

Lab InkModel::relative(const Inks& inks) const { return to_lab(patch(inks), white_); }

}  // namespace proofleaf::demo
