// Exif as a small tree of values, read from any TIFF stream (an Exif block, or a TIFF file itself)
// and written as one. Tags and types: Exif 2.32 section 4.6, TIFF 6.0 section 2.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "codec/master.h"

namespace proofleaf {

namespace exif {
inline constexpr uint16_t kByte = 1, kAscii = 2, kShort = 3, kLong = 4, kRational = 5,
                          kUndefined = 7;
inline constexpr uint16_t kDescription = 0x010E, kMake = 0x010F, kModel = 0x0110,
                          kOrientation = 0x0112, kXResolution = 0x011A, kYResolution = 0x011B,
                          kResolutionUnit = 0x0128, kSoftware = 0x0131, kDateTime = 0x0132,
                          kArtist = 0x013B, kCopyright = 0x8298, kPhotoIfd = 0x8769,
                          kGpsIfd = 0x8825, kVersion = 0x9000, kMakerNote = 0x927C,
                          kColourSpace = 0xA001, kPixelX = 0xA002, kPixelY = 0xA003,
                          kInteropIfd = 0xA005, kOwnerName = 0xA430, kBodySerial = 0xA431,
                          kLensSerial = 0xA435, kCameraSerial = 0xC62F;  // the last: TIFF/EP, DNG
}  // namespace exif

struct ExifValue {
  uint16_t tag = 0;
  uint16_t type = 0;   // 1..12
  uint32_t count = 0;  // of the type's elements
  Bytes data;          // elements in little-endian order
};

using ExifDirectory = std::vector<ExifValue>;

struct ExifTree {
  ExifDirectory image;    // the first directory
  ExifDirectory photo;    // Exif IFD
  ExifDirectory gps;      // GPS IFD
  ExifDirectory interop;  // Interoperability IFD
};

struct ExifFacts {
  int orientation = 1;
  std::optional<double> ppi;
  ExifColourSpace space = ExifColourSpace::none;
  PrivateTraces traces;
};

// Reads what can be read of a classic or BigTIFF stream of either byte order; never fails. At most
// 1024 values a directory, values over 64 KiB and directory pointers are left out.
ExifTree read_exif(std::shared_ptr<ByteSource> source);
ExifTree read_exif(ByteView block);

// Only what describes the picture: without what a TIFF file's first directory says about its own
// strips and tiles, without maker notes.
ExifTree describing_part(const ExifTree& tree);

ExifFacts exif_facts(const ExifTree& tree);

const ExifValue* find_value(const ExifDirectory& directory, uint16_t tag);
// The first element as a number: BYTE, SHORT, LONG and RATIONAL.
std::optional<double> number_of(const ExifValue* value);
// ASCII without its closing zero.
std::string_view text_of(const ExifValue* value);

ExifValue short_value(uint16_t tag, uint16_t number);
ExifValue long_value(uint16_t tag, uint32_t number);
ExifValue text_value(uint16_t tag, std::string_view text);
// Number as a fraction, exact to 1/10000.
ExifValue rational_value(uint16_t tag, double number);

// Appends a classic little-endian directory and its values to out, whose first byte lies at `base`
// in the file. Values are sorted by tag, as TIFF 6.0 asks.
void append_directory(Bytes& out, ExifDirectory directory, uint32_t base);
// What append_directory() will add [bytes], even.
size_t directory_size(const ExifDirectory& directory);

// The tree as an Exif block ("II*\0" first).
Bytes write_exif(const ExifTree& tree);

}  // namespace proofleaf
