// The report's sentences. Findings carry ids and values; the English words are in words_en.cpp.
#pragma once

#include <string>

#include "condition/condition.h"

namespace proofleaf {

struct Sentences {
  std::string title;  // two or three words
  std::string what;   // what was found, with its numbers
  std::string why;    // why it matters in a print; empty where nothing is wrong
  std::string todo;   // what to do; empty where nothing is to be done
};

// "act", "look", "good".
const char* word_for(Severity severity);

// In the language spoken. An id or variant without words of its own gets those of its severity.
Sentences sentences_for(const Finding& finding);

// For an id of ConditionReport::unsaid: title and what.
Sentences sentences_for_unsaid(const std::string& id);

}  // namespace proofleaf
