// The language that a module's texts are in: the panel's, a worker's, a client's.
#include "base/language.h"

#include <emscripten/emscripten.h>

extern "C" {

// catalogue: JSON of English text -> text; empty: English.
EMSCRIPTEN_KEEPALIVE void speak_language(const char* code, const char* catalogue) {
  proofleaf::speak(code, catalogue);
}

}  // extern "C"
