// JSON read strictly: the first thing wrong is kept as a sentence that names the field.
#pragma once

#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "base/json.h"
#include "print/ranges.h"

namespace proofleaf::print {

class Fields {
 public:
  // what: the object's name in messages, "sharpening".
  Fields(const Json& object, const char* what);

  // Each leaves `into` as it is where the field is left out.
  void number(const Range& range, double& into);
  void number(const Range& range, std::optional<double>& into);  // null is empty
  void whole(const Range& range, uint32_t& into);
  void whole(const Range& range, uint64_t& into);
  void flag(const char* field, bool& into);
  void text(const char* field, size_t most, std::string& into);  // most: [bytes]
  void numbers(const Range& range, size_t most, std::vector<double>& into);
  // One of some words, by its place among them.
  template <class Enum>
  void word(const char* field, std::span<const char* const> words, Enum& into) {
    size_t place = static_cast<size_t>(into);
    find_word(field, words, place);
    into = static_cast<Enum>(place);
  }
  // An object inside; null where it is left out.
  const Json* inside(const char* field);
  // A list, the same; one that is none or longer than `most` is wrong.
  const Json* list(const char* field, size_t most);

  // Error: what was wrong first, or a field nobody asked for.
  Status finish() const;

 private:
  const Json* take(const char* field);
  void find_word(const char* field, std::span<const char* const> words, size_t& place);
  void complain(std::string sentence);
  template <class Whole>
  void read_whole(const Range& range, Whole& into);

  const Json& object_;
  std::string what_, wrong_;
  std::set<std::string> known_;
};

}  // namespace proofleaf::print
