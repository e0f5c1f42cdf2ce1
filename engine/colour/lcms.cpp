#include "colour/lcms.h"

#include <lcms2_plugin.h>

#include <cstdlib>

namespace proofleaf {
namespace {

thread_local std::string lcms_words;

void keep_words(cmsContext, cmsUInt32Number, const char* text) { lcms_words = text; }

void* take_memory(cmsContext, cmsUInt32Number size) {
  return size == 0 || size > kLargestTable ? nullptr : std::malloc(size);
}
void* resize_memory(cmsContext, void* held, cmsUInt32Number size) {
  return size > kLargestTable ? nullptr : std::realloc(held, size);
}
void give_back(cmsContext, void* held) { std::free(held); }

bool bound_memory() {
  cmsPluginMemHandler handler{};
  handler.base = {cmsPluginMagicNumber, 2060, cmsPluginMemHandlerSig, nullptr};
  handler.MallocPtr = take_memory;
  handler.FreePtr = give_back;
  handler.ReallocPtr = resize_memory;
  return cmsPlugin(&handler) != FALSE;
}

}  // namespace

std::string take_lcms_words() { return std::exchange(lcms_words, {}); }

void listen_to_lcms() {
  [[maybe_unused]] static const bool bounded = bound_memory();
  cmsSetLogErrorHandler(keep_words);
}

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
