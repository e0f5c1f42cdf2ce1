#include "print/cgats.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <set>

#include "print/cgats_parts.h"

namespace proofleaf::print {
namespace cgats {

std::string capitals(std::string_view text) {
  std::string upper(text);
  for (char& c : upper) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return upper;
}

std::string_view trimmed(std::string_view text) {
  const size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::optional<double> number(std::string_view text) {
  constexpr size_t kLongest = 40;
  if (text.empty() || text.size() > kLongest) return {};
  // Neither words nor hexadecimal, which the library's own reading would take.
  if (text.find_first_not_of("0123456789.,+-eE") != std::string_view::npos) return {};
  std::string plain(text);
  std::replace(plain.begin(), plain.end(), ',', '.');
  char* end = nullptr;
  const double value = std::strtod(plain.c_str(), &end);
  if (*end != 0 || end == plain.c_str() || !std::isfinite(value)) return {};
  return value;
}

std::string shown(std::string_view text) {
  std::string clean(text.substr(0, kLongestText));
  std::erase_if(clean, [](unsigned char c) { return c < 0x20 || c == 0x7f; });
  return clean;
}

std::optional<size_t> name_field(const std::vector<std::string>& fields) {
  for (const char* name : {"SAMPLE_NAME", "SAMPLE_ID", "SAMPLE_LOC"}) {
    const auto found = std::find(fields.begin(), fields.end(), name);
    if (found != fields.end()) return static_cast<size_t>(found - fields.begin());
  }
  return {};
}

Status check_fields(const std::vector<std::string>& fields, const std::string& file) {
  if (fields.empty()) return Error{"{} does not say what its numbers are.", file};
  if (fields.size() > kMostFields) return Error{"{} has too many columns to be read.", file};
  const std::set<std::string> once(fields.begin(), fields.end());
  if (once.size() != fields.size()) return Error{"{} has two columns of the same name.", file};
  return done();
}

Status add_patch(const std::vector<std::string>& texts, std::optional<size_t> named,
                 const std::string& file, Readings& readings) {
  if (readings.patches() >= kMostPatches || readings.values.size() + texts.size() > kMostValues) {
    return Error{"{} holds more patches than can be read.", file};
  }
  readings.names.push_back(named ? shown(texts[*named]) : std::to_string(readings.patches() + 1));
  for (const std::string& text : texts) {
    readings.values.push_back(number(text).value_or(std::numeric_limits<double>::quiet_NaN()));
  }
  return done();
}

}  // namespace cgats

std::optional<size_t> Readings::field(std::string_view name) const {
  const auto found = std::find(fields.begin(), fields.end(), name);
  if (found == fields.end()) return {};
  return static_cast<size_t>(found - fields.begin());
}

std::vector<size_t> Readings::columns(std::initializer_list<std::string_view> wanted) const {
  std::vector<size_t> found;
  for (const std::string_view name : wanted) {
    const auto column = field(name);
    if (!column) return {};
    found.push_back(*column);
  }
  return found;
}

std::string Readings::keyword(std::string_view name) const {
  for (const auto& [key, value] : keywords) {
    if (key == name) return value;
  }
  return {};
}

DeviceKind device_kind(const Readings& readings) {
  if (!readings.columns({"CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"}).empty()) return DeviceKind::cmyk;
  if (!readings.columns({"RGB_R", "RGB_G", "RGB_B"}).empty()) return DeviceKind::rgb;
  return DeviceKind::none;
}

std::vector<std::pair<double, size_t>> spectral_columns(const Readings& readings) {
  std::vector<std::pair<double, size_t>> columns;
  for (size_t i = 0; i < readings.fields.size(); ++i) {
    const std::string& field = readings.fields[i];
    const size_t digits = field.find_first_of("0123456789");
    if (digits == std::string::npos) continue;
    std::string prefix = field.substr(0, digits), rest = field.substr(digits);
    std::erase(prefix, '_');
    const bool known = prefix == "SPECTRALNM" || prefix == "NM" || prefix == "SPEC" ||
                       prefix == "SPECTRAL" || prefix == "SPECTRALPCT" || prefix == "R";
    if (rest.ends_with("NM")) rest.resize(rest.size() - 2);
    const auto wavelength = cgats::number(rest);
    constexpr double kShortest = 300, kLongest = 900;  // [nm]
    if (known && wavelength && *wavelength >= kShortest && *wavelength <= kLongest) {
      columns.emplace_back(*wavelength, i);
    }
  }
  std::sort(columns.begin(), columns.end());
  return columns;
}

Result<Readings> read_readings(ByteView bytes, const std::string& name) {
  if (bytes.size() > kLargestReadings) {
    return Error{"{} is too large to be a table of measurements.", name};
  }
  if (std::find(bytes.begin(), bytes.end(), 0) != bytes.end()) {
    return Error{"{} is not a text; measurements come as CGATS or CSV text.", name};
  }
  std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  if (cgats::trimmed(text).empty()) return Error{"{} is empty.", name};
  const bool tagged = text.find("BEGIN_DATA") != std::string_view::npos;
  return tagged ? cgats::read_tagged(text, name) : cgats::read_table(text, name);
}

Result<std::vector<Lab>> lab_readings(const Readings& readings, const std::string& name) {
  auto columns = readings.columns({"LAB_L", "LAB_A", "LAB_B"});
  const bool lab = !columns.empty();
  if (!lab) columns = readings.columns({"XYZ_X", "XYZ_Y", "XYZ_Z"});
  if (columns.empty()) {
    const bool spectra = !spectral_columns(readings).empty();
    return spectra ? Error{"{} holds spectra only; have it written with L*a*b* values too.", name}
                   : Error{"{} holds no L*a*b* and no XYZ values.", name};
  }
  std::vector<Lab> colours(readings.patches());
  for (size_t i = 0; i < colours.size(); ++i) {
    const double first = readings.at(i, columns[0]), second = readings.at(i, columns[1]),
                 third = readings.at(i, columns[2]);
    Lab& colour = colours[i];
    colour =
        lab ? Lab{first, second, third} : lab_from_xyz({first / 100, second / 100, third / 100});
    const bool possible =
        colour.l >= -1 && colour.l <= 120 && std::abs(colour.a) <= 200 && std::abs(colour.b) <= 200;
    if (!possible) {  // NaN too
      return Error{"{}: patch {} has no colour that can be.", name, readings.names[i]};
    }
  }
  return colours;
}

}  // namespace proofleaf::print
