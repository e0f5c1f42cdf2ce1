#include "sheet/names.h"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string_view>

#include "base/digits.h"
#include "base/utf8.h"

namespace proofleaf {
namespace {

uint32_t code_of(std::string_view sequence) {
  if (sequence.size() == 1) return static_cast<uint8_t>(sequence[0]);
  uint32_t code = static_cast<uint8_t>(sequence[0]) & (0xFFu >> (sequence.size() + 1));
  for (const char c : sequence.substr(1)) code = code << 6 | (static_cast<uint8_t>(c) & 0x3F);
  return code;
}

// Letters and digits; beyond ASCII the blocks that hold scripts, without punctuation, signs that
// turn the direction of writing, and private use.
bool stays(uint32_t code) {
  if (code < 0x80) {
    const char c = static_cast<char>(code);
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-' || c == '.' || c == '+';
  }
  return (code >= 0xC0 && code < 0x2000 && code != 0x61C) || (code >= 0x3040 && code < 0xD800);
}

std::string small_letters(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

bool is_device(const std::string& name) {
  const std::string stem = small_letters(name.substr(0, name.find('.')));
  for (const char* device : {"con", "prn", "aux", "nul"}) {
    if (stem == device) return true;
  }
  return stem.size() == 4 && (stem.starts_with("com") || stem.starts_with("lpt")) &&
         stem[3] >= '0' && stem[3] <= '9';
}

void trim(std::string& name) {
  const auto loose = [](char c) { return c == '-' || c == '.'; };
  while (!name.empty() && loose(name.back())) name.pop_back();
  name.erase(name.begin(), std::find_if_not(name.begin(), name.end(), loose));
}

std::string made_safe(const std::string& text) {
  std::string name;
  for (size_t i = 0; i < text.size();) {
    const size_t length = utf8_length(std::string_view(text).substr(i));
    const std::string_view sequence = std::string_view(text).substr(i, std::max<size_t>(length, 1));
    i += sequence.size();
    const bool kept = length > 0 && stays(code_of(sequence)) && sequence != "-";
    if (!kept && (name.empty() || name.back() == '-')) continue;
    if (name.size() + sequence.size() > kLongestFileName) break;
    name += kept ? sequence : std::string_view("-");
  }
  trim(name);
  return is_device(name) ? "_" + name : name;
}

std::string number(double value) { return value > 0 ? plain_digits(value, 1) : ""; }

std::optional<std::string> value_of(const std::string& placeholder, const NameValues& values) {
  const std::array<std::pair<const char*, std::string>, 8> known{{
      {"master", without_ending(values.master)},
      {"paper", values.paper},
      {"width", number(values.width_cm)},
      {"height", number(values.height_cm)},
      {"ppi", number(values.ppi)},
      {"edition", values.edition},
      {"date", values.date},
      {"variant", values.variant},
  }};
  for (const auto& [name, value] : known) {
    if (placeholder == name) return value;
  }
  return std::nullopt;
}

Error not_placed(const std::string& brace) {
  return Error{"The pattern for names has a {} without its other half.", brace};
}

// The first of "name.end", "name-2.end", .. that is free, which then is taken.
std::string free_name(const std::string& name, const char* ending, std::set<std::string>& taken) {
  std::string free = name + ending;
  for (size_t number = 2; !taken.insert(small_letters(free)).second; ++number) {
    free = name + "-" + std::to_string(number) + ending;
  }
  return free;
}

}  // namespace

std::string without_ending(const std::string& file) {
  const size_t point = file.find_last_of('.');
  return point == std::string::npos || point == 0 ? file : file.substr(0, point);
}

Result<std::string> name_from_pattern(const std::string& pattern, const NameValues& values) {
  if (pattern.size() > kLongestPattern) return Error{"The pattern for names is too long."};
  std::string filled;
  for (size_t i = 0; i < pattern.size(); ++i) {
    if (pattern[i] == '}') return not_placed("}");
    if (pattern[i] != '{') {
      filled += pattern[i];
      continue;
    }
    const size_t end = pattern.find('}', i);
    if (end == std::string::npos) return not_placed("{");
    const std::string placeholder = pattern.substr(i + 1, end - i - 1);
    const auto value = value_of(placeholder, values);
    if (!value) {
      return Error{
          "A name cannot hold {}; there are master, paper, width, height, ppi, edition, date and "
          "variant.",
          "{" + placeholder + "}"};
    }
    filled += *value;
    i = end;
  }
  std::string name = made_safe(filled);
  if (name.empty()) return Error{"The pattern gives a name of nothing."};
  return name;
}

Result<std::vector<BatchPrint>> plan_batch(const std::string& pattern, const Job& job,
                                           std::span<const BatchItem> items,
                                           std::span<const std::string> taken) {
  if (items.empty() || items.size() > kMostBatch) {
    return Error{"A batch holds 1 to {} prints, not {}.", kMostBatch, items.size()};
  }
  std::set<std::string> names;
  for (const std::string& name : taken) names.insert(small_letters(name));
  const char* ending = job.print.container == Container::tiff ? ".tif" : ".jpg";
  std::vector<BatchPrint> prints;
  for (const BatchItem& item : items) {
    auto plan = plan_of(item.recipe, job.master.width, job.master.height, job.print.ppi);
    if (!plan) {
      return Error{"Print {}, on {}: {}", prints.size() + 1, item.paper, plan.error().message};
    }
    NameValues values;
    values.master = job.master.name;
    values.date = job.date;
    if (const auto& edition = job.edition) {
      values.edition = said("{} of {}", edition->number, edition->of);
    }
    values.paper = item.paper;
    values.variant = item.variant;
    values.width_cm = plan.value().sheet_width_mm / 10;
    values.height_cm = plan.value().sheet_height_mm / 10;
    values.ppi = plan.value().ppi;
    auto name = name_from_pattern(pattern, values);
    if (!name) return name.error();
    prints.push_back({free_name(name.value(), ending, names), plan.take()});
  }
  return prints;
}

}  // namespace proofleaf
