// Papers and pictures with known properties, for tests of cards and of ranking.
#pragma once

#include <cmath>
#include <functional>

#include "codec/master.h"
#include "colour/lcms.h"
#include "pictures.h"
#include "rank/rank.h"
#include "raster/preview.h"

namespace proofleaf::test {

// An RGB paper whose gamut is that of sRGB, lifted to a black of its own by the linear scaling of
// ISO 18619, and whose prints may be off by a turn of hue and a cast.
struct TestPaper {
  double black_l = 0;  // media-relative L* of its black
  double turn = 0;     // of hue [degrees]
  double cast_b = 0;   // added to b*
};

namespace detail {

struct Recipe {
  Transform to_colour, to_device;  // of sRGB
  double black_y = 0;
  TestPaper paper;
};

inline std::array<double, 3> decode(const cmsUInt16Number* pcs) {  // ICC.1:2022 6.3.4.2, 16 bits
  return {pcs[0] / 655.35, pcs[1] / 257.0 - 128, pcs[2] / 257.0 - 128};
}
inline cmsUInt16Number code(double value) {
  return static_cast<cmsUInt16Number>(std::lround(std::fmin(65535, std::fmax(0, value))));
}

inline Lab lifted(const Lab& lab, double black_y, bool up) {
  XYZ xyz = xyz_from_lab(lab);
  const double scale = up ? 1 - black_y : 1 / (1 - black_y);
  const double x = black_y * kD50.x, y = black_y, z = black_y * kD50.z;
  if (up) return lab_from_xyz({xyz.x * scale + x, xyz.y * scale + y, xyz.z * scale + z});
  return lab_from_xyz({(xyz.x - x) * scale, (xyz.y - y) * scale, (xyz.z - z) * scale});
}

inline cmsInt32Number print(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
  const auto* recipe = static_cast<Recipe*>(cargo);
  const float rgb[3] = {in[0] / 65535.0f, in[1] / 65535.0f, in[2] / 65535.0f};
  float base[3];
  cmsDoTransform(recipe->to_colour.get(), rgb, base, 1);
  const Lab lab = lifted({base[0], base[1], base[2]}, recipe->black_y, true);
  const double t = recipe->paper.turn * 3.14159265358979 / 180;
  out[0] = code(lab.l * 655.35);
  out[1] = code((lab.a * std::cos(t) - lab.b * std::sin(t) + 128) * 257);
  out[2] = code((lab.a * std::sin(t) + lab.b * std::cos(t) + recipe->paper.cast_b + 128) * 257);
  return TRUE;
}

inline cmsInt32Number separate(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
  const auto* recipe = static_cast<Recipe*>(cargo);
  const auto pcs = decode(in);
  const Lab lab = lifted({pcs[0], pcs[1], pcs[2]}, recipe->black_y, false);
  const float wanted[3] = {float(lab.l), float(lab.a), float(lab.b)};
  float rgb[3];
  cmsDoTransform(recipe->to_device.get(), wanted, rgb, 1);
  for (int c = 0; c < 3; ++c) out[c] = code(rgb[c] * 65535.0);
  return TRUE;
}

inline void write_table(cmsHPROFILE profile, std::initializer_list<cmsTagSignature> tags,
                        cmsSAMPLER16 sampler, Recipe& recipe) {
  constexpr cmsUInt32Number kGrid = 41;
  cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
  cmsStage* table = cmsStageAllocCLut16bit(nullptr, kGrid, 3, 3, nullptr);
  cmsStageSampleCLut16bit(table, sampler, &recipe, 0);
  cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
  cmsPipelineInsertStage(pipeline, cmsAT_END, table);
  cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
  for (const auto tag : tags) REQUIRE(cmsWriteTag(profile, tag, pipeline));
  cmsPipelineFree(pipeline);
}

}  // namespace detail

inline Bytes test_paper_bytes(const TestPaper& paper) {
  detail::Recipe recipe;
  recipe.paper = paper;
  recipe.black_y = xyz_from_lab({paper.black_l, 0, 0}).y;
  const Profile base = standard_profile("srgb").take();
  cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
  recipe.to_colour = to_lab(base, INTENT_RELATIVE_COLORIMETRIC);
  recipe.to_device = Transform(cmsCreateTransform(lab, TYPE_Lab_FLT, base.handle(), TYPE_RGB_FLT,
                                                  INTENT_RELATIVE_COLORIMETRIC, kExact));
  cmsCloseProfile(lab);
  cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
  cmsSetProfileVersion(profile, 4.3);
  cmsSetDeviceClass(profile, cmsSigOutputClass);
  cmsSetColorSpace(profile, cmsSigRgbData);
  cmsSetPCS(profile, cmsSigLabData);
  const cmsCIEXYZ white{kD50.x, kD50.y, kD50.z};
  cmsWriteTag(profile, cmsSigMediaWhitePointTag, &white);
  detail::write_table(profile, {cmsSigAToB0Tag, cmsSigAToB1Tag}, detail::print, recipe);
  detail::write_table(profile, {cmsSigBToA0Tag, cmsSigBToA1Tag}, detail::separate, recipe);
  cmsUInt32Number size = 0;
  REQUIRE(cmsSaveProfileToMem(profile, nullptr, &size));
  Bytes bytes(size);
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  return bytes;
}

inline Paper test_paper(const TestPaper& wanted, const std::string& name = "test paper") {
  auto paper = read_paper(test_paper_bytes(wanted), name);
  REQUIRE_MESSAGE(paper.ok(), (paper.ok() ? "" : paper.error().message));
  return paper.take();
}

inline Paper space_paper(const std::string& id) {
  auto paper = paper_from_profile(standard_profile(id).take(), id);
  REQUIRE(paper);
  return paper.take();
}

// A picture in some standard space; pixel(x, y) gives R, G, B 0..1.
struct TestPicture {
  uint32_t width = 0, height = 0;
  Profile master;
  std::vector<uint16_t> rgb;
};
using Pixel = std::array<double, 3>;
inline TestPicture picture_of(const std::string& space, uint32_t width, uint32_t height,
                              const std::function<Pixel(uint32_t, uint32_t)>& pixel) {
  TestPicture picture{width, height, standard_profile(space).take(), {}};
  for (uint32_t y = 0; y < height; ++y) {
    for (uint32_t x = 0; x < width; ++x) {
      for (double value : pixel(x, y)) {
        const double held = std::fmin(1, std::fmax(0, value));
        picture.rgb.push_back(static_cast<uint16_t>(std::lround(65535 * held)));
      }
    }
  }
  return picture;
}

// A file's picture in its own profile.
inline TestPicture picture_at(const std::string& path) {
  auto master = open_master(memory(path, file_bytes(path)));
  REQUIRE(master);
  auto colour = master_colour(master.value()->info(), path, "", {});
  REQUIRE(colour);
  auto file_rows = master.value()->open_rows();
  REQUIRE(file_rows);
  auto rows = as_rgb(file_rows.take(), master.value()->info(), colour.value());
  REQUIRE(rows);
  auto shrunk = shrink(*rows.value(), 1, {});
  REQUIRE(shrunk);
  return {shrunk.value().width, shrunk.value().height, colour.value().profile,
          std::move(shrunk.value().rgb)};
}

// sRGB code 0..1 of a neutral, IEC 61966-2-1.
inline double grey_code(double l) {
  const double y = xyz_from_lab({l, 0, 0}).y;
  return y <= 0.0031308 ? 12.92 * y : 1.055 * std::pow(y, 1 / 2.4) - 0.055;
}

inline PictureFacts facts_of(const TestPicture& picture) {
  auto facts = find_facts(picture.master, picture.rgb, picture.width, picture.height, {});
  REQUIRE_MESSAGE(facts.ok(), (facts.ok() ? "" : facts.error().message));
  return facts.take();
}

inline Judgement judged_on(const TestPicture& picture, const PictureFacts& facts,
                           const Paper& paper) {
  auto judgement = judge(picture.master, facts, master_tone(facts), paper, {}, {});
  REQUIRE_MESSAGE(judgement.ok(), (judgement.ok() ? "" : judgement.error().message));
  return judgement.take();
}

}  // namespace proofleaf::test
