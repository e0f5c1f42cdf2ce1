// A parcel of papers: a zip file of ICC profiles, as print houses hand them out (PKWARE
// APPNOTE 6.3).
#pragma once

#include <string>
#include <vector>

#include "base/bytes.h"
#include "base/watch.h"

namespace proofleaf {

// What a parcel may hold; anything beyond is refused or left aside, so that a hostile file costs
// neither memory nor time.
inline constexpr uint64_t kLargestParcel = 512u << 20;        // [bytes] packed
inline constexpr size_t kMostParcelEntries = 2000;            // files and folders
inline constexpr size_t kMostParcelProfiles = 100;            // taken out
inline constexpr uint64_t kLargestParcelProfile = 32u << 20;  // [bytes] unpacked, each
inline constexpr uint64_t kLargestUnpacked = 256u << 20;      // [bytes] unpacked, all together
// Unpacked over packed size. Profiles pack 2 to 20 times; Deflate's end is about 1030 (zlib's
// technical notes), which only emptiness reaches.
inline constexpr uint64_t kLargestRatio = 200;

struct ParcelProfile {
  std::string name;  // of its file, without folders: UTF-8, no control characters, never empty
  Bytes bytes;       // carries the profile signature; not looked at further
};

struct Parcel {
  std::vector<ParcelProfile> profiles;  // in the parcel's order
  std::vector<std::string> notes;       // plain sentences on what was left aside and why
};

// Whether bytes, the first of a file, begin a zip file.
bool looks_like_parcel(ByteView head);

// Takes the profiles out of a parcel; they are known by their signature, not by their names, and
// all else is passed over. A profile that is damaged, locked or too large is left aside with a
// note. Error: not a zip file, more entries or a larger file than allowed, no profile in it, or
// stopped.
Result<Parcel> open_parcel(ByteSource& source, const Watch& watch);

// The last part of a path as a name to show: control characters and what is no UTF-8 become "-",
// at most 120 bytes, "profile" where nothing is left.
std::string plain_name(const std::string& path);

}  // namespace proofleaf
