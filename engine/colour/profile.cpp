#include "colour/profile.h"

#include <algorithm>
#include <array>
#include <cstring>

#include "colour/lcms.h"

namespace proofleaf {
namespace {

constexpr size_t kHeaderSize = 128;   // ICC.1:2022 clause 7.2
constexpr size_t kTagEntrySize = 12;  // ICC.1:2022 clause 7.3.1: signature, offset, size
constexpr uint32_t kMostTags = 200;  // far above any real profile; bounds the work on a hostile one

uint32_t big_endian(const Bytes& bytes, size_t at) {
  return uint32_t{bytes[at]} << 24 | uint32_t{bytes[at + 1]} << 16 | uint32_t{bytes[at + 2]} << 8 |
         bytes[at + 3];
}

struct Tag {
  uint32_t from, size;  // [bytes]
};
Tag tag_at(const Bytes& bytes, uint32_t index) {
  const size_t entry = kHeaderSize + 4 + index * kTagEntrySize;
  return {big_endian(bytes, entry + 4), big_endian(bytes, entry + 8)};
}

// The rules of the header and the tag table that a reader can be hurt by.
Status check_layout(const Bytes& bytes, const std::string& name) {
  if (bytes.size() < kHeaderSize + 4 || !looks_like_profile(bytes)) {
    return Error{"{} is not an ICC profile.", name};
  }
  if (big_endian(bytes, 0) > bytes.size()) {
    return Error{"{} is cut short: the profile says it is longer than the file.", name};
  }
  const uint32_t tags = big_endian(bytes, kHeaderSize);
  const uint64_t table_end = kHeaderSize + 4 + uint64_t{tags} * kTagEntrySize;
  if (tags == 0 || tags > kMostTags || table_end > bytes.size()) {
    return Error{"{} has a damaged table of contents; the profile cannot be used.", name};
  }
  for (uint32_t i = 0; i < tags; ++i) {
    const Tag tag = tag_at(bytes, i);
    if (uint64_t{tag.from} + tag.size > bytes.size()) {
      return Error{"{} has a table that points outside the file; the profile is damaged.", name};
    }
  }
  return done();
}

// Control characters have no place in a name that is shown and written into files.
std::string readable(std::string text) {
  std::erase_if(text, [](unsigned char c) { return c < 0x20 || c == 0x7f; });
  constexpr size_t kLongest = 120;
  if (text.size() > kLongest) {
    size_t end = kLongest;  // not in the middle of a UTF-8 character
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
    text.resize(end);
  }
  const size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

void append_utf8(std::string& text, uint32_t code) {
  auto put = [&](uint32_t byte) { text.push_back(static_cast<char>(byte)); };
  if (code < 0x80) return put(code);
  if (code < 0x800) {
    put(0xC0 | code >> 6);
  } else {
    if (code < 0x10000) {
      put(0xE0 | code >> 12);
    } else {
      put(0xF0 | code >> 18);
      put(0x80 | (code >> 12 & 0x3F));
    }
    put(0x80 | (code >> 6 & 0x3F));
  }
  put(0x80 | (code & 0x3F));
}

// LittleCMS gives the profile's UTF-16 (ICC.1:2022 10.15) as one code point to a wchar_t.
std::string utf8(const wchar_t* points) {
  std::string text;
  for (; *points != 0; ++points) {
    const auto point = static_cast<char32_t>(*points);
    const bool sound = point < 0xD800 || (point > 0xDFFF && point < 0x110000);
    append_utf8(text, sound ? point : 0xFFFD);
  }
  return text;
}

// LittleCMS 2.16's own UTF-8 form of this reads past the end of the text.
std::string read_title(cmsHPROFILE handle, const std::string& name) {
  std::array<wchar_t, 512> text{};
  cmsGetProfileInfo(handle, cmsInfoDescription, "en", "US", text.data(),
                    static_cast<cmsUInt32Number>((text.size() - 1) * sizeof(wchar_t)));
  const std::string title = readable(utf8(text.data()));
  return title.empty() ? name : title;
}

struct Primaries {
  cmsCIExyY white;
  cmsCIExyYTRIPLE rgb;
};

struct SpaceNumbers {
  StandardSpace space;
  Primaries primaries;
  int curve_type;  // ICC.1:2022 10.18 parametric types, in LittleCMS' numbering (one more)
  std::array<double, 5> curve;
};

constexpr cmsCIExyY kD65{0.3127, 0.3290, 1.0};
constexpr std::array<double, 5> kSrgbCurve{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};

const std::array<SpaceNumbers, 4> kSpaces{{
    {{"srgb", "sRGB (IEC 61966-2-1)", "IEC 61966-2-1:1999"},
     {kD65, {{0.6400, 0.3300, 1}, {0.3000, 0.6000, 1}, {0.1500, 0.0600, 1}}},
     4,
     kSrgbCurve},
    {{"p3", "Display P3", "SMPTE EG 432-1 primaries, D65, curve of IEC 61966-2-1"},
     {kD65, {{0.6800, 0.3200, 1}, {0.2650, 0.6900, 1}, {0.1500, 0.0600, 1}}},
     4,
     kSrgbCurve},
    {{"oprgb", "opRGB (IEC 61966-2-5)", "IEC 61966-2-5:2007, gamma 563/256"},
     {kD65, {{0.6400, 0.3300, 1}, {0.2100, 0.7100, 1}, {0.1500, 0.0600, 1}}},
     1,
     {563.0 / 256.0}},
    {{"romm", "ROMM RGB (ISO 22028-2)", "ISO 22028-2:2013"},
     {{0.3457, 0.3585, 1.0}, {{0.7347, 0.2653, 1}, {0.1596, 0.8404, 1}, {0.0366, 0.0001, 1}}},
     4,
     {1.8, 1, 0, 1.0 / 16, 1.0 / 32}},
}};

}  // namespace

bool looks_like_profile(ByteView head) {
  return head.size() >= 40 && std::memcmp(head.data() + 36, "acsp", 4) == 0;
}

Result<Profile> Profile::open(Bytes bytes, const std::string& name) {
  listen_to_lcms();
  if (auto layout = check_layout(bytes, name); !layout) return layout.error();
  cmsHPROFILE handle =
      cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()));
  if (handle == nullptr) {
    return Error{"{} cannot be read as an ICC profile ({}).", name, take_lcms_words()};
  }
  Profile profile;
  profile.handle_ = std::shared_ptr<void>(handle, [](void* h) { cmsCloseProfile(h); });
  profile.bytes_ = std::make_shared<const Bytes>(std::move(bytes));
  profile.title_ = read_title(handle, name);
  return profile;
}

uint32_t Profile::colour_space() const { return cmsGetColorSpace(handle()); }
uint32_t Profile::device_class() const { return cmsGetDeviceClass(handle()); }
uint32_t Profile::channels() const {
  return static_cast<uint32_t>(std::max(0, cmsChannelsOfColorSpace(cmsGetColorSpace(handle()))));
}

bool Profile::has_byte_tables() const {
  const Bytes& all = bytes();
  const uint32_t tags = big_endian(all, kHeaderSize);  // checked when it was opened
  for (uint32_t i = 0; i < tags; ++i) {
    const Tag tag = tag_at(all, i);
    if (tag.size >= 4 && big_endian(all, tag.from) == cmsSigLut8Type) return true;
  }
  return false;
}

const std::vector<StandardSpace>& standard_spaces() {
  static const std::vector<StandardSpace> spaces = [] {
    std::vector<StandardSpace> list;
    for (const auto& numbers : kSpaces) list.push_back(numbers.space);
    return list;
  }();
  return spaces;
}

Result<Profile> standard_profile(const std::string& id) {
  const auto found = std::find_if(kSpaces.begin(), kSpaces.end(),
                                  [&](const auto& numbers) { return numbers.space.id == id; });
  if (found == kSpaces.end()) return Error{"There is no standard colour space called {}.", id};
  const Curve curve(cmsBuildParametricToneCurve(nullptr, found->curve_type, found->curve.data()));
  return rgb_profile(found->primaries.white, found->primaries.rgb, curve.get(), found->space.title);
}

Result<Profile> rgb_profile(const cmsCIExyY& white, const cmsCIExyYTRIPLE& primaries,
                            cmsToneCurve* curve, const std::string& title) {
  cmsToneCurve* curves[3] = {curve, curve, curve};
  const std::shared_ptr<void> built(cmsCreateRGBProfile(&white, &primaries, curves), [](void* h) {
    if (h != nullptr) cmsCloseProfile(h);
  });
  if (!built) return Error{"The colour space {} could not be built.", title};
  cmsMLU* text = cmsMLUalloc(nullptr, 1);
  cmsMLUsetASCII(text, "en", "US", title.c_str());
  cmsWriteTag(built.get(), cmsSigProfileDescriptionTag, text);
  cmsMLUsetASCII(text, "en", "US", "CC0, from published numbers");
  cmsWriteTag(built.get(), cmsSigCopyrightTag, text);
  cmsMLUfree(text);
  cmsUInt32Number size = 0;
  if (!cmsSaveProfileToMem(built.get(), nullptr, &size)) {
    return Error{"The colour space {} could not be written.", title};
  }
  Bytes bytes(size);
  cmsSaveProfileToMem(built.get(), bytes.data(), &size);
  // The creation date would make two builds of the same space differ (ICC.1:2022 clause 7.2.10).
  constexpr std::array<uint8_t, 12> kFixedDate{0x07, 0xEA, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
  std::copy(kFixedDate.begin(), kFixedDate.end(), bytes.begin() + 24);
  return Profile::open(std::move(bytes), title);
}

}  // namespace proofleaf
