// demo_maker: draws the project's invented papers and pictures.
#include <charconv>
#include <cmath>
#include <cstdio>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "paper_profile.h"
#include "picture_file.h"
#include "scene.h"

using namespace proofleaf;
using namespace proofleaf::demo;

namespace {

constexpr int kBadUse = 2;
constexpr uint32_t kLongest = 32768;  // pixels a side

int usage() {
  std::fputs(
      "Use: demo_maker papers FOLDER\n"
      "     demo_maker scene saltings|stairwell --size WIDTHxHEIGHT --out FILE\n"
      "                [--format png|tiff|jpeg] [--bits 8|16] [--keep-bits 8..16]\n"
      "Files that exist are never overwritten. --keep-bits rounds samples so that grain takes "
      "less\n"
      "room in a compressed file.\n",
      stderr);
  return kBadUse;
}

int fail(const Error& error) {
  std::fprintf(stderr, "%s\n", error.message.c_str());
  return 1;
}

std::optional<uint32_t> number(std::string_view text, uint32_t low, uint32_t high) {
  uint32_t v = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), v);
  if (fault != std::errc{} || end != text.data() + text.size() || v < low || v > high) return {};
  return v;
}

// A perfect diffuser under the typed-in tables must be the ICC's D50 within 0.2 %.
bool tables_give_d50() {
  Spectrum diffuser;
  diffuser.fill(1.0);
  const Xyz white = integrate(diffuser);
  std::printf("Perfect diffuser under D50: X %.4f Y %.4f Z %.4f\n", white.x, white.y, white.z);
  return std::fabs(white.x / kD50.x - 1.0) < 0.002 && std::fabs(white.y / kD50.y - 1.0) < 0.002 &&
         std::fabs(white.z / kD50.z - 1.0) < 0.002;
}

int papers(const std::string& folder) {
  if (!tables_give_d50())
    return fail(Error(std::string("The observer's tables do not give the white of D50.")));
  for (const Recipe& recipe : demo_papers()) {
    Result<Bytes> profile = build_profile(recipe);
    if (!profile) return fail(profile.error());
    if (Status s = write_bytes(profile.value(), folder + "/" + recipe.file_name); !s)
      return fail(s.error());
    Result<std::string> told = measure_profile(recipe, profile.value());
    if (!told) return fail(told.error());
    std::fputs(told.value().c_str(), stdout);
  }
  return 0;
}

int scene(const std::string& name, std::map<std::string, std::string> options) {
  const std::map<std::string, Scene> scenes{{"saltings", Scene::saltings},
                                            {"stairwell", Scene::stairwell}};
  const std::map<std::string, FileKind> kinds{
      {"png", FileKind::png}, {"tiff", FileKind::tiff}, {"jpeg", FileKind::jpeg}};
  const std::string size = options["--size"], out = options["--out"];
  const std::string format = options.contains("--format") ? options["--format"] : "png";
  const size_t cross = size.find('x');
  if (!scenes.contains(name) || !kinds.contains(format) || out.empty() ||
      cross == std::string::npos)
    return usage();
  const auto width = number(std::string_view(size).substr(0, cross), 16, kLongest);
  const auto height = number(std::string_view(size).substr(cross + 1), 16, kLongest);
  const bool jpeg = format == "jpeg";
  const auto bits = number(options.contains("--bits") ? options["--bits"]
                           : jpeg                     ? "8"
                                                      : "16",
                           8, 16);
  const auto keep = number(options.contains("--keep-bits") ? options["--keep-bits"] : "16", 8, 16);
  if (!width || !height || !bits || !keep || (*bits != 8 && *bits != 16) || (jpeg && *bits != 8))
    return usage();

  const Scene which = scenes.at(name);
  Result<Bytes> icc = which == Scene::saltings ? romm_profile() : grey_profile();
  if (!icc) return fail(icc.error());
  const auto rows = render(which, *width, *height, static_cast<int>(*keep));
  const Status s = write_picture(*rows, {kinds.at(format), *bits, icc.take()}, out);
  return s ? 0 : fail(s.error());
}

}  // namespace

int main(int count, char** words) {
  const std::string command = count > 1 ? words[1] : "";
  if (command == "papers" && count == 3) return papers(words[2]);
  if (command != "scene" || count < 3 || count % 2 == 0) return usage();
  std::map<std::string, std::string> options;
  for (int i = 3; i + 1 < count; i += 2) {
    const std::string key = words[i];
    if (key != "--size" && key != "--out" && key != "--format" && key != "--bits" &&
        key != "--keep-bits")
      return usage();
    options[key] = words[i + 1];
  }
  return scene(words[2], options);
}
