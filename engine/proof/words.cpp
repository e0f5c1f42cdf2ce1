#include "proof/words.h"

#include <array>

#include "base/language.h"

namespace proofleaf {
namespace {

constexpr std::array<const char*, 4> kIntents{phrase("perceptual"), phrase("relative"),
                                              phrase("saturation"), phrase("absolute")};

}  // namespace

const char* word_for(Intent intent) { return kIntents[static_cast<size_t>(intent)]; }

const char* word_for(ColourModel model) {
  switch (model) {
    case ColourModel::grey:
      return phrase("grey");
    case ColourModel::cmyk:
      return "CMYK";
    case ColourModel::rgb:
      break;
  }
  return "RGB";
}

const char* word_for(Container container) {
  switch (container) {
    case Container::png:
      return "PNG";
    case Container::tiff:
      return "TIFF";
    case Container::jpeg:
      break;
  }
  return "JPEG";
}

const char* word_for(Screen screen) { return screen == Screen::display_p3 ? "p3" : "srgb"; }

std::optional<Intent> intent_of(const std::string& word) {
  for (size_t i = 0; i < kIntents.size(); ++i) {
    if (word == kIntents[i]) return static_cast<Intent>(i);
  }
  return std::nullopt;
}

std::optional<Screen> screen_of(const std::string& word) {
  if (word == "srgb") return Screen::srgb;
  if (word == "p3") return Screen::display_p3;
  return std::nullopt;
}

std::optional<Container> print_container_of(const std::string& word) {
  if (word == "jpeg") return Container::jpeg;
  if (word == "tiff") return Container::tiff;
  return std::nullopt;
}

}  // namespace proofleaf
