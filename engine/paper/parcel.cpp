#include "paper/parcel.h"

#include <unzip.h>

#include <algorithm>
#include <array>
#include <memory>
#include <utility>

#include "base/utf8.h"
#include "colour/profile.h"

namespace proofleaf {
namespace {

constexpr size_t kHead = 40;  // [bytes] enough to know a profile
constexpr size_t kChunk = 64u << 10;
constexpr size_t kLongestName = 120;       // [bytes] shown
constexpr uint64_t kRatioFrom = 1u << 20;  // [bytes] unpacked; smaller files may pack as they like

// minizip reads through these; it has one stream, our source.
struct Stream {
  ByteSource& source;
  uint64_t at = 0;
  bool failed = false;
};

Stream& stream_of(voidpf pointer) { return *static_cast<Stream*>(pointer); }

voidpf stream_open(voidpf opaque, const void*, int) { return opaque; }

uLong stream_read(voidpf, voidpf pointer, void* into, uLong length) {
  Stream& stream = stream_of(pointer);
  auto got = stream.source.read_at(stream.at, {static_cast<uint8_t*>(into), length});
  if (!got) {
    stream.failed = true;
    return 0;
  }
  stream.at += got.value();
  return static_cast<uLong>(got.value());
}

uLong stream_write(voidpf, voidpf, const void*, uLong) { return 0; }
ZPOS64_T stream_tell(voidpf, voidpf pointer) { return stream_of(pointer).at; }

long stream_seek(voidpf, voidpf pointer, ZPOS64_T offset, int origin) {
  Stream& stream = stream_of(pointer);
  const uint64_t from = origin == ZLIB_FILEFUNC_SEEK_END   ? stream.source.size()
                        : origin == ZLIB_FILEFUNC_SEEK_CUR ? stream.at
                                                           : 0;
  const uint64_t to = from + offset;
  if (to < from || to > stream.source.size()) return -1;
  stream.at = to;
  return 0;
}

int stream_close(voidpf, voidpf) { return 0; }
int stream_error(voidpf, voidpf pointer) { return stream_of(pointer).failed ? 1 : 0; }

struct ZipCloser {
  void operator()(void* zip) const { unzClose(zip); }
};
using Zip = std::unique_ptr<void, ZipCloser>;

Zip open_zip(Stream& stream) {
  zlib_filefunc64_def calls{stream_open, stream_read,  stream_write, stream_tell,
                            stream_seek, stream_close, stream_error, &stream};
  return Zip(unzOpen2_64("", &calls));
}

struct Entry {
  std::string name;
  uint64_t packed = 0, unpacked = 0;  // [bytes] as the parcel says
  bool locked = false;
};

Result<Entry> entry_of(const Zip& zip) {
  unz_file_info64 info{};
  std::array<char, 1024> name{};
  if (unzGetCurrentFileInfo64(zip.get(), &info, name.data(), name.size() - 1, nullptr, 0, nullptr,
                              0) != UNZ_OK)
    return Error{"The parcel's list of files is damaged."};
  return Entry{name.data(), info.compressed_size, info.uncompressed_size, (info.flag & 1) != 0};
}

// Why a profile of that size is left aside; nothing where it is taken.
const char* too_large(const Entry& entry, uint64_t taken) {
  const bool ratio = entry.unpacked > kRatioFrom && entry.unpacked / kLargestRatio > entry.packed;
  if (entry.unpacked > kLargestParcelProfile || ratio)
    return phrase("{} unpacks to more than a profile can be.");
  if (entry.unpacked > kLargestUnpacked - taken)
    return phrase("{} is left aside: the parcel unpacks to too much.");
  return nullptr;
}

// Up to `length` bytes of the open entry; fewer where it ends or is damaged.
Bytes read_entry(const Zip& zip, uint64_t length) {
  Bytes bytes;
  while (bytes.size() < length) {
    const size_t before = bytes.size(), step = std::min<uint64_t>(kChunk, length - before);
    bytes.resize(before + step);
    const int got = unzReadCurrentFile(zip.get(), &bytes[before], static_cast<unsigned>(step));
    bytes.resize(before + static_cast<size_t>(std::max(0, got)));
    if (got <= 0) break;
  }
  return bytes;
}

// Adds the current entry where it is a profile, or a note where it is one that cannot be taken.
void take_entry(const Zip& zip, const Entry& entry, uint64_t& taken, Parcel& parcel) {
  const std::string name = plain_name(entry.name);
  const std::string lower = [&] {
    std::string copy = name;
    for (char& each : copy)
      if (each >= 'A' && each <= 'Z') each = static_cast<char>(each + 32);
    return copy;
  }();
  const bool named_profile = lower.ends_with(".icc") || lower.ends_with(".icm");
  if (entry.locked) {
    if (named_profile)
      parcel.notes.push_back(said("{} is locked with a password and is left aside.", name));
    return;
  }
  if (entry.unpacked < kHead) return;
  if (unzOpenCurrentFile(zip.get()) != UNZ_OK) {
    if (named_profile)
      parcel.notes.push_back(said("{} is packed in a way that cannot be read.", name));
    return;
  }
  Bytes bytes = read_entry(zip, kHead);
  if (bytes.size() == kHead && looks_like_profile(bytes)) {
    const char* fault = too_large(entry, taken);
    if (fault == nullptr) {
      const Bytes rest = read_entry(zip, entry.unpacked - kHead);
      bytes.insert(bytes.end(), rest.begin(), rest.end());
      taken += bytes.size();
    }
    // Closing tells whether the checksum holds.
    const bool whole = unzCloseCurrentFile(zip.get()) == UNZ_OK && bytes.size() == entry.unpacked;
    if (fault == nullptr && !whole) fault = phrase("{} is damaged and is left aside.");
    if (fault == nullptr)
      parcel.profiles.push_back({name, std::move(bytes)});
    else
      parcel.notes.push_back(said(fault, name));
    return;
  }
  unzCloseCurrentFile(zip.get());
}

}  // namespace

bool looks_like_parcel(ByteView head) {
  // Local file header's signature, APPNOTE 4.3.7; an empty zip begins otherwise and is of no use.
  return head.size() >= 4 && head[0] == 'P' && head[1] == 'K' && head[2] == 3 && head[3] == 4;
}

std::string plain_name(const std::string& path) {
  const size_t slash = path.find_last_of("/\\");
  const std::string last = slash == std::string::npos ? path : path.substr(slash + 1);
  std::string name;
  for (size_t i = 0; i < last.size();) {
    const size_t length = utf8_length(std::string_view(last).substr(i));
    if (name.size() + std::max<size_t>(1, length) > kLongestName) break;
    const auto letter = static_cast<uint8_t>(last[i]);
    if (length == 0 || letter < 0x20 || letter == 0x7F)
      name += '-';
    else
      name.append(last, i, length);
    i += std::max<size_t>(1, length);
  }
  const bool empty = name.find_first_not_of(" .-") == std::string::npos;
  return empty ? "profile" : name;
}

Result<Parcel> open_parcel(ByteSource& source, const Watch& watch) {
  if (source.size() > kLargestParcel)
    return Error{"{} is too large for a parcel of papers.", source.name()};
  Stream stream{source};
  const Zip zip = open_zip(stream);
  unz_global_info64 global{};
  if (!zip || unzGetGlobalInfo64(zip.get(), &global) != UNZ_OK)
    return Error{"{} is not a zip file, or is damaged.", source.name()};
  if (global.number_entry > kMostParcelEntries)
    return Error{"{} holds too many files for a parcel of papers.", source.name()};
  Parcel parcel;
  uint64_t taken = 0;
  int step = unzGoToFirstFile(zip.get());
  for (uint64_t i = 0; i < global.number_entry && step == UNZ_OK; ++i) {
    if (!keep_going(watch, double(i) / double(global.number_entry))) return stopped();
    const auto entry = entry_of(zip);
    if (!entry) break;
    if (parcel.profiles.size() == kMostParcelProfiles) {
      parcel.notes.push_back(
          said("Only the first {} profiles of {} are taken.", kMostParcelProfiles, source.name()));
      break;
    }
    take_entry(zip, entry.value(), taken, parcel);
    step = unzGoToNextFile(zip.get());
  }
  if (stream.failed) return Error{"{} could not be read to its end.", source.name()};
  if (parcel.profiles.empty() && parcel.notes.empty())
    return Error{"There is no paper's profile in {}.", source.name()};
  if (parcel.profiles.empty()) return Error{parcel.notes.front()};
  return parcel;
}

}  // namespace proofleaf
