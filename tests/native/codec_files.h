// Test files made in memory by the C libraries themselves, not by the code under test.
#pragma once

#include <cstdio>
// (jpeglib.h needs <cstdio> before it.)
#include <jpeglib.h>
#include <png.h>
#include <tiffio.h>

#include <functional>
#include <string>
#include <vector>

#include "codec/master.h"
#include "codec/writer.h"

namespace proofleaf::testing {

using Codes = std::vector<uint16_t>;

// A picture with smooth parts and seeded noise; values 0..(2^bits - 1).
Codes picture(uint32_t width, uint32_t height, uint32_t channels, uint32_t bits);

struct Segment {
  int marker;  // JPEG_APP0 + n
  Bytes body;
};

struct JpegRecipe {
  uint32_t width = 37, height = 29;
  int channels = 3;
  J_COLOR_SPACE stored = JCS_YCbCr;
  bool progressive = false;
  bool thinned = false;  // 4:2:0
  bool adobe = true;     // for CMYK: with the Adobe marker
  int restart_rows = 0;
  unsigned restart_mcus = 0;  // without restart_rows
  int quality = 100;
  bool own_codes = false;  // Huffman tables made for the picture, in place of T.81 annex K's
  int density_unit = 1;
  int density = 300;
  std::vector<Segment> segments = {};
};
Bytes raw_jpeg(const JpegRecipe& recipe, const Codes& samples);
// What libjpeg itself makes of a file at 1/shrink.
Codes decode_jpeg(const Bytes& file, unsigned shrink = 1);

struct PngRecipe {
  uint32_t width = 37, height = 29;
  int depth = 8;
  int type = PNG_COLOR_TYPE_RGB;
  bool interlaced = false;
  std::function<void(png_structp, png_infop)> more = {};  // chunks before the picture
};
// Samples of any depth, one value each.
Bytes raw_png(const PngRecipe& recipe, const Codes& samples);

struct TiffRecipe {
  uint32_t width = 37, height = 29;
  uint16_t bits = 8;
  uint16_t samples = 3;
  uint16_t photometric = PHOTOMETRIC_RGB;
  uint16_t planar = PLANARCONFIG_CONTIG;
  uint16_t compression = COMPRESSION_NONE;
  bool predictor = false;
  bool tiled = false;
  uint32_t rows_per_strip = 7;
  const char* mode = "wl";  // "wb": big-endian, "wl8": BigTIFF
  std::vector<uint16_t> extra = {};
  std::function<void(TIFF*)> more = {};
};
Bytes raw_tiff(const TiffRecipe& recipe, const Codes& samples);

std::shared_ptr<ByteSource> source_of(Bytes bytes, std::string name = "picture.bin");
// All rows of a master, asked for `step` at a time; the message if that fails.
Result<Codes> read_picture(Master& master, uint32_t step = 5, uint32_t shrink = 1);
Result<Codes> read_file_rows(const Bytes& file, uint32_t step = 5);
// Opens and reads everything; true if both said yes. Any answer but a crash is right.
bool survives(const Bytes& file);

// One small whole file of each kind, Exif and all; what they are begins with their container.
struct Named {
  const char* what;
  Bytes file;
};
std::vector<Named> sound_files();

// 8-bit values as 16-bit ones.
Codes widened(Codes samples);
Codes inverted(Codes samples);

// An Exif block by hand: one directory of SHORT, ASCII and RATIONAL values, a photo directory, a
// GPS directory, in either byte order.
struct ExifField {
  uint16_t tag;
  uint16_t type;  // 2 ASCII, 3 SHORT, 4 LONG, 5 RATIONAL
  std::string text = {};
  std::vector<uint32_t> numbers = {};
};
Bytes raw_exif(bool big_endian, const std::vector<ExifField>& image,
               const std::vector<ExifField>& photo, const std::vector<ExifField>& gps,
               const std::vector<ExifField>& interop = {});

bool contains(const Bytes& bytes, const std::string& text);

}  // namespace proofleaf::testing
