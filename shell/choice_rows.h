// The papers in the order asked for, and what is said of each.
#pragma once

#include <string>
#include <vector>

#include "choice.h"
#include "state.h"

namespace proofleaf::shell {

struct Row {
  const PaperState* paper = nullptr;
  const Tried* tried = nullptr;  // nullptr: not yet
  bool chosen = false;           // the paper in use
  bool in_use = false;           // and printed its best way
};

// Sorted as app.choice.sort says, the best first; papers not tried follow.
std::vector<Row> choice_rows(const App& app);
std::string row_spoken(const App& app, const Row& row);
std::vector<std::string> card_lines(const Judged& judged);
std::string losses_words(const Losses& losses);
// How the score is made, with the engine's own weights.
std::vector<std::string> formula_lines();

}  // namespace proofleaf::shell
