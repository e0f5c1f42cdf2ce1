#include "print/fields.h"

#include <cmath>

namespace proofleaf::print {
namespace {

std::string kind_of(const Json& value) {
  if (value.is_string()) return said("a text");
  if (value.is_boolean()) return said("yes or no");
  if (value.is_null()) return said("nothing");
  if (value.is_number()) return said("a number");
  return value.is_array() ? said("a list") : said("a group of fields");
}

std::string list_of(std::span<const char* const> words) {
  std::string list;
  for (const char* word : words) list += (list.empty() ? "" : ", ") + std::string(word);
  return list;
}

std::string bounds(const Range& range) {
  const std::string unit = *range.unit == 0 ? "" : std::string(" ") + said(range.unit);
  return said("{} and {}", plain_number(range.low, 4), plain_number(range.high, 4) + unit);
}

}  // namespace

Fields::Fields(const Json& object, const char* what) : object_(object), what_(said(what)) {
  if (!object.is_object()) complain(said("The {} must be a group of fields.", what_));
}

void Fields::complain(std::string sentence) {
  if (wrong_.empty()) wrong_ = std::move(sentence);
}

const Json* Fields::take(const char* field) {
  known_.insert(field);
  return member(object_, field);
}

void Fields::number(const Range& range, double& into) {
  const Json* value = take(range.field);
  if (value == nullptr) return;
  if (!value->is_number()) {
    return complain(said("{} must be a number between {}, not {}.", range.field, bounds(range),
                         kind_of(*value)));
  }
  if (auto sound = within(range, value->get<double>()); !sound) {
    return complain(sound.error().message);
  }
  into = value->get<double>();
}

void Fields::number(const Range& range, std::optional<double>& into) {
  const Json* value = take(range.field);
  if (value == nullptr) return;
  if (value->is_null()) {
    into.reset();
    return;
  }
  double read = 0;
  number(range, read);
  into = read;
}

template <class Whole>
void Fields::read_whole(const Range& range, Whole& into) {
  auto value = double(into);
  number(range, value);
  if (value != std::floor(value)) {
    return complain(said("{} must be a whole number between {}, not {}.", range.field,
                         bounds(range), plain_number(value, 4)));
  }
  into = static_cast<Whole>(value);
}

void Fields::whole(const Range& range, uint32_t& into) { read_whole(range, into); }
void Fields::whole(const Range& range, uint64_t& into) { read_whole(range, into); }

void Fields::text(const char* field, size_t most, std::string& into) {
  const Json* value = take(field);
  if (value == nullptr) return;
  if (!value->is_string()) {
    return complain(said("{} must be a text, not {}.", field, kind_of(*value)));
  }
  auto read = value->get<std::string>();
  if (read.size() > most) {
    return complain(said("{} must be a text of at most {} bytes.", field, most));
  }
  into = std::move(read);
}

void Fields::flag(const char* field, bool& into) {
  const Json* value = take(field);
  if (value == nullptr) return;
  if (!value->is_boolean()) {
    return complain(said("{} must be true or false, not {}.", field, kind_of(*value)));
  }
  into = value->get<bool>();
}

void Fields::numbers(const Range& range, size_t most, std::vector<double>& into) {
  const Json* list = take(range.field);
  if (list == nullptr) return;
  if (!list->is_array() || list->size() > most) {
    return complain(said("{} must be a list of at most {} numbers between {}.", range.field, most,
                         bounds(range)));
  }
  std::vector<double> read;
  for (const Json& value : *list) {
    if (!value.is_number()) {
      return complain(said("{} must be a list of numbers between {}; one of them is {}.",
                           range.field, bounds(range), kind_of(value)));
    }
    if (auto sound = within(range, value.get<double>()); !sound) {
      return complain(sound.error().message);
    }
    read.push_back(value.get<double>());
  }
  into = std::move(read);
}

void Fields::find_word(const char* field, std::span<const char* const> words, size_t& place) {
  const Json* value = take(field);
  if (value == nullptr) return;
  for (size_t i = 0; i < words.size(); ++i) {
    if (value->is_string() && value->get<std::string>() == words[i]) {
      place = i;
      return;
    }
  }
  complain(said("{} must be one of {}.", field, list_of(words)));
}

const Json* Fields::inside(const char* field) { return take(field); }

const Json* Fields::list(const char* field, size_t most) {
  const Json* value = take(field);
  if (value == nullptr || (value->is_array() && value->size() <= most)) return value;
  complain(said("{} must be a list of at most {}.", field, most));
  return nullptr;
}

Status Fields::finish() const {
  if (!wrong_.empty()) return Error{wrong_};
  for (const auto& [name, value] : object_.items()) {
    if (known_.contains(name)) continue;
    constexpr size_t kLongest = 40;
    return Error{"The {} has no field called {}.", what_, name.substr(0, kLongest)};
  }
  return done();
}

}  // namespace proofleaf::print
