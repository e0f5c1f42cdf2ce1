// Contrast of words and of controls' edges against what they lie on, in the panel and on the
// client's page. WCAG 2.2: relative luminance and contrast ratio by their definitions, 1.4.3 (4.5:1
// for words), 1.4.11 (3:1 for edges of controls).
#include <cmath>
#include <fstream>
#include <map>
#include <regex>
#include <sstream>

#include "doctest.h"

namespace {

std::string source(const char* path) {
  std::ifstream file(std::string(REPOSITORY "/") + path);
  std::stringstream all;
  all << file.rdbuf();
  return all.str();
}

struct Colour {
  double r = 0, g = 0, b = 0;  // 0..255
};

double luminance(const Colour& colour) {
  const auto linear = [](double code) {
    const double v = code / 255;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.r) + 0.7152 * linear(colour.g) + 0.0722 * linear(colour.b);
}

double contrast(const Colour& one, const Colour& two) {
  const double p = luminance(one), q = luminance(two);
  return (std::max(p, q) + 0.05) / (std::min(p, q) + 0.05);
}

double byte(const std::string& digits) { return std::stoi(digits, nullptr, 16); }

std::map<std::string, Colour> colours(const std::string& text, const std::regex& pattern) {
  std::map<std::string, Colour> found;
  for (std::sregex_iterator it(text.begin(), text.end(), pattern), end; it != end; ++it)
    found[(*it)[1]] = {byte((*it)[2]), byte((*it)[3]), byte((*it)[4])};
  return found;
}

}  // namespace

TEST_CASE("contrast: the definition's own ends") {
  CHECK(contrast({0, 0, 0}, {255, 255, 255}) == doctest::Approx(21));
  CHECK(contrast({119, 119, 119}, {255, 255, 255}) == doctest::Approx(4.478).epsilon(0.001));
}

TEST_CASE("contrast: words and edges of the panel can be read") {
  const auto panel =
      colours(source("shell/look.h"), std::regex(R"((k\w+) = IM_COL32\(0x(..), 0x(..), 0x(..))"));
  REQUIRE(panel.size() >= 10);
  for (const char* under : {"kSheet", "kField", "kPressed"}) {
    CAPTURE(under);
    CHECK(contrast(panel.at("kInk"), panel.at(under)) >= 4.5);
    CHECK(contrast(panel.at("kFaintInk"), panel.at(under)) >= 4.5);
  }
  CHECK(contrast(panel.at("kAccent"), panel.at("kPale")) >= 4.5);  // words of the next step
  CHECK(contrast(panel.at("kAccent"), panel.at("kSheet")) >= 3);   // where the keyboard is
  CHECK(contrast(panel.at("kEdge"), panel.at("kSheet")) >= 3);
  CHECK(contrast(panel.at("kEdge"), panel.at("kField")) >= 3);
}

TEST_CASE("contrast: words and edges of the client's page can be read") {
  const auto page = colours(std::regex_replace(source("web/client/client.css"),
                                               std::regex(R"(#(\w)(\w)(\w);)"), "#$1$1$2$2$3$3;"),
                            std::regex(R"(--(\w+): #(..)(..)(..);)"));
  REQUIRE(page.size() >= 7);
  for (const char* under : {"page", "field"}) {
    CAPTURE(under);
    CHECK(contrast(page.at("ink"), page.at(under)) >= 4.5);
    CHECK(contrast(page.at("faint"), page.at(under)) >= 4.5);
    CHECK(contrast(page.at("edge"), page.at(under)) >= 3);
    CHECK(contrast(page.at("accent"), page.at(under)) >= 4.5);
  }
}
