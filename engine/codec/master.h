// Master files in: what a JPEG, PNG or TIFF says of itself, and its pixels as rows.
//
// Every length and offset found inside a file is checked before it is used. Limits: either side up
// to 65,500 pixels (JPEG's own bound), 600 megapixels in all, an embedded profile up to 16 MiB, one
// decoded row or tile up to 64 MiB; past them the file is refused with a sentence. So is one that
// is too short for the picture it claims, however well it were compressed.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/bytes.h"
#include "raster/rows.h"

namespace proofleaf {

enum class Container { jpeg, png, tiff };
enum class ColourModel { grey, rgb, cmyk };
// Exif 2.32 tag 0xA001 ColorSpace (1 sRGB, 0xFFFF uncalibrated) and, for the second wide space,
// InteroperabilityIndex "R03" (DCF option file: opRGB).
enum class ExifColourSpace { none, srgb, oprgb, uncalibrated };

// Metadata that gives away place, owner or equipment.
struct PrivateTraces {
  bool place = false;   // GPS IFD present
  bool serial = false;  // body, lens or camera-owner serial tags
  bool owner = false;   // artist, owner name, copyright holder's name
  bool any() const { return place || serial || owner; }
};

// A JPEG quantisation table by rows of the 8 x 8 block (not in zigzag order), ITU-T T.81 B.2.4.1.
using JpegTable = std::array<uint16_t, 64>;

struct MasterInfo {
  Container container = Container::jpeg;
  ColourModel model = ColourModel::rgb;
  uint32_t width = 0;   // [pixels] as the picture stands upright, after orientation
  uint32_t height = 0;  // [pixels]
  uint32_t bits = 8;    // per sample in the file: 8 or 16
  int orientation = 1;  // Exif 2.32 tag 0x0112, 1..8
  bool had_alpha = false;
  std::optional<double> ppi;  // pixels per inch, if the file says so
  Bytes icc;                  // embedded profile, empty if none
  ExifColourSpace exif_space = ExifColourSpace::none;
  PrivateTraces traces;
  Bytes exif;  // the Exif block as a TIFF stream ("II*\0" or "MM\0*" first), empty if none
  std::vector<JpegTable> jpeg_tables;  // JPEG only: of the first component, then the others
  std::vector<std::string> notes;      // plain sentences: "Its transparency was laid on white."
};

// An opened master. The bytes are only ever read.
class Master {
 public:
  virtual ~Master() = default;
  virtual const MasterInfo& info() const = 0;
  // The picture upright, in the file's own model (1, 3 or 4 channels), transparency already laid on
  // white, CMYK with 0 = no ink. shrink is 1, 2, 4 or 8: the picture may come at
  // ceil(side / shrink), where the container can do that for less work than decoding all of it
  // (JPEG); others return it at full size, so read format() of what comes back.
  virtual Result<std::unique_ptr<RowSource>> open_rows(uint32_t shrink = 1) = 0;
};

// Recognises a file by its first bytes, never by its name, and reads its headers.
Result<std::unique_ptr<Master>> open_master(std::shared_ptr<ByteSource> source);

}  // namespace proofleaf
