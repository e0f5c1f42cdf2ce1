#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>

#include "paper_profile.h"
#include "separation.h"

namespace proofleaf::demo {
namespace {

struct Opened {
  cmsHPROFILE paper = nullptr, lab = nullptr;
  cmsHTRANSFORM to_device = nullptr, to_lab = nullptr, to_absolute = nullptr, perceptual = nullptr;
  ~Opened() {
    for (cmsHTRANSFORM t : {to_device, to_lab, to_absolute, perceptual})
      if (t) cmsDeleteTransform(t);
    if (paper) cmsCloseProfile(paper);
    if (lab) cmsCloseProfile(lab);
  }
};

void append(std::string& text, const char* format, auto... values) {
  char line[256];
  std::snprintf(line, sizeof line, format, values...);
  text += line;
}

// dE00 between in-gamut colours and themselves after B2A1 and A2B1.
void round_trip(const Recipe& recipe, const Opened& o, std::string& text) {
  const InkModel model(recipe);
  const Separation separation(recipe, model);
  std::mt19937 random(20260101);
  const auto unit = [&random] { return random() / 4294967295.0; };
  std::vector<double> errors;
  double total = 0;
  for (int i = 0; i < 20000; ++i) {
    const Rgb rgb{unit(), unit(), unit()};
    const Lab want = model.relative(separation(rgb));
    cmsCIELab from{want.l, want.a, want.b}, to;
    double device[4];
    cmsDoTransform(o.to_device, &from, device, 1);
    cmsDoTransform(o.to_lab, device, &to, 1);
    errors.push_back(cmsCIE2000DeltaE(&from, &to, 1, 1, 1));
    total += errors.back();
  }
  std::sort(errors.begin(), errors.end());
  append(
      text,
      "  model -> B2A1 -> A2B1, 20000 printable colours: dE00 mean %.2f, 95th %.2f, worst %.2f\n",
      total / 20000, errors[19000], errors.back());
}

// Greys of the reference medium sent through a table: how far the print is from the paper's own
// neutral, and whether it ever turns back.
void neutral_ramp(const char* label, cmsHTRANSFORM to_device, const Opened& o, std::string& text) {
  double cast = 0, turn = 0, before = -1;
  for (int i = 0; i <= 400; ++i) {
    cmsCIELab grey{i / 4.0, 0, 0}, print;
    double device[4];
    cmsDoTransform(to_device, &grey, device, 1);
    cmsDoTransform(o.to_lab, device, &print, 1);
    const cmsCIELab pure{print.L, 0, 0};
    cast = std::max(cast, cmsCIE2000DeltaE(&print, &pure, 1, 1, 1));
    turn = std::max(turn, before - print.L);
    before = print.L;
  }
  append(text, "  %s greys L* 0..100: worst cast dE00 %.2f, worst step back in L* %.3f\n", label,
         cast, turn);
}

// The largest sum of inks [%] any table entry asks for, over a lattice of all L*a*b*.
void most_ink(const Opened& o, std::string& text) {
  double most = 0;
  for (int l = 0; l <= 100; l += 2)
    for (int a = -120; a <= 120; a += 4)
      for (int b = -120; b <= 120; b += 4) {
        const cmsCIELab lab{double(l), double(a), double(b)};
        for (cmsHTRANSFORM t : {o.to_device, o.perceptual}) {
          double ink[4];
          cmsDoTransform(t, &lab, ink, 1);
          most = std::max(most, ink[0] + ink[1] + ink[2] + ink[3]);
        }
      }
  append(text, "  most ink: %.1f %%\n", most);
}

}  // namespace

Result<std::string> measure_profile(const Recipe& recipe, const Bytes& profile) {
  Opened o;
  o.paper = cmsOpenProfileFromMem(profile.data(), static_cast<uint32_t>(profile.size()));
  o.lab = cmsCreateLab2Profile(nullptr);
  if (!o.paper || !o.lab) return Error{"The profile of " + recipe.name + " cannot be read back."};
  const uint32_t device = recipe.cmyk ? TYPE_CMYK_DBL : TYPE_RGB_DBL;
  constexpr uint32_t exact = cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE;
  const auto link = [&](bool out, uint32_t intent) {
    return out ? cmsCreateTransform(o.lab, TYPE_Lab_DBL, o.paper, device, intent, exact)
               : cmsCreateTransform(o.paper, device, o.lab, TYPE_Lab_DBL, intent, exact);
  };
  o.to_device = link(true, INTENT_RELATIVE_COLORIMETRIC);
  o.perceptual = link(true, INTENT_PERCEPTUAL);
  o.to_lab = link(false, INTENT_RELATIVE_COLORIMETRIC);
  o.to_absolute = link(false, INTENT_ABSOLUTE_COLORIMETRIC);
  if (!o.to_device || !o.perceptual || !o.to_lab || !o.to_absolute)
    return Error{"The tables of " + recipe.name + " cannot be used."};

  std::string text;
  append(text, "%s: %zu bytes\n", recipe.name.c_str(), profile.size());
  for (double l : {100.0, 0.0}) {
    cmsCIELab end{l, 0, 0}, print;
    double ink[4];
    cmsDoTransform(o.to_device, &end, ink, 1);
    cmsDoTransform(o.to_absolute, ink, &print, 1);
    append(text, "  %s L* %.2f a* %.2f b* %.2f\n", l > 50 ? "white" : "black", print.L, print.a,
           print.b);
  }
  round_trip(recipe, o, text);
  neutral_ramp("relative", o.to_device, o, text);
  neutral_ramp("perceptual", o.perceptual, o, text);
  if (recipe.cmyk) most_ink(o, text);
  return text;
}

}  // namespace proofleaf::demo
