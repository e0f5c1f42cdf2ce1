#include "paper_profile.h"

#include <lcms2.h>
#include <lcms2_plugin.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "rendering.h"

namespace proofleaf::demo {
namespace {

// ICC.1:2001-04, 6.5.10 (lut16Type): L* 100 is 0xFF00, a* and b* 0 are 0x8000, 256 to a unit.
constexpr double kLScale = 652.80;
constexpr double kAbZero = 32768.0, kAbScale = 256.0;

uint16_t encode16(double v) {
  return static_cast<uint16_t>(std::lround(std::clamp(v, 0.0, 1.0) * 65535.0));
}
std::array<uint16_t, 3> encode_lab(const Lab& lab) {
  return {encode16(lab.l * kLScale / 65535.0), encode16((lab.a * kAbScale + kAbZero) / 65535.0),
          encode16((lab.b * kAbScale + kAbZero) / 65535.0)};
}

// The tables from L*a*b* are shaped so that nodes stand closer where papers have colour. `place`
// maps a signed share of the a* or b* axis to its place among the nodes, both -1..1.
double place(double t) { return 1.4 * t - 0.4 * t * t * t; }
double unplace(double s) {
  double t = s / 1.4;
  for (int i = 0; i < 40; ++i) t -= (place(t) - s) / (1.4 - 1.2 * t * t + 1e-9);
  return std::clamp(t, -1.0, 1.0);
}
double node_l(size_t i, size_t side) {
  return 100.0 * static_cast<double>(i) / static_cast<double>(side - 1);
}
double node_ab(size_t i, size_t side) {
  return 128.0 * unplace(2.0 * static_cast<double>(i) / static_cast<double>(side - 1) - 1.0);
}

struct PipelineFree {
  void operator()(cmsPipeline* p) const { cmsPipelineFree(p); }
};
using Pipeline = std::unique_ptr<cmsPipeline, PipelineFree>;

struct Table {
  size_t inputs, side, outputs;
  std::vector<uint16_t> nodes;  // first input varies slowest
};

cmsStage* lab_shaper() {
  constexpr uint32_t n = 256;
  std::vector<uint16_t> l(n), ab(n);
  for (uint32_t i = 0; i < n; ++i) {
    const double code = 257.0 * i;
    l[i] = encode16(code / 65280.0);
    ab[i] = encode16(0.5 + 0.5 * place(std::clamp((code - kAbZero) / kAbZero, -1.0, 1.0)));
  }
  cmsToneCurve* on_l = cmsBuildTabulatedToneCurve16(nullptr, n, l.data());
  cmsToneCurve* on_ab = cmsBuildTabulatedToneCurve16(nullptr, n, ab.data());
  cmsToneCurve* curves[3] = {on_l, on_ab, on_ab};
  cmsStage* stage = on_l && on_ab ? cmsStageAllocToneCurves(nullptr, 3, curves) : nullptr;
  cmsFreeToneCurve(on_l);
  cmsFreeToneCurve(on_ab);
  return stage;
}

// Input curves, cube, plain output curves: the order lut16Type holds.
bool write_table(cmsHPROFILE profile, cmsTagSignature tag, const Table& t, bool from_lab) {
  const auto in = static_cast<uint32_t>(t.inputs), out = static_cast<uint32_t>(t.outputs);
  Pipeline pipe(cmsPipelineAlloc(nullptr, in, out));
  cmsStage* shape = from_lab ? lab_shaper() : cmsStageAllocToneCurves(nullptr, in, nullptr);
  cmsStage* cube =
      cmsStageAllocCLut16bit(nullptr, static_cast<uint32_t>(t.side), in, out, t.nodes.data());
  return pipe && shape && cube && cmsPipelineInsertStage(pipe.get(), cmsAT_END, shape) &&
         cmsPipelineInsertStage(pipe.get(), cmsAT_END, cube) &&
         cmsPipelineInsertStage(pipe.get(), cmsAT_END,
                                cmsStageAllocToneCurves(nullptr, out, nullptr)) &&
         cmsWriteTag(profile, tag, pipe.get());
}

// One printer with everything derived from its recipe.
struct Printer {
  explicit Printer(const Recipe& r)
      : recipe(r),
        model(r),
        separation(r, model),
        cube([this](const Rgb& c) { return model.relative(separation(c)); }),
        rendering(cube, separation.black_l()) {}
  const Recipe& recipe;
  InkModel model;
  Separation separation;
  DeviceCube cube;
  Rendering rendering;
};

Table device_to_lab(const Printer& p) {
  Table t{p.recipe.cmyk ? 4u : 3u, p.recipe.cmyk ? 11u : 17u, 3, {}};
  size_t total = 1;
  for (size_t i = 0; i < t.inputs; ++i) total *= t.side;
  for (size_t n = 0; n < total; ++n) {
    std::array<double, 4> device{};
    for (size_t k = t.inputs, rest = n; k-- > 0; rest /= t.side)
      device[k] = static_cast<double>(rest % t.side) / static_cast<double>(t.side - 1);
    const Inks inks = p.recipe.cmyk ? device : p.separation({device[0], device[1], device[2]});
    for (uint16_t v : encode_lab(p.model.relative(inks))) t.nodes.push_back(v);
  }
  return t;
}

struct Inverse {
  size_t side;
  std::vector<DeviceCube::Answer> nodes;
};

Inverse invert(const Printer& p, Intent intent, size_t side) {
  Inverse v{side, {}};
  v.nodes.reserve(side * side * side);
  for (size_t l = 0; l < side; ++l)
    for (size_t a = 0; a < side; ++a)
      for (size_t b = 0; b < side; ++b)
        v.nodes.push_back(p.cube.nearest(
            p.rendering({node_l(l, side), node_ab(a, side), node_ab(b, side)}, intent)));
  return v;
}

// The nearest edge colour jumps here and there from one node to the next; outside the gamut the
// device values are relaxed towards their neighbours' mean, the more the farther out.
void relax(Inverse& v) {
  const size_t s = v.side, plane = s * s;
  for (int round = 0; round < 6; ++round) {
    const auto old = v.nodes;
    for (size_t n = 0; n < old.size(); ++n) {
      const double weight = 0.6 * std::clamp((old[n].distance - 2.0) / 12.0, 0.0, 1.0);
      if (weight <= 0) continue;
      const std::array<size_t, 3> at{n / plane, n / s % s, n % s}, step{plane, s, 1};
      Rgb sum{};
      double count = 0;
      for (size_t k = 0; k < 3; ++k)
        for (int side : {-1, 1}) {
          if (side < 0 ? at[k] == 0 : at[k] + 1 == s) continue;
          const Rgb& other = old[side < 0 ? n - step[k] : n + step[k]].rgb;
          for (size_t c = 0; c < 3; ++c) sum[c] += other[c];
          count += 1;
        }
      for (size_t c = 0; c < 3; ++c)
        v.nodes[n].rgb[c] += weight * (sum[c] / count - v.nodes[n].rgb[c]);
    }
  }
}

Table lab_to_device(const Printer& p, Intent intent, size_t side) {
  Inverse v = invert(p, intent, side);
  relax(v);
  Table t{3, side, p.recipe.cmyk ? 4u : 3u, {}};
  for (size_t n = 0; n < v.nodes.size(); ++n) {
    Rgb rgb = v.nodes[n].rgb;
    // The grey axis stays exactly on r = g = b, where the printer is neutral by construction.
    const size_t mid = (side - 1) / 2;
    if (n / side % side == mid && n % side == mid) rgb.fill((rgb[0] + rgb[1] + rgb[2]) / 3.0);
    if (n + 1 > side * side * (side - 1) && n / side % side == mid && n % side == mid)
      rgb.fill(1.0);
    const Inks inks = p.separation(rgb);
    for (size_t k = 0; k < t.outputs; ++k)
      t.nodes.push_back(encode16(p.recipe.cmyk ? inks[k] : rgb[k]));
  }
  return t;
}

// ICC.1:2001-04, 6.4.21 gamutTag: zero inside, anything else outside.
Table gamut_table(const Printer& p) {
  const Inverse v = invert(p, Intent::relative, 17);
  Table t{3, v.side, 1, {}};
  for (const auto& answer : v.nodes) t.nodes.push_back(encode16((answer.distance - 0.5) / 20.0));
  return t;
}

bool write_text(cmsHPROFILE profile, cmsTagSignature tag, const std::string& text) {
  cmsMLU* mlu = cmsMLUalloc(nullptr, 1);
  const bool good =
      mlu && cmsMLUsetASCII(mlu, "en", "GB", text.c_str()) && cmsWriteTag(profile, tag, mlu);
  cmsMLUfree(mlu);
  return good;
}

bool save(cmsHPROFILE profile, Bytes& bytes) {
  uint32_t size = 0;
  if (!cmsSaveProfileToMem(profile, nullptr, &size)) return false;
  bytes.resize(size);
  return cmsSaveProfileToMem(profile, bytes.data(), &size);
}

// The header's date becomes fixed (2026-01-01 00:00:00), so that the same recipe always gives the
// same bytes; big-endian uint16 numbers at offset 24 (ICC.1:2001-04, 6.1).
void fix_date(Bytes& bytes) {
  constexpr std::array<uint8_t, 12> date{0x07, 0xEA, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
  std::copy(date.begin(), date.end(), bytes.begin() + 24);
}

bool fill(cmsHPROFILE profile, const Recipe& recipe) {
  const Printer printer(recipe);
  cmsSetProfileVersion(profile, 2.4);
  cmsSetDeviceClass(profile, cmsSigOutputClass);
  cmsSetColorSpace(profile, recipe.cmyk ? cmsSigCmykData : cmsSigRgbData);
  cmsSetPCS(profile, cmsSigLabData);
  cmsSetHeaderRenderingIntent(profile, INTENT_RELATIVE_COLORIMETRIC);
  const Xyz white = printer.model.white();
  const cmsCIEXYZ paper{white.x, white.y, white.z};
  const size_t fine = recipe.cmyk ? 29 : 33, plain = recipe.cmyk ? 21 : 25;
  return write_text(profile, cmsSigProfileDescriptionTag, recipe.name) &&
         write_text(profile, cmsSigCopyrightTag, "CC0, invented demo paper") &&
         cmsWriteTag(profile, cmsSigMediaWhitePointTag, &paper) &&
         write_table(profile, cmsSigAToB1Tag, device_to_lab(printer), false) &&
         cmsLinkTag(profile, cmsSigAToB0Tag, cmsSigAToB1Tag) &&
         cmsLinkTag(profile, cmsSigAToB2Tag, cmsSigAToB1Tag) &&
         write_table(profile, cmsSigBToA0Tag, lab_to_device(printer, Intent::perceptual, plain),
                     true) &&
         write_table(profile, cmsSigBToA1Tag, lab_to_device(printer, Intent::relative, fine),
                     true) &&
         write_table(profile, cmsSigBToA2Tag, lab_to_device(printer, Intent::saturation, plain),
                     true) &&
         write_table(profile, cmsSigGamutTag, gamut_table(printer), true);
}

}  // namespace

Result<Bytes> build_profile(const Recipe& recipe) {
  const Error refused{"The profile of " + recipe.name + " could not be built."};
  cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
  if (!profile) return refused;
  Bytes bytes;
  const bool good = fill(profile, recipe) && save(profile, bytes);
  cmsCloseProfile(profile);
  if (!good || bytes.size() < 128) return refused;
  fix_date(bytes);
  return bytes;
}

}  // namespace proofleaf::demo
