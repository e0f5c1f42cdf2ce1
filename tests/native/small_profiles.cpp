#include "small_profiles.h"

#include <lcms2.h>

#include <array>
#include <memory>

namespace proofleaf::testing {
namespace {

struct Closer {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
  void operator()(cmsPipeline* pipeline) const { cmsPipelineFree(pipeline); }
  void operator()(cmsToneCurve* curve) const { cmsFreeToneCurve(curve); }
};
using Handle = std::unique_ptr<void, Closer>;
using Pipeline = std::unique_ptr<cmsPipeline, Closer>;
using Curve = std::unique_ptr<cmsToneCurve, Closer>;

Bytes saved(cmsHPROFILE profile) {
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  Bytes bytes(size);
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  return bytes;
}

// A made-up printer: lightness is what the inks leave, hue is left alone.
cmsInt32Number to_colour(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
  const auto channels = *static_cast<uint32_t*>(cargo);
  uint32_t sum = 0;
  for (uint32_t i = 0; i < channels; ++i) sum += in[i];
  const auto mean = static_cast<uint16_t>(sum / channels);
  out[0] = channels == 4 ? static_cast<uint16_t>(65535 - mean) : mean;
  out[1] = static_cast<uint16_t>(32768 + (int(in[0]) - int(mean)) / 4);
  out[2] = static_cast<uint16_t>(32768 + (int(mean) - int(in[channels - 1])) / 4);
  return TRUE;
}
cmsInt32Number to_device(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
  const auto channels = *static_cast<uint32_t*>(cargo);
  for (uint32_t i = 0; i < channels; ++i) {
    out[i] = channels == 4 ? static_cast<uint16_t>(65535 - in[0]) : in[0];
  }
  return TRUE;
}

void write_table(cmsHPROFILE profile, cmsTagSignature tag, uint32_t from, uint32_t to, bool eight,
                 cmsSAMPLER16 sampler, uint32_t channels) {
  const Pipeline pipeline(cmsPipelineAlloc(nullptr, from, to));
  cmsStage* table = cmsStageAllocCLut16bit(nullptr, 2, from, to, nullptr);
  cmsStageSampleCLut16bit(table, sampler, &channels, 0);
  cmsPipelineInsertStage(pipeline.get(), cmsAT_END,
                         cmsStageAllocToneCurves(nullptr, from, nullptr));
  cmsPipelineInsertStage(pipeline.get(), cmsAT_END, table);
  cmsPipelineInsertStage(pipeline.get(), cmsAT_END, cmsStageAllocToneCurves(nullptr, to, nullptr));
  cmsPipelineSetSaveAs8bitsFlag(pipeline.get(), eight);
  cmsWriteTag(profile, tag, pipeline.get());
}

Bytes printer(cmsColorSpaceSignature space, double version, bool eight, int intents) {
  const Handle profile(cmsCreateProfilePlaceholder(nullptr));
  cmsSetProfileVersion(profile.get(), version);
  cmsSetDeviceClass(profile.get(), cmsSigOutputClass);
  cmsSetColorSpace(profile.get(), space);
  cmsSetPCS(profile.get(), cmsSigLabData);
  cmsWriteTag(profile.get(), cmsSigMediaWhitePointTag, cmsD50_XYZ());
  const uint32_t channels = static_cast<uint32_t>(cmsChannelsOfColorSpace(space));
  constexpr std::array<cmsTagSignature, 3> kTo{cmsSigAToB0Tag, cmsSigAToB1Tag, cmsSigAToB2Tag};
  constexpr std::array<cmsTagSignature, 3> kFrom{cmsSigBToA0Tag, cmsSigBToA1Tag, cmsSigBToA2Tag};
  for (size_t i = 0; i < static_cast<size_t>(intents); ++i) {
    write_table(profile.get(), kTo[i], channels, 3, eight, to_colour, channels);
    write_table(profile.get(), kFrom[i], 3, channels, eight, to_device, channels);
  }
  return saved(profile.get());
}

Bytes matrix(double version, bool parametric) {
  const cmsCIExyY white{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE rgb{{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}};
  const std::array<double, 5> numbers{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  const std::array<uint16_t, 5> steps{0, 6000, 20000, 40000, 65535};
  const Curve curve(parametric ? cmsBuildParametricToneCurve(nullptr, 4, numbers.data())
                               : cmsBuildTabulatedToneCurve16(nullptr, 5, steps.data()));
  cmsToneCurve* curves[3] = {curve.get(), curve.get(), curve.get()};
  const Handle profile(cmsCreateRGBProfile(&white, &rgb, curves));
  cmsSetProfileVersion(profile.get(), version);
  return saved(profile.get());
}

Bytes grey(cmsColorSpaceSignature connection) {
  const Curve curve(cmsBuildGamma(nullptr, 1.8));
  const Handle profile(cmsCreateGrayProfile(cmsD50_xyY(), curve.get()));
  cmsSetPCS(profile.get(), connection);
  return saved(profile.get());
}

}  // namespace

std::vector<SmallProfile> small_profiles() {
  return {{"rgb-lut8", printer(cmsSigRgbData, 2.4, true, 1)},
          {"rgb-lut16", printer(cmsSigRgbData, 2.4, false, 3)},
          {"rgb-v4", printer(cmsSigRgbData, 4.3, false, 3)},
          {"cmyk-lut8", printer(cmsSigCmykData, 2.4, true, 3)},
          {"cmyk-lut16", printer(cmsSigCmykData, 2.4, false, 1)},
          {"cmyk-v4", printer(cmsSigCmykData, 4.3, false, 1)},
          {"grey-lut16", printer(cmsSigGrayData, 2.4, false, 1)},
          {"matrix-v2", matrix(2.4, false)},
          {"matrix-v4", matrix(4.3, true)},
          {"grey-xyz", grey(cmsSigXYZData)},
          {"grey-lab", grey(cmsSigLabData)}};
}

}  // namespace proofleaf::testing
