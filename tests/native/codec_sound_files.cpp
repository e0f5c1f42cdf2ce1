// One small whole file of each kind that a reader can be given.
#include "codec_files.h"

namespace proofleaf::testing {

std::vector<Named> sound_files() {
  const Codes rgb8 = picture(67, 61, 3, 8);
  const Codes rgb16 = picture(67, 61, 3, 16);
  const Codes rgba = picture(67, 61, 4, 8);
  const uint32_t w = 67, h = 61;
  Bytes segment = {'E', 'x', 'i', 'f', 0, 0};
  const Bytes block = raw_exif(true, {{0x112, 3, "", {1}}, {0x10F, 2, "Invented"}},
                               {{0x829A, 5, "", {1, 60}}}, {{1, 2, "N"}});
  segment.insert(segment.end(), block.begin(), block.end());
  return {
      {"JPEG", raw_jpeg({.width = w, .height = h, .segments = {{JPEG_APP0 + 1, segment}}}, rgb8)},
      {"JPEG progressive", raw_jpeg({.width = w, .height = h, .progressive = true}, rgb8)},
      {"JPEG 4:2:0 restarts",
       raw_jpeg({.width = w, .height = h, .thinned = true, .restart_rows = 1}, rgb8)},
      {"JPEG YCCK", raw_jpeg({.width = w, .height = h, .channels = 4, .stored = JCS_YCCK}, rgba)},
      {"PNG", raw_png({.width = w, .height = h}, rgb8)},
      {"PNG 16 interlaced",
       raw_png({.width = w, .height = h, .depth = 16, .interlaced = true}, rgb16)},
      {"PNG alpha", raw_png({.width = w, .height = h, .type = PNG_COLOR_TYPE_RGB_ALPHA}, rgba)},
      {"TIFF", raw_tiff({.width = w, .height = h}, rgb8)},
      {"TIFF LZW",
       raw_tiff(
           {.width = w, .height = h, .bits = 16, .compression = COMPRESSION_LZW, .predictor = true},
           rgb16)},
      {"TIFF Deflate tiles", raw_tiff({.width = w,
                                       .height = h,
                                       .compression = COMPRESSION_ADOBE_DEFLATE,
                                       .tiled = true,
                                       .mode = "wb"},
                                      rgb8)},
      {"TIFF PackBits planes", raw_tiff({.width = w,
                                         .height = h,
                                         .planar = PLANARCONFIG_SEPARATE,
                                         .compression = COMPRESSION_PACKBITS,
                                         .mode = "wl8"},
                                        rgb8)},
      {"TIFF CMYK alpha", raw_tiff({.width = w,
                                    .height = h,
                                    .samples = 5,
                                    .photometric = PHOTOMETRIC_SEPARATED,
                                    .rows_per_strip = 1000,
                                    .extra = {EXTRASAMPLE_UNASSALPHA}},
                                   picture(w, h, 5, 8))},
  };
}

}  // namespace proofleaf::testing
