#include "paper/paper.h"

#include <algorithm>
#include <cmath>

#include "paper/ways.h"

namespace proofleaf {
namespace {

// Why a profile of this class is no paper; nothing for those that may be one.
const char* wrong_class(uint32_t device_class) {
  switch (device_class) {
    case cmsSigInputClass:
      return phrase("{} cannot be used as a paper: it describes a scanner or camera, not a paper.");
    case cmsSigLinkClass:
      return phrase(
          "{} cannot be used as a paper: it joins two devices directly and describes no single "
          "paper.");
    case cmsSigAbstractClass:
      return phrase("{} cannot be used as a paper: it is a colour effect, not a paper.");
    case cmsSigNamedColorClass:
      return phrase("{} cannot be used as a paper: it is a list of named colours, not a paper.");
    case cmsSigOutputClass:
    case cmsSigDisplayClass:
    case cmsSigColorSpaceClass:
      return nullptr;
    default:
      return phrase("{} cannot be used as a paper: it is of a kind that cannot be printed to.");
  }
}

bool known_model(uint32_t space, ColourModel& model) {
  if (space == cmsSigRgbData) {
    model = ColourModel::rgb;
  } else if (space == cmsSigCmykData) {
    model = ColourModel::cmyk;
  } else if (space == cmsSigGrayData) {
    model = ColourModel::grey;
  } else {
    return false;
  }
  return true;
}

struct Ways {
  Transform to_paper;   // media-relative Lab -> device, relative colorimetric
  Transform to_colour;  // device -> absolute Lab
};

Ways open_ways(const Profile& profile) {
  return {from_lab(profile), to_lab(profile, INTENT_ABSOLUTE_COLORIMETRIC)};
}

Lab absolute_lab(const Ways& ways, const std::array<float, 4>& device) {
  std::array<float, 3> lab{};
  cmsDoTransform(ways.to_colour.get(), device.data(), lab.data(), 1);
  return {lab[0], lab[1], lab[2]};
}

std::array<float, 4> device_for(const Ways& ways, const Lab& lab) {
  const std::array<float, 3> in{static_cast<float>(lab.l), static_cast<float>(lab.a),
                                static_cast<float>(lab.b)};
  std::array<float, 4> device{};
  cmsDoTransform(ways.to_paper.get(), in.data(), device.data(), 1);
  return device;
}

// The most ink [per cent] that any entry of the B2A tables asks for, looked for on a grid of
// L*a*b*.
double most_ink(const Ways& ways) {
  double most = 0;
  for (int l = 0; l <= 100; l += 5) {
    for (int a = -128; a <= 128; a += 16) {
      for (int b = -128; b <= 128; b += 16) {
        const auto inks = device_for(ways, {double(l), double(a), double(b)});
        most = std::max(most, double(inks[0]) + inks[1] + inks[2] + inks[3]);
      }
    }
  }
  return most;
}

void note_oddities(Paper& paper) {
  const Profile& profile = paper.profile;
  if (paper.working_space) {
    paper.notes.push_back(
        said("This is a colour space rather than a measured paper: it shows no paper white and no "
             "ink limit."));
  }
  const int tables =
      static_cast<int>(std::count(paper.own_table.begin(), paper.own_table.end(), true));
  if (!paper.working_space && tables == 1) {
    paper.notes.push_back(
        said("It holds one table only: perceptual, relative colorimetric and saturation give the "
             "same print."));
  }
  if (!paper.working_space && !cmsIsTag(profile.handle(), cmsSigMediaWhitePointTag)) {
    paper.notes.push_back(
        said("It does not say what its paper white is; the white of D50 is taken."));
  }
  if (paper.black.l > 50) {
    paper.notes.push_back(
        said("Its darkest black is lighter than middle grey; the profile looks damaged."));
  }
  if (paper.white.l < 60) {
    paper.notes.push_back(said("Its paper white is darker than any usual paper."));
  }
}

}  // namespace

Transform from_lab(const Profile& profile) {
  cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
  Transform transform(cmsCreateTransform(lab, TYPE_Lab_FLT, profile.handle(),
                                         float_format(profile.colour_space()),
                                         INTENT_RELATIVE_COLORIMETRIC, kExact));
  cmsCloseProfile(lab);
  return transform;
}

Result<Paper> paper_from_profile(Profile profile, const std::string& name) {
  listen_to_lcms();
  if (const char* why = wrong_class(profile.device_class()); why != nullptr) {
    return Error{why, name};
  }
  Paper paper;
  if (!known_model(profile.colour_space(), paper.model)) {
    return Error{"{} cannot be used as a paper: its colours are neither RGB, CMYK nor grey.", name};
  }
  cmsHPROFILE handle = profile.handle();
  const bool grey_curve = paper.model == ColourModel::grey && cmsIsTag(handle, cmsSigGrayTRCTag);
  constexpr std::array<cmsTagSignature, 3> kTables{cmsSigBToA0Tag, cmsSigBToA1Tag, cmsSigBToA2Tag};
  for (size_t i = 0; i < 3; ++i) paper.own_table[i] = cmsIsTag(handle, kTables[i]);
  const bool any_table =
      std::find(paper.own_table.begin(), paper.own_table.end(), true) != paper.own_table.end();
  if (!any_table && !cmsIsMatrixShaper(handle) && !grey_curve) {
    return Error{"{} cannot be used as a paper: it has no way from colour to ink (no B2A table).",
                 name};
  }
  const Ways ways = open_ways(profile);
  if (!ways.to_paper || !ways.to_colour) {
    return Error{"{} cannot be used as a paper: one of its tables is damaged ({}).", name,
                 take_lcms_words()};
  }
  paper.name = profile.title();
  paper.working_space = profile.device_class() != cmsSigOutputClass;
  const bool inks = paper.model == ColourModel::cmyk;
  paper.white =
      absolute_lab(ways, inks ? std::array<float, 4>{} : std::array<float, 4>{1, 1, 1, 0});
  paper.black = absolute_lab(ways, device_for(ways, {0, 0, 0}));
  if (!inks) {
    const Lab all_off = absolute_lab(ways, {});
    if (all_off.l < paper.black.l) paper.black = all_off;
  }
  if (!std::isfinite(paper.white.l + paper.black.l) || paper.white.l <= paper.black.l) {
    return Error{
        "{} cannot be used as a paper: its white is no lighter than its black, so a table must be "
        "damaged.",
        name};
  }
  if (inks) paper.ink_limit = most_ink(ways);
  paper.profile = std::move(profile);
  note_oddities(paper);
  return paper;
}

Result<Paper> read_paper(Bytes bytes, const std::string& name) {
  if (bytes.size() > kLargestProfileFile) return Error{"{} is too large for an ICC profile.", name};
  auto profile = Profile::open(std::move(bytes), name);
  if (!profile) return profile.error();
  return paper_from_profile(profile.take(), name);
}

}  // namespace proofleaf
