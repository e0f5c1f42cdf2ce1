// A paper: an ICC output profile (or a standard space, for print houses that ask for one), checked
// for use as a destination, with what a person wants to know of it.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "colour/lab.h"
#include "colour/profile.h"

namespace proofleaf {

// Rendering intents in the numbering of the profile header, ICC.1:2022 clause 7.2.15.
enum class Intent { perceptual = 0, relative = 1, saturation = 2, absolute = 3 };

struct Paper {
  Profile profile;
  std::string name;
  ColourModel model = ColourModel::rgb;
  bool working_space = false;  // a display or colour-space profile rather than a measured paper
  Lab white;                   // paper white, absolute L*a*b* D50
  Lab black;                   // darkest printable colour, absolute L*a*b* D50
  double ink_limit = 0;        // the most ink its tables ask for [per cent, CMYK only]; else 0
  std::array<bool, 3> own_table{};  // perceptual, relative, saturation each have their own B2A
  std::vector<std::string> notes;   // plain sentences about faults and oddities
};

inline constexpr uint64_t kLargestProfileFile = 64u << 20;  // [bytes]

// `name` is the file's, for messages. Error, with the reason: wrong class (scanner, camera, link,
// abstract, named), no way from colour to ink (B2A), a damaged table, a colour space that is
// neither RGB, CMYK nor grey.
Result<Paper> read_paper(Bytes bytes, const std::string& name);
Result<Paper> paper_from_profile(Profile profile, const std::string& name);

}  // namespace proofleaf
