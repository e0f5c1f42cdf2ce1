// The working size: that of the picture proofs are made of, and a smaller one where the memory is
// not enough.
#pragma once

#include <string>

#include "host.h"
#include "raster/working_size.h"

namespace proofleaf::shell {

struct App;
struct Task;

// A master that can be opened again, smaller.
struct SmallerOpening {
  FileId file = 0;
  std::string name;
  uint32_t pixels = 0;             // the working size
  uint32_t columns = 0, rows = 0;  // of the picture then; 0: not known before it is open
  std::string sentence;            // of the notice that offers it
};

// working.cpp
// Whether the work holds the picture at its working size, so that a smaller one needs less memory.
bool working_size_matters(const Task& task);
// The work's memory was not enough: gives notice, and offers the next smaller size where there is
// one. Returns what was said.
std::string offer_smaller(App& app, const Task& task);
void forget_smaller(App& app);
void open_smaller(App& app);
std::string smaller_label(const SmallerOpening& smaller);
void draw_smaller(App& app);       // the offer, on the master's leaf
void draw_working_size(App& app);  // where it is less than usual, and the way back

}  // namespace proofleaf::shell
