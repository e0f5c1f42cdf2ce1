// Names for print files, and many of them at once.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "sheet/job.h"

namespace proofleaf {

// What a name may be made of; what is empty or 0 leaves nothing behind.
struct NameValues {
  std::string master;  // of the file; its ending is left off
  std::string paper;
  double width_cm = 0,
         height_cm = 0;  // of the sheet, written with at most one digit after the point
  double ppi = 0;
  std::string edition;  // "3 of 12"
  std::string date;
  std::string variant;  // of a test strip or a batch
};

inline constexpr size_t kLongestFileName = 120;  // [bytes] without ending and number
inline constexpr size_t kLongestPattern = 500;   // [bytes]

// A pattern as "{master}-{paper}-{width}x{height}cm-{edition}" filled in. Placeholders: master,
// paper, width, height, ppi, edition, date, variant. The name has no ending and is safe on every
// file system: letters of all scripts, digits, "_", "-", "." and "+" stay, all else becomes "-",
// several together one, none at either end; it never begins with a point and is no device name of
// Windows (Microsoft, "Naming Files, Paths, and Namespaces").
// Error: an unknown placeholder (named), a brace without its other, a pattern too long, or a name
// of nothing.
Result<std::string> name_from_pattern(const std::string& pattern, const NameValues& values);

// A file's name without what follows its last point; one that begins with that point stays whole.
std::string without_ending(const std::string& file);

// One print of a batch of one master.
struct BatchItem {
  std::string paper;
  std::string variant;  // may be empty
  Recipe recipe;
};
struct BatchPrint {
  std::string name;  // with its ending, .jpg or .tif
  print::PrintPlan plan;
};
inline constexpr size_t kMostBatch = 100;

// Each item's name and exact pixels, in order. No two names are the same, nor one of `taken`, small
// and capital letters counting as one (A to Z): the later one gets "-2", "-3". Of the job count its
// master's name and size, its print's container and ppi (for recipes without a size), its edition
// and its date.
// Error: no items or more than kMostBatch, the pattern's, or a size's, which names the item.
Result<std::vector<BatchPrint>> plan_batch(const std::string& pattern, const Job& job,
                                           std::span<const BatchItem> items,
                                           std::span<const std::string> taken = {});

}  // namespace proofleaf
