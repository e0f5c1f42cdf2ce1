// What both kinds of tables are read with. Internal to this folder.
#pragma once

#include <string>
#include <string_view>

#include "print/cgats.h"

namespace proofleaf::print::cgats {

inline constexpr size_t kMostFields = 400, kMostPatches = 100'000, kMostValues = 4'000'000;
inline constexpr size_t kLongestText = 500;  // [bytes] of one keyword's value or name

std::string capitals(std::string_view text);
std::string_view trimmed(std::string_view text);
// A finite number, with a point or a comma; empty if it is none.
std::optional<double> number(std::string_view text);
// Text made fit to be shown: no control characters, not too long.
std::string shown(std::string_view text);

// Joins one patch's texts to the table. The name is the field's at name_field, or the patch's
// number. Error: too many patches.
Status add_patch(const std::vector<std::string>& texts, std::optional<size_t> name_field,
                 const std::string& file, Readings& readings);
// Where the patches' names stand.
std::optional<size_t> name_field(const std::vector<std::string>& fields);
// Error: no fields, too many, or one twice.
Status check_fields(const std::vector<std::string>& fields, const std::string& file);

Result<Readings> read_tagged(std::string_view text, const std::string& file);
Result<Readings> read_table(std::string_view text, const std::string& file);

}  // namespace proofleaf::print::cgats
