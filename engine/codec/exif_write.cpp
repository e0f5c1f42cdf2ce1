#include <algorithm>
#include <array>
#include <cmath>

#include "codec/exif.h"

namespace proofleaf {

namespace {

void put(Bytes& out, uint32_t value, size_t size) {
  for (size_t i = 0; i < size; ++i) out.push_back(static_cast<uint8_t>(value >> (8 * i)));
}

size_t even(size_t size) { return size + (size & 1); }

// Room for a value outside its entry; values of up to 4 bytes stand inside it.
size_t outside(const ExifValue& value) {
  return value.data.size() <= 4 ? 0 : even(value.data.size());
}

void set_pointer(ExifDirectory& directory, uint16_t tag, size_t offset) {
  for (ExifValue& value : directory) {
    if (value.tag == tag) value = long_value(tag, static_cast<uint32_t>(offset));
  }
}

}  // namespace

ExifValue short_value(uint16_t tag, uint16_t number) {
  ExifValue value{tag, exif::kShort, 1, {}};
  put(value.data, number, 2);
  return value;
}

ExifValue long_value(uint16_t tag, uint32_t number) {
  ExifValue value{tag, exif::kLong, 1, {}};
  put(value.data, number, 4);
  return value;
}

ExifValue text_value(uint16_t tag, std::string_view text) {
  ExifValue value{tag, exif::kAscii, static_cast<uint32_t>(text.size() + 1), {}};
  value.data.assign(text.begin(), text.end());
  value.data.push_back(0);
  return value;
}

ExifValue rational_value(uint16_t tag, double number) {
  const bool whole = std::floor(number) == number;
  const double below = whole ? 1 : 10'000;
  ExifValue value{tag, exif::kRational, 1, {}};
  put(value.data, static_cast<uint32_t>(std::clamp(std::round(number * below), 0.0, 4e9)), 4);
  put(value.data, static_cast<uint32_t>(below), 4);
  return value;
}

size_t directory_size(const ExifDirectory& directory) {
  size_t size = 2 + 12 * directory.size() + 4;
  for (const ExifValue& value : directory) size += outside(value);
  return size;
}

void append_directory(Bytes& out, ExifDirectory directory, uint32_t base) {
  std::stable_sort(directory.begin(), directory.end(),
                   [](const ExifValue& a, const ExifValue& b) { return a.tag < b.tag; });
  size_t free = base + out.size() + 2 + 12 * directory.size() + 4;
  put(out, static_cast<uint32_t>(directory.size()), 2);
  for (const ExifValue& value : directory) {
    put(out, value.tag, 2);
    put(out, value.type, 2);
    put(out, value.count, 4);
    if (outside(value) > 0) {
      put(out, static_cast<uint32_t>(free), 4);
      free += outside(value);
    } else {
      out.insert(out.end(), value.data.begin(), value.data.end());
      out.insert(out.end(), 4 - value.data.size(), 0);
    }
  }
  put(out, 0, 4);  // no next directory
  for (const ExifValue& value : directory) {
    if (outside(value) == 0) continue;
    out.insert(out.end(), value.data.begin(), value.data.end());
    if (value.data.size() & 1) out.push_back(0);
  }
}

Bytes write_exif(const ExifTree& tree) {
  ExifDirectory image = tree.image;
  ExifDirectory photo = tree.photo;
  if (!tree.interop.empty()) photo.push_back(long_value(exif::kInteropIfd, 0));
  if (!photo.empty()) image.push_back(long_value(exif::kPhotoIfd, 0));
  if (!tree.gps.empty()) image.push_back(long_value(exif::kGpsIfd, 0));

  const size_t photo_at = 8 + directory_size(image);
  const size_t interop_at = photo_at + (photo.empty() ? 0 : directory_size(photo));
  const size_t gps_at = interop_at + (tree.interop.empty() ? 0 : directory_size(tree.interop));
  set_pointer(image, exif::kPhotoIfd, photo_at);
  set_pointer(photo, exif::kInteropIfd, interop_at);
  set_pointer(image, exif::kGpsIfd, gps_at);

  Bytes out = {'I', 'I', 42, 0, 8, 0, 0, 0};
  append_directory(out, std::move(image), 0);
  if (!photo.empty()) append_directory(out, std::move(photo), 0);
  if (!tree.interop.empty()) append_directory(out, tree.interop, 0);
  if (!tree.gps.empty()) append_directory(out, tree.gps, 0);
  return out;
}

}  // namespace proofleaf
