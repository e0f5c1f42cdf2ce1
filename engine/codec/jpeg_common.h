// Coming back from libjpeg's errors. The library cannot return one, so a step runs under setjmp in
// a function of its own, where nothing needs a destructor.
#pragma once

#include <csetjmp>
#include <cstdio>
// (jpeglib.h needs <cstdio> before it.)
#include <jpeglib.h>
// (jerror.h needs jpeglib.h before it.)
#include <jerror.h>

#include "base/bytes.h"

namespace proofleaf {

struct JpegFault {
  jpeg_error_mgr manager;  // first, so that cinfo->err is also the fault
  std::jmp_buf back;
  int code;        // J_MESSAGE_CODE of the error, 0 while all is well
  bool in_pixels;  // true once the picture's own data is being read
};

// Fills in fault so that its errors and its warnings of damage jump back.
void prepare(JpegFault& fault);

// Runs step(cinfo, argument); false if libjpeg gave up, with fault.code saying why.
template <class Codec, class Argument>
bool guarded(JpegFault& fault, void (*step)(Codec*, Argument), Codec* cinfo, Argument argument) {
  if (setjmp(fault.back)) return false;
  step(cinfo, argument);
  return true;
}

// Whether all of the picture is told from its top down, in Huffman codes: one scan, not
// progressive. cinfo: after jpeg_read_header.
inline bool in_one_huffman_scan(const jpeg_decompress_struct& cinfo) {
  return !cinfo.progressive_mode && !cinfo.arith_code &&
         cinfo.comps_in_scan == cinfo.num_components;
}

}  // namespace proofleaf
