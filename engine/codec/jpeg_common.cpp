#include "codec/jpeg_common.h"

namespace proofleaf {

namespace {

void jump_back(j_common_ptr cinfo) {
  auto* fault = reinterpret_cast<JpegFault*>(cinfo->err);
  fault->code = fault->manager.msg_code;
  std::longjmp(fault->back, 1);
}

// libjpeg goes on after a warning with invented pixels; a print master must not have any. What is
// said of the headers (a newer JFIF, filler before a marker) costs no pixel and is let through.
void on_message(j_common_ptr cinfo, int level) {
  auto* fault = reinterpret_cast<JpegFault*>(cinfo->err);
  if (level >= 0) return;
  const int code = fault->manager.msg_code;
  const bool harmless =
      code == JWRN_JFIF_MAJOR || (code == JWRN_EXTRANEOUS_DATA && !fault->in_pixels);
  if (!harmless) jump_back(cinfo);
}

void say_nothing(j_common_ptr) {}

}  // namespace

void prepare(JpegFault& fault) {
  jpeg_std_error(&fault.manager);
  fault.manager.error_exit = jump_back;
  fault.manager.emit_message = on_message;
  fault.manager.output_message = say_nothing;
  fault.code = 0;
  fault.in_pixels = false;
}

}  // namespace proofleaf
