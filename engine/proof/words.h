// The words JSON and the command line use for the engine's choices.
#pragma once

#include <optional>
#include <string>

#include "codec/master.h"
#include "paper/paper.h"
#include "proof/chain.h"

namespace proofleaf {

const char* word_for(Intent intent);        // perceptual, relative, saturation, absolute
const char* word_for(ColourModel model);    // RGB, CMYK, grey
const char* word_for(Container container);  // JPEG, PNG, TIFF
const char* word_for(Screen screen);        // srgb, p3
std::optional<Intent> intent_of(const std::string& word);
std::optional<Screen> screen_of(const std::string& word);
std::optional<Container> print_container_of(const std::string& word);  // jpeg, tiff

}  // namespace proofleaf
