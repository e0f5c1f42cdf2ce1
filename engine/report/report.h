// What was found out about a picture and its papers, to keep: one page to print, or numbers for
// another program. Both are made from the engine's own answers (job/work.h), as they came.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/json.h"
#include "colour/profile.h"

namespace proofleaf {

// Counted up whenever a reader of the numbers has to change: a key goes, or means something else.
inline constexpr int kReportVersion = 1;

// A small picture in sRGB: R G B a pixel, 8 bits each, row by row.
struct ReportPicture {
  uint32_t width = 0, height = 0;  // [pixels]
  Bytes rgb;
};

// A paper in the order it is recommended; what is not known of it stays null or empty.
struct ReportPaper {
  std::string name;      // as the person calls it
  std::string sentence;  // why it stands where it stands
  Json judged;           // answer of the kind "judged"
  Json card;             // answer of the kind "card"
  std::optional<ReportPicture> proof;
};

struct ReportContent {
  std::string date;                // as it is to be read, "25 November 2026"
  std::string master_name;         // of the file; any bytes
  uint32_t width = 0, height = 0;  // of the upright master [pixels]
  std::string colours;             // what its numbers mean, "Display P3"
  std::optional<ReportPicture> picture;
  Json condition;  // answer of the kind "condition", or null
  std::vector<ReportPaper> papers;
};

// A whole HTML document: everything is inside it (style, pictures as data), it has no script and
// forbids itself any, and it prints on A4 or Letter. Sections without content are left out. Every
// text of the content is escaped, so that a file's name cannot become markup.
std::string report_html(const ReportContent& content);

// {"proofleaf_report":kReportVersion,"date","master":{..},"condition":{..}|absent,
//  "papers":[{"name","sentence","judged","card"}]|absent}; pictures are left out.
std::string report_json(const ReportContent& content);

// A master's preview (16-bit RGB, columns x rows, in `profile`) for a report: shrunk by a whole
// factor until no side is longer than `side` [pixels], relative colorimetric into sRGB.
// Error: the samples are fewer than said, or the profile has no way to sRGB.
Result<ReportPicture> report_picture(const Profile& profile, std::span<const uint16_t> rgb,
                                     uint32_t columns, uint32_t rows, uint32_t side);

// Text for between tags and for a quoted attribute: & < > " ' are written as references, bytes that
// are no UTF-8 and control characters as U+FFFD.
std::string html_escaped(const std::string& text);

// "data:image/png;base64,..." of a picture; empty where it has no pixels or fewer than said.
std::string png_data_uri(const ReportPicture& picture);

}  // namespace proofleaf
