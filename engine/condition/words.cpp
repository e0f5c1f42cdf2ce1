#include "condition/words.h"

#include <cmath>
#include <cstdlib>
#include <optional>
#include <string_view>

#include "condition/words_en.h"

namespace proofleaf {
namespace {

std::optional<double> number_for(const Finding& finding, std::string_view name) {
  if (name == "value") return finding.value;
  for (const auto& [key, number] : finding.numbers) {
    if (key == name) return number;
  }
  return {};
}

// A small amount that would round to nothing is told as such.
std::string told(double number, int decimals) {
  const double least = std::pow(10.0, -decimals);
  if (number > 0 && number < least / 2) return said("less than {}", spoken_number(least, decimals));
  return spoken_number(number, decimals);
}

// Puts numbers in place of {name} and {name:decimals}.
std::string filled(const char* english, const Finding& finding) {
  std::string_view pattern = said(english);
  std::string text;
  while (!pattern.empty()) {
    const size_t open = pattern.find('{');
    const size_t close = open == pattern.npos ? open : pattern.find('}', open);
    text += pattern.substr(0, close == pattern.npos ? close : open);
    if (close == pattern.npos) break;
    std::string_view name = pattern.substr(open + 1, close - open - 1);
    int decimals = 0;
    if (const size_t colon = name.find(':'); colon != name.npos) {
      decimals = name[colon + 1] - '0';
      name = name.substr(0, colon);
    }
    text += told(number_for(finding, name).value_or(0), decimals);
    pattern.remove_prefix(close + 1);
  }
  return text;
}

const WordsEntry* find(const std::string& key) {
  for (const WordsEntry& entry : words_en()) {
    if (key == entry.key) return &entry;
  }
  return nullptr;
}

}  // namespace

const char* word_for(Severity severity) {
  return severity == Severity::act ? "act" : severity == Severity::look ? "look" : "good";
}

Sentences sentences_for(const Finding& finding) {
  const std::string key = finding.id + "/" + word_for(finding.severity);
  const WordsEntry* entry = finding.variant.empty() ? nullptr : find(key + "/" + finding.variant);
  if (entry == nullptr) entry = find(key);
  Sentences sentences;
  sentences.title = said(title_en(finding.id).c_str());
  if (entry == nullptr) return sentences;
  sentences.what = filled(entry->what, finding);
  sentences.why = filled(entry->why, finding);
  sentences.todo = filled(entry->todo, finding);
  return sentences;
}

Sentences sentences_for_unsaid(const std::string& id) {
  Sentences sentences;
  sentences.title = said(title_en(id).c_str());
  if (const WordsEntry* entry = find(id + "/unsaid")) sentences.what = said(entry->what);
  return sentences;
}

}  // namespace proofleaf
