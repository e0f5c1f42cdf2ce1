// Plain tables: one line of headings, one line a patch, parted by semicolons, tabs or commas.
#include <algorithm>
#include <cmath>

#include "print/cgats_parts.h"

namespace proofleaf::print::cgats {
namespace {

// The sign that parts the headings.
char parting_sign(std::string_view line) {
  for (const char sign : {'\t', ';', ','}) {
    if (line.find(sign) != std::string_view::npos) return sign;
  }
  return ',';
}

std::vector<std::string> split(std::string_view line, char sign) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '"') {
      if (quoted && i + 1 < line.size() && line[i + 1] == '"') {
        cells.back() += line[++i];
      } else {
        quoted = !quoted;
      }
    } else if (c == sign && !quoted) {
      cells.emplace_back();
      if (cells.size() > kMostFields + 1) break;
    } else {
      cells.back() += c;
    }
  }
  for (std::string& cell : cells) cell = std::string(trimmed(cell));
  return cells;
}

std::string plain(const std::string& heading) {
  std::string name = capitals(heading);
  std::erase_if(name, [](char c) { return c == '*' || c == ' '; });
  return name;
}

// Headings of one letter are told by their neighbours: B after L and A is b*, after R and G blue.
void name_groups(std::vector<std::string>& fields) {
  struct Group {
    const char* letters;
    const char* prefix;
  };
  constexpr Group kGroups[] = {
      {"LAB", "LAB_"}, {"XYZ", "XYZ_"}, {"RGB", "RGB_"}, {"CMYK", "CMYK_"}};
  for (size_t i = 0; i < fields.size(); ++i) {
    for (const Group& group : kGroups) {
      const std::string letters = group.letters;
      if (i + letters.size() > fields.size()) continue;
      bool found = true;
      for (size_t k = 0; k < letters.size(); ++k) {
        found = found && fields[i + k] == std::string(1, letters[k]);
      }
      for (size_t k = 0; found && k < letters.size(); ++k) {
        fields[i + k] = group.prefix + std::string(1, letters[k]);
      }
    }
  }
  for (std::string& field : fields) {
    if (field == "NAME" || field == "PATCH" || field == "SAMPLE") field = "SAMPLE_NAME";
    if (field == "ID") field = "SAMPLE_ID";
  }
}

// The next line that is not empty.
std::string_view next_line(std::string_view& text, size_t& line) {
  while (!text.empty()) {
    const size_t end = std::min(text.find_first_of("\r\n"), text.size());
    const std::string_view found = trimmed(text.substr(0, end));
    const bool both = text.substr(end, 2) == "\r\n";
    text.remove_prefix(std::min(text.size(), end + (both ? 2 : 1)));
    ++line;
    if (!found.empty()) return found;
  }
  return {};
}

}  // namespace

Result<Readings> read_table(std::string_view text, const std::string& file) {
  size_t line = 0;
  const std::string_view headings = next_line(text, line);
  const char sign = parting_sign(headings);
  Readings readings;
  for (const std::string& heading : split(headings, sign)) {
    readings.fields.push_back(shown(plain(heading)));
  }
  name_groups(readings.fields);
  if (auto sound = check_fields(readings.fields, file); !sound) return sound.error();
  const auto named = name_field(readings.fields);
  for (auto row = next_line(text, line); !row.empty(); row = next_line(text, line)) {
    const std::vector<std::string> cells = split(row, sign);
    if (cells.size() != readings.fields.size()) {
      return Error{"{}, line {}: it has {} cells under {} headings.", file, line, cells.size(),
                   readings.fields.size()};
    }
    if (auto added = add_patch(cells, named, file, readings); !added) return added.error();
  }
  if (readings.patches() == 0) return Error{"{} holds no patches.", file};
  if (std::all_of(readings.values.begin(), readings.values.end(),
                  [](double value) { return std::isnan(value); })) {
    return Error{"{} is no table of measurements: there is no number in it.", file};
  }
  return readings;
}

}  // namespace proofleaf::print::cgats
