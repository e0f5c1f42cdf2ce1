#include "arguments.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace proofleaf::tool {

std::string Arguments::option(const std::string& name, const std::string& otherwise) const {
  const auto found = options.find(name);
  return found == options.end() ? otherwise : found->second;
}

Result<Arguments> parse(const std::vector<std::string>& words,
                        const std::vector<std::string>& with_value,
                        const std::vector<std::string>& flags) {
  auto holds = [](const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  Arguments arguments;
  for (size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (!word.starts_with("--")) {
      (arguments.command.empty() ? arguments.command : arguments.files.emplace_back()) = word;
      continue;
    }
    const std::string name = word.substr(2);
    std::string value;
    if (holds(with_value, name)) {
      if (i + 1 == words.size()) return Error{"--" + name + " needs a value after it."};
      value = words[++i];
    } else if (!holds(flags, name)) {
      return Error{"There is no option " + word + "; proofleaf --help lists them."};
    }
    if (!arguments.options.emplace(name, value).second) {
      return Error{"--" + name + " is given twice."};
    }
  }
  return arguments;
}

Result<double> number(const Arguments& arguments, const std::string& name, double otherwise,
                      double low, double high) {
  if (!arguments.flag(name)) return otherwise;
  const std::string text = arguments.option(name, "");
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (text.empty() || *end != '\0' || !std::isfinite(value) || value < low || value > high) {
    auto plain = [](double v) { return std::to_string(static_cast<long>(v)); };
    return Error{"--" + name + " takes a number from " + plain(low) + " to " + plain(high) +
                 ", not '" + text + "'."};
  }
  return value;
}

const char* const kHelp =
    R"(proofleaf: see what a paper will do to a picture, and make the file for the print house.

  proofleaf inspect FILE
      What a master (JPEG, PNG, TIFF) or a paper profile (ICC) is, and what to know before printing.

  proofleaf condition MASTER [--print-width MM] [--spot MM]
      What stands in the way of a good print: clipped tones, steps, noise, softness, spots, tilt and
      more, each with what to do about it.

  proofleaf rank MASTER PAPER...
      Which paper suits the picture best, and why: each judged for colour, tone, hue, skin and neutrals.

  proofleaf proof MASTER --paper PAPER [--places 8x6] [--out NEW.tif]
      The soft proof: what places of the picture become on the paper, and a TIFF of the proof as the
      screen shows it.

  proofleaf deliver MASTER --paper PAPER --out NEW.jpg
      The print file, in the paper's profile, under a new name; read back and checked against the
      proof. The master is never changed, and no file is ever overwritten.

PAPER is the print house's ICC profile, or one of: srgb, p3, oprgb, romm.

How colours go to the paper
  --intent WORD         perceptual  all colours move a little, so that none is lost
                        relative    colours the paper holds stay exact, the rest go to its edge (default)
                        saturation  vividness first
                        absolute    the master's white as well, for imitating another paper
  --no-compensation     without black point compensation: deep shadows may close up
  --assume SPACE        what to take a master for that carries no profile (default srgb);
                        SPACE may also be an ICC profile

What is done to the master first (proof and deliver)
  --recipe FILE         corrections, monochrome, size, sharpening and grain, as the page saves them

The condition report
  --print-width MM      how wide the print will be (default: at 300 pixels per inch)
  --spot MM             the smallest spot on the print that counts (default 0.5)

How the proof is shown
  --no-paper-white      the screen's white instead of the paper's
  --no-paper-black      the screen's black instead of the paper's
  --screen WORD         srgb (default) or p3

The print file
  --format WORD         jpeg or tiff (default: by the new file's ending)
  --bits N              8 (default), or 16 in a TIFF
  --quality N           JPEG, 1 to 100 (default 95)
  --soft-colour         JPEG with halved colour detail, for a smaller file
  --ppi N               pixels per inch written into the file (default 300)
  --keep-private        keep place, names and serial numbers (they are left out otherwise)
  --seed N              of the dithering; the same seed gives the same file

  --json                answer in JSON
  --help                this text

Exit status: 0 done, 1 a file cannot be used, 2 the command is not understood.
)";

}  // namespace proofleaf::tool
