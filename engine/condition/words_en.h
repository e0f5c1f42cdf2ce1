// The English table behind words.h.
#pragma once

#include <span>
#include <string>

namespace proofleaf {

struct WordsEntry {
  const char* key;  // id/severity, id/severity/variant or id/unsaid
  const char* what;
  const char* why;
  const char* todo;
};

std::span<const WordsEntry> words_en();
std::string title_en(const std::string& id);

}  // namespace proofleaf
