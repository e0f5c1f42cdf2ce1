// What of a master's Exif goes with the print file.
#include <algorithm>
#include <array>
#include <span>

#include "codec/exif.h"
#include "codec/writer.h"

namespace proofleaf {

namespace {

// A block must fit one JPEG APP1 segment of 65,533 bytes; longer values are prose, not camera data.
constexpr size_t kLongestKept = 2048;
constexpr size_t kKeptInAll = 40'000;

// The first directory: equipment and date are harmless; a description, like a comment, can hold
// anything, so it counts as private.
constexpr std::array<uint16_t, 3> kImageTags = {exif::kMake, exif::kModel, exif::kDateTime};
constexpr std::array<uint16_t, 3> kPrivateImageTags = {exif::kDescription, exif::kArtist,
                                                       exif::kCopyright};

// The Exif directory: how the picture was taken. Exif 2.32 table 7 and 8.
constexpr std::array<uint16_t, 23> kPhotoTags = {
    0x829A,  // ExposureTime
    0x829D,  // FNumber
    0x8822,  // ExposureProgram
    0x8827,  // PhotographicSensitivity
    0x8830,  // SensitivityType
    0x9003,  // DateTimeOriginal
    0x9004,  // DateTimeDigitized
    0x9201,  // ShutterSpeedValue
    0x9202,  // ApertureValue
    0x9203,  // BrightnessValue
    0x9204,  // ExposureBiasValue
    0x9205,  // MaxApertureValue
    0x9206,  // SubjectDistance
    0x9207,  // MeteringMode
    0x9208,  // LightSource
    0x9209,  // Flash
    0x920A,  // FocalLength
    0xA402,  // ExposureMode
    0xA403,  // WhiteBalance
    0xA405,  // FocalLengthIn35mmFilm
    0xA432,  // LensSpecification
    0xA433,  // LensMake
    0xA434,  // LensModel
};
constexpr std::array<uint16_t, 8> kPrivatePhotoTags = {
    0x9010,  // OffsetTime: the time zone narrows down the place
    0x9011,  // OffsetTimeOriginal
    0x9012,  // OffsetTimeDigitized
    0x9286,  // UserComment
    0xA420,  // ImageUniqueID
    exif::kOwnerName, exif::kBodySerial, exif::kLensSerial,
};
// A TIFF's first directory may say what its strips are; only these describe the picture.
constexpr std::array<uint16_t, 12> kDescribingTags = {
    exif::kDescription,    exif::kMake,         exif::kModel,    exif::kOrientation,
    exif::kXResolution,    exif::kYResolution,  exif::kSoftware, exif::kDateTime,
    exif::kResolutionUnit, exif::kCameraSerial, exif::kArtist,   exif::kCopyright};

bool among(std::span<const uint16_t> tags, uint16_t tag) {
  return std::find(tags.begin(), tags.end(), tag) != tags.end();
}

// Copies the values whose tag is listed, while there is room.
void keep(const ExifDirectory& from, std::span<const uint16_t> tags, ExifDirectory& to,
          size_t& room) {
  for (const ExifValue& value : from) {
    const size_t cost = 12 + value.data.size();
    if (!among(tags, value.tag) || value.data.size() > kLongestKept || cost > room) continue;
    to.push_back(value);
    room -= cost;
  }
}

void keep_place(const ExifDirectory& from, ExifDirectory& to, size_t& room) {
  for (const ExifValue& value : from) {
    const size_t cost = 12 + value.data.size();
    if (value.tag > 0x1F || value.data.size() > kLongestKept || cost > room) continue;  // Exif 2.32
    to.push_back(value);
    room -= cost;
  }
}

void state_delivery(const ExifEdit& edit, ExifTree& tree) {
  tree.image.push_back(short_value(exif::kOrientation, 1));
  tree.image.push_back(rational_value(exif::kXResolution, edit.ppi));
  tree.image.push_back(rational_value(exif::kYResolution, edit.ppi));
  tree.image.push_back(short_value(exif::kResolutionUnit, 2));
  tree.photo.push_back({exif::kVersion, exif::kUndefined, 4, {'0', '2', '3', '2'}});
  tree.photo.push_back(long_value(exif::kPixelX, edit.width));
  tree.photo.push_back(long_value(exif::kPixelY, edit.height));
  if (edit.space == ExifColourSpace::none) return;
  const bool srgb = edit.space == ExifColourSpace::srgb;
  tree.photo.push_back(short_value(exif::kColourSpace, srgb ? 1 : 0xFFFF));
  if (edit.space == ExifColourSpace::uncalibrated) return;
  tree.interop.push_back(text_value(1, srgb ? "R98" : "R03"));
  tree.interop.push_back({2, exif::kUndefined, 4, {'0', '1', '0', '0'}});
}

}  // namespace

ExifTree describing_part(const ExifTree& tree) {
  ExifTree part = tree;
  std::erase_if(part.image, [](const ExifValue& v) { return !among(kDescribingTags, v.tag); });
  std::erase_if(part.photo, [](const ExifValue& v) { return v.tag == exif::kMakerNote; });
  return part;
}

Bytes clean_exif(ByteView exif, const ExifEdit& edit) {
  ExifTree tree;
  if (!exif.empty()) tree = read_exif(exif);
  ExifTree kept;
  size_t room = kKeptInAll;
  keep(tree.image, kImageTags, kept.image, room);
  keep(tree.photo, kPhotoTags, kept.photo, room);
  if (edit.keep_private) {
    keep(tree.image, kPrivateImageTags, kept.image, room);
    keep(tree.photo, kPrivatePhotoTags, kept.photo, room);
    keep_place(tree.gps, kept.gps, room);
  }
  state_delivery(edit, kept);
  return write_exif(kept);
}

}  // namespace proofleaf
