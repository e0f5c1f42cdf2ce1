// Measurements of printed patches as text: CGATS.17 (ISO 28178:2009, from memory), which colour
// instruments and characterization data come in, and plain tables with a line of headings.
//
// Files come from anywhere: up to 32 MB, 400 fields, 100,000 patches and 4 million numbers are
// read; whatever does not hold together is refused with a sentence.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/bytes.h"
#include "colour/lab.h"

namespace proofleaf::print {

inline constexpr uint64_t kLargestReadings = uint64_t{32} << 20;  // [bytes]

struct Readings {
  std::string kind;  // what the file calls itself in its first line; empty for plain tables
  std::vector<std::pair<std::string, std::string>> keywords;  // ORIGINATOR and so on, as they stand
  std::vector<std::string> fields;  // in capitals: SAMPLE_ID, CMYK_C, XYZ_X, LAB_L, SPECTRAL_NM400
  std::vector<std::string> names;  // of the patches: SAMPLE_NAME, else SAMPLE_ID, else their number
  std::vector<double> values;      // patch by patch, one to a field; NaN where there is a text

  size_t patches() const { return names.size(); }
  double at(size_t patch, size_t field) const { return values[patch * fields.size() + field]; }
  std::optional<size_t> field(std::string_view name) const;
  // The columns of several fields, in that order; empty unless all are there.
  std::vector<size_t> columns(std::initializer_list<std::string_view> names) const;
  std::string keyword(std::string_view name) const;  // empty if there is none
};

// The device values a table holds, by channel: CMYK_C.. (0..100 per cent) or RGB_R.. (0..255 or
// 0..100, as the file has it). Empty if it has none.
enum class DeviceKind { none, rgb, cmyk };
DeviceKind device_kind(const Readings& readings);

// Columns that hold spectra, with their wavelengths [nm], rising. Names: SPECTRAL_NM400,
// SPECTRAL_NM_400, NM400, SPEC_400, SPECTRAL_400, R_400nm and the like.
std::vector<std::pair<double, size_t>> spectral_columns(const Readings& readings);

// By what is in the text, not by the file's name. Error, naming the file and often the line: too
// large, no text, no table, a number that is none, more or fewer numbers than the file promises.
Result<Readings> read_readings(ByteView bytes, const std::string& name);

// The patches' L*a*b* D50: LAB_L LAB_A LAB_B where there, else from XYZ_X XYZ_Y XYZ_Z (0..100, Y
// 100 the perfect white). Error: neither is there, or not for every patch a colour that can be (L*
// from -1 to 120, a* b* from -200 to 200).
Result<std::vector<Lab>> lab_readings(const Readings& readings, const std::string& name);

}  // namespace proofleaf::print
