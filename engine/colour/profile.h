// ICC profiles: opened once, shared by whoever needs them, and the standard working spaces.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/bytes.h"
#include "codec/master.h"

namespace proofleaf {

// Whether bytes, the first 40 or more of a file, carry the profile signature (ICC.1:2022 7.2.11).
bool looks_like_profile(ByteView head);

// An opened ICC profile. Copies share one handle; the bytes are kept for embedding.
// One thread at a time may use a profile and what was made from it.
class Profile {
 public:
  Profile() = default;
  // `name` is the file's, for messages. Error: not a profile, truncated, or with tables that point
  // outside of it (ICC.1:2022 clause 7.2 header and 7.3 tag table rules).
  static Result<Profile> open(Bytes bytes, const std::string& name);

  explicit operator bool() const { return handle_ != nullptr; }
  void* handle() const { return handle_.get(); }  // a LittleCMS cmsHPROFILE
  const Bytes& bytes() const { return *bytes_; }
  // The profile's own description, never empty.
  const std::string& title() const { return title_; }
  uint32_t colour_space() const;  // ICC signature: 'RGB ', 'CMYK', 'GRAY', ...
  uint32_t device_class() const;  // ICC signature: 'prtr', 'mntr', ...
  uint32_t channels() const;
  // Whether a tag is a table of 8 bits (lut8Type, ICC.1:2022 10.11).
  bool has_byte_tables() const;

 private:
  std::shared_ptr<void> handle_;
  std::shared_ptr<const Bytes> bytes_;
  std::string title_;
};

// A standard RGB working space, built from its published primaries.
struct StandardSpace {
  const char* id;      // "srgb", "p3", "oprgb", "romm"
  const char* title;   // as written into the profile
  const char* source;  // where its numbers are published
};
const std::vector<StandardSpace>& standard_spaces();
// Error: no space has that id.
Result<Profile> standard_profile(const std::string& id);

// What the colours of a master mean: the three-channel profile all later stages see, and how the
// file's rows become three channels.
struct MasterColour {
  Profile profile;       // always RGB
  std::string title;     // of the profile the file carries or is taken to have
  bool assumed = false;  // nothing in the file said so
  Profile source;        // CMYK files only: the profile of the file's own inks
  std::string note;      // a plain sentence where the file's own profile could not be used
};

// The file's own profile; else what its Exif says; else `assume` (a standard space's id, sRGB where
// empty). Grey files get an RGB profile with their own tone curve on all three channels, CMYK files
// are carried in ROMM RGB (ISO 22028-2), which holds every printable colour.
// `assume_profile` (may be empty) is a profile to take in place of a missing one.
// An embedded profile that cannot be used counts as none, and the note says why.
// Error: CMYK with no usable profile.
Result<MasterColour> master_colour(const MasterInfo& info, const std::string& name,
                                   const std::string& assume, const Profile& assume_profile);

// The file's rows as three channels in master_colour()'s profile. RGB passes through untouched.
Result<std::unique_ptr<RowSource>> as_rgb(std::unique_ptr<RowSource> rows, const MasterInfo& info,
                                          const MasterColour& colour);

}  // namespace proofleaf
