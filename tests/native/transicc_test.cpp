// The chain against LittleCMS' own command-line converter (Debian package liblcms2-utils), another
// build and another release of the library, run as a program of its own.
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "pictures.h"
#include "proof/chain.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

std::vector<double> transicc(const std::string& options, const std::vector<int>& rgb) {
  const std::string in =
      (std::filesystem::temp_directory_path() / ("proofleaf-rgb-" + std::to_string(getpid())))
          .string();
  {
    std::ofstream file(in);
    for (size_t i = 0; i < rgb.size(); i += 3)
      file << rgb[i] << ' ' << rgb[i + 1] << ' ' << rgb[i + 2] << '\n';
  }
  std::FILE* pipe = popen(("transicc -n -c0 " + options + " <" + in).c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe))
    text.push_back(static_cast<char>(c));
  REQUIRE_MESSAGE(pclose(pipe) == 0, "package liblcms2-utils is missing");
  std::filesystem::remove(in);
  std::istringstream numbers(text);
  std::vector<double> values;
  for (double v; numbers >> v;) values.push_back(v);
  return values;
}

}  // namespace

TEST_CASE("ink values agree with transicc for every intent") {
  const std::string kSrgb = "/usr/share/color/icc/ghostscript/srgb.icc";
  const Profile master = Profile::open(file_bytes(kSrgb), "srgb.icc").take();
  const Paper paper = paper_at(kCmykProfile);
  std::vector<int> rgb;
  for (int i = 0; i < 125; ++i) rgb.insert(rgb.end(), {i / 25 * 63, i / 5 % 5 * 63, i % 5 * 63});
  std::vector<float> in(rgb.begin(), rgb.end());
  for (float& v : in) v /= 255;
  for (int intent = 0; intent < 4; ++intent) {
    for (const bool compensate : {false, true}) {
      if (compensate && intent == 3) continue;
      const auto theirs = transicc("-i" + kSrgb + " -o" + kCmykProfile + " -t" +
                                       std::to_string(intent) + (compensate ? " -b" : ""),
                                   rgb);
      REQUIRE(theirs.size() == 125 * 4);
      std::vector<float> ours(125 * 4);
      auto chain = ProofChain::make(master, paper, {static_cast<Intent>(intent), compensate}, {});
      REQUIRE(chain);
      chain.value()->to_device(in, ours);
      double worst = 0;
      for (size_t i = 0; i < ours.size(); ++i)
        worst = std::max(worst, std::abs(100 * ours[i] - theirs[i]));
      INFO("intent " << intent << " bpc " << compensate << " worst " << worst
                     << " per cent of ink");
      CHECK(worst < 0.1);
    }
  }
}
