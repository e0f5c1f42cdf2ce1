#include <algorithm>
#include <array>

#include "codec/block_reader.h"
#include "codec/exif.h"

namespace proofleaf {

namespace {

constexpr uint64_t kMostEntries = 1024;
constexpr uint64_t kLargestValue = 64 << 10;

// Bytes of one element, and of the unit that byte order turns round, for types 0..13.
constexpr std::array<uint8_t, 14> kElementSize = {0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4};
constexpr std::array<uint8_t, 14> kSwapSize = {0, 1, 1, 2, 4, 4, 1, 1, 2, 4, 4, 4, 8, 4};

class DirectoryReader {
 public:
  explicit DirectoryReader(std::shared_ptr<ByteSource> source) : reader_(std::move(source)) {}

  ExifTree read() {
    ExifTree tree;
    const uint64_t first = header();
    if (first == 0) return tree;
    tree.image = directory(first);
    tree.photo = directory(photo_);
    tree.gps = directory(gps_);
    tree.interop = directory(interop_);
    return tree;
  }

 private:
  // Returns the first directory's offset, 0 if this is no TIFF stream.
  uint64_t header() {
    std::array<uint8_t, 4> head{};
    if (!reader_.read_all_at(0, head.data(), head.size())) return 0;
    if (head[0] != head[1] || (head[0] != 'I' && head[0] != 'M')) return 0;
    big_endian_ = head[0] == 'M';
    const uint16_t magic =
        static_cast<uint16_t>(big_endian_ ? head[2] << 8 | head[3] : head[3] << 8 | head[2]);
    if (magic != 42 && magic != 43) return 0;
    big_file_ = magic == 43;
    return big_file_ ? number(8, 8) : number(4, 4);
  }

  // An unsigned number of `size` bytes at offset; 0 past the end.
  uint64_t number(uint64_t offset, size_t size) {
    std::array<uint8_t, 8> raw{};
    if (!reader_.read_all_at(offset, raw.data(), size)) return 0;
    uint64_t value = 0;
    for (size_t i = 0; i < size; ++i) value = value << 8 | raw[big_endian_ ? i : size - 1 - i];
    return value;
  }

  ExifDirectory directory(uint64_t offset) {
    ExifDirectory values;
    if (offset == 0 || offset >= reader_.size()) return values;
    const uint64_t head = big_file_ ? 8 : 2;
    const uint64_t step = big_file_ ? 20 : 12;
    const uint64_t count = std::min(number(offset, static_cast<size_t>(head)), kMostEntries);
    for (uint64_t i = 0; i < count; ++i) {
      const uint64_t at = offset + head + i * step;
      if (at + step > reader_.size()) break;
      entry(at, values);
    }
    return values;
  }

  void entry(uint64_t at, ExifDirectory& values) {
    const uint64_t type = number(at + 2, 2);
    const size_t field = big_file_ ? 8 : 4;
    const uint64_t count = number(at + 4, field);
    const uint64_t slot = at + 4 + field;
    const uint16_t tag = static_cast<uint16_t>(number(at, 2));
    if (uint64_t* pointer = pointer_for(tag)) {
      // LONG or IFD (4 bytes), in BigTIFF also LONG8 or IFD8.
      *pointer = number(slot, type == 16 || type == 18 ? 8 : 4);
      return;
    }
    if (type == 0 || type >= kElementSize.size() || type == 13) return;
    if (count == 0 || count > kLargestValue / kElementSize[type]) return;
    const size_t bytes = static_cast<size_t>(count) * kElementSize[type];
    ExifValue value{tag, static_cast<uint16_t>(type), static_cast<uint32_t>(count), Bytes(bytes)};
    const uint64_t where = bytes <= field ? slot : number(slot, field);
    if (where > reader_.size() || bytes > reader_.size() - where) return;
    if (!reader_.read_all_at(where, value.data.data(), bytes)) return;
    if (big_endian_) turn_round(value.data, kSwapSize[type]);
    if (!find_value(values, tag)) values.push_back(std::move(value));
  }

  uint64_t* pointer_for(uint16_t tag) {
    if (tag == exif::kPhotoIfd) return &photo_;
    if (tag == exif::kGpsIfd) return &gps_;
    if (tag == exif::kInteropIfd) return &interop_;
    return nullptr;
  }

  static void turn_round(Bytes& data, size_t unit) {
    for (size_t at = 0; at + unit <= data.size(); at += unit) {
      std::reverse(data.begin() + static_cast<std::ptrdiff_t>(at),
                   data.begin() + static_cast<std::ptrdiff_t>(at + unit));
    }
  }

  BlockReader reader_;
  bool big_endian_ = false;
  bool big_file_ = false;
  uint64_t photo_ = 0, gps_ = 0, interop_ = 0;
};

uint32_t little(const Bytes& data, size_t at, size_t size) {
  uint32_t value = 0;
  for (size_t i = size; i-- > 0;) value = value << 8 | data[at + i];
  return value;
}

std::optional<double> resolution(const ExifDirectory& image) {
  auto value = number_of(find_value(image, exif::kXResolution));
  if (!value) value = number_of(find_value(image, exif::kYResolution));
  // TIFF 6.0: 1 no unit, 2 inch (also when absent), 3 centimetre.
  const double unit = number_of(find_value(image, exif::kResolutionUnit)).value_or(2);
  if (!value || (unit != 2 && unit != 3)) return std::nullopt;
  const double ppi = unit == 3 ? *value * 2.54 : *value;
  if (!(ppi >= 1 && ppi <= 100'000)) return std::nullopt;
  return ppi;
}

ExifColourSpace colour_space(const ExifTree& tree) {
  const auto space = number_of(find_value(tree.photo, exif::kColourSpace));
  const bool r03 = text_of(find_value(tree.interop, 1)) == "R03";
  if (space == 1.0) return ExifColourSpace::srgb;
  if (space == 65535.0) return r03 ? ExifColourSpace::oprgb : ExifColourSpace::uncalibrated;
  // Not in the standard, but some cameras wrote 2 for the wide space (common practice, no source).
  if (space == 2.0 || (!space && r03)) return ExifColourSpace::oprgb;
  return ExifColourSpace::none;
}

bool says_something(const ExifDirectory& directory, uint16_t tag) {
  const ExifValue* value = find_value(directory, tag);
  return value && std::any_of(value->data.begin(), value->data.end(),
                              [](uint8_t c) { return c != 0 && c != ' '; });
}

}  // namespace

ExifTree read_exif(std::shared_ptr<ByteSource> source) {
  return DirectoryReader(std::move(source)).read();
}

ExifTree read_exif(ByteView block) {
  return read_exif(std::make_shared<MemorySource>("Exif", Bytes(block.begin(), block.end())));
}

const ExifValue* find_value(const ExifDirectory& directory, uint16_t tag) {
  const auto found = std::find_if(directory.begin(), directory.end(),
                                  [tag](const ExifValue& v) { return v.tag == tag; });
  return found == directory.end() ? nullptr : &*found;
}

std::optional<double> number_of(const ExifValue* value) {
  if (!value) return std::nullopt;
  switch (value->type) {
    case exif::kByte:
      return value->data[0];
    case exif::kShort:
      return little(value->data, 0, 2);
    case exif::kLong:
      return little(value->data, 0, 4);
    case exif::kRational: {
      const uint32_t below = little(value->data, 4, 4);
      if (below == 0) return std::nullopt;
      return static_cast<double>(little(value->data, 0, 4)) / below;
    }
    default:
      return std::nullopt;
  }
}

std::string_view text_of(const ExifValue* value) {
  if (!value || value->type != exif::kAscii) return {};
  const auto end = std::find(value->data.begin(), value->data.end(), uint8_t{0});
  return {reinterpret_cast<const char*>(value->data.data()),
          static_cast<size_t>(end - value->data.begin())};
}

ExifFacts exif_facts(const ExifTree& tree) {
  ExifFacts facts;
  const double turn = number_of(find_value(tree.image, exif::kOrientation)).value_or(1);
  if (turn >= 1 && turn <= 8) facts.orientation = static_cast<int>(turn);
  facts.ppi = resolution(tree.image);
  facts.space = colour_space(tree);
  // GPSVersionID (tag 0) alone tells no place; some cameras write it with the receiver off.
  facts.traces.place = std::any_of(tree.gps.begin(), tree.gps.end(),
                                   [](const ExifValue& value) { return value.tag != 0; });
  facts.traces.serial = says_something(tree.photo, exif::kBodySerial) ||
                        says_something(tree.photo, exif::kLensSerial) ||
                        says_something(tree.image, exif::kCameraSerial);
  facts.traces.owner = says_something(tree.image, exif::kArtist) ||
                       says_something(tree.image, exif::kCopyright) ||
                       says_something(tree.photo, exif::kOwnerName);
  return facts;
}

}  // namespace proofleaf
