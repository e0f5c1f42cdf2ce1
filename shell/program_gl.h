// Small helps for programs of OpenGL ES 3.
#pragma once

#include <string>

namespace proofleaf::shell {

// A linked program, used or not; whether it works shows in what it draws. Never asked at once: each
// question makes the page wait for the graphics process.
unsigned make_program(const char* vertex, const char* fragment);
// Whether it could be linked, and if not, what the driver said. Waits.
bool program_works(unsigned program, std::string* why);

}  // namespace proofleaf::shell
