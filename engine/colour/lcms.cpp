#include "colour/lcms.h"

namespace proofleaf {
namespace {

thread_local std::string lcms_words;

void keep_words(cmsContext, cmsUInt32Number, const char* text) { lcms_words = text; }

}  // namespace

std::string take_lcms_words() { return std::exchange(lcms_words, {}); }

void listen_to_lcms() { cmsSetLogErrorHandler(keep_words); }

Transform to_lab(const Profile& profile, cmsUInt32Number intent) {
  cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
  Transform transform(cmsCreateTransform(profile.handle(), float_format(profile.colour_space()),
                                         lab, TYPE_Lab_FLT, intent, kExact));
  cmsCloseProfile(lab);
  return transform;
}

cmsUInt32Number float_format(uint32_t icc_space) {
  switch (icc_space) {
    case cmsSigGrayData:
      return TYPE_GRAY_FLT;
    case cmsSigCmykData:
      return TYPE_CMYK_FLT;
    default:
      return TYPE_RGB_FLT;
  }
}

float float_scale(uint32_t icc_space) { return icc_space == cmsSigCmykData ? 100.0f : 1.0f; }

}  // namespace proofleaf
