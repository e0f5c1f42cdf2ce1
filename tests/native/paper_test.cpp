#include "paper/paper.h"

#include <algorithm>
#include <cmath>

#include "base/files.h"
#include "colour/lcms.h"
#include "doctest.h"
#include "pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

const std::string kGhostscript = "/usr/share/color/icc/ghostscript/";  // package libgs-common
const std::string kColord = "/usr/share/color/icc/colord/";            // package colord-data
const std::string kDemoPapers = kDemo + "papers/";

// A profile with its class changed, ICC.1:2022 clause 7.2.5 (bytes 12..15).
Bytes with_class(Bytes bytes, const char* signature) {
  std::copy_n(signature, 4, bytes.begin() + 12);
  return bytes;
}

// Takes the tags named by the first three letters out of the table by renaming them.
Bytes without_tags(Bytes bytes, const std::string& start) {
  const size_t tags = bytes[131];
  for (size_t tag = 0; tag < tags; ++tag) {
    const auto entry = bytes.begin() + static_cast<ptrdiff_t>(132 + tag * 12);
    if (std::equal(start.begin(), start.end(), entry)) entry[0] = 'x';
  }
  return bytes;
}

}  // namespace

TEST_CASE("a CMYK profile made elsewhere is read as a paper") {
  const auto paper = read_paper(file_bytes(kGhostscript + "default_cmyk.icc"), "default_cmyk.icc");
  REQUIRE(paper);
  const Paper& p = paper.value();
  CHECK(p.model == ColourModel::cmyk);
  CHECK_FALSE(p.working_space);
  // The media white point tag is absolute XYZ, ICC.1:2022 9.2.36 and 6.3.2.2.
  const auto* white =
      static_cast<cmsCIEXYZ*>(cmsReadTag(p.profile.handle(), cmsSigMediaWhitePointTag));
  REQUIRE(white);
  const Lab expected = lab_from_xyz({white->X, white->Y, white->Z});
  CHECK(delta_e_2000(p.white, expected) < 0.5);
  CHECK(p.black.l > 5);
  CHECK(p.black.l < 25);
  CHECK(p.ink_limit > 250);
  CHECK(p.ink_limit < 400);
}

TEST_CASE("the demo papers are papers, each darker in black than the next rougher one") {
  double last = -1;
  for (const char* name :
       {"tarnsea-baryta", "owlbrook-pearl", "quillmoor-cotton-smooth", "plainside-office"}) {
    const auto paper = read_paper(file_bytes(kDemoPapers + name + ".icc"), name);
    REQUIRE_MESSAGE(paper.ok(), name);
    CHECK_FALSE(paper.value().working_space);
    CHECK(paper.value().own_table == std::array<bool, 3>{true, true, true});
    CHECK(paper.value().black.l > last);
    last = paper.value().black.l;
  }
}

TEST_CASE("a standard space may stand for a paper") {
  for (const auto& space : standard_spaces()) {
    const auto paper = paper_from_profile(standard_profile(space.id).take(), space.id);
    REQUIRE(paper);
    CHECK(paper.value().working_space);
    CHECK(paper.value().name == space.title);
    CHECK(paper.value().white.l == doctest::Approx(100).epsilon(0.001));
    CHECK(paper.value().black.l < 0.5);
  }
}

TEST_CASE("what is no paper is refused, and the reason said") {
  const Bytes cmyk = file_bytes(kGhostscript + "default_cmyk.icc");
  auto reason = [](const Bytes& bytes) {
    const auto paper = read_paper(bytes, "thing.icc");
    return paper.ok() ? std::string() : paper.error().message;
  };
  CHECK(reason(with_class(cmyk, "scnr")).find("scanner or camera") != std::string::npos);
  CHECK(reason(with_class(cmyk, "scnr")).find("thing.icc") == 0);
  CHECK(reason(with_class(cmyk, "link")).find("joins two devices") != std::string::npos);
  CHECK(reason(with_class(cmyk, "abst")).find("colour effect") != std::string::npos);
  CHECK(reason(with_class(cmyk, "nmcl")).find("named colours") != std::string::npos);
  CHECK(reason(without_tags(cmyk, "B2A")).find("B2A") != std::string::npos);
  // A list of named colours as colord-data ships it, and a Lab profile of libgs-common.
  CHECK_FALSE(reason(file_bytes(kColord + "x11-colors.icc")).empty());
  CHECK_FALSE(reason(file_bytes(kGhostscript + "lab.icc")).empty());
  CHECK(reason(Bytes(1000, 'x')).find("not an ICC profile") != std::string::npos);
}

TEST_CASE("damaged tables never crash and never pass as a paper with nonsense in it") {
  const Bytes good = file_bytes(kDemoPapers + "owlbrook-pearl.icc");
  uint32_t state = 2463534242u;
  auto random = [&] {
    state ^= state << 13, state ^= state >> 17, state ^= state << 5;
    return state;
  };
  int refused = 0;
  for (int round = 0; round < 200; ++round) {
    Bytes bad = good;
    // Mostly in the header, the tag table and the heads of tags, where lengths and counts are.
    for (int hit = 0; hit < 6; ++hit) bad[random() % 1400] = static_cast<uint8_t>(random());
    const auto paper = read_paper(std::move(bad), "bad.icc");
    if (!paper) {
      ++refused;
      CHECK_FALSE(paper.error().message.empty());
    } else {
      CHECK(std::isfinite(paper.value().white.l));
      CHECK(paper.value().white.l > paper.value().black.l);
    }
  }
  CHECK(refused > 50);
}
