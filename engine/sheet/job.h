// A printing job as it is kept: what was printed from which master on which paper and how, what was
// handed over, what it cost and how it came back. It holds no pixels and no profiles; files are
// known by their SHA-256.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "print/read_back.h"
#include "proof/chain.h"
#include "recipe/recipe.h"
#include "sheet/seen.h"

namespace proofleaf {

// Counted up whenever a reader has to change: 2 holds what a photo of the returned print told
// ("seen"). Jobs of version 1 are read as well.
inline constexpr int kJobVersion = 2, kOldestJobVersion = 1;
inline constexpr size_t kLargestJob = size_t{4} << 20;  // [bytes] of a job file

struct JobMaster {
  std::string name;                // of the file; not empty
  uint32_t width = 0, height = 0;  // [pixels] up to 1048576; 0: not known
  uint32_t bits = 16;              // of a sample: 1..32
  std::string sha256;              // 64 small hexadecimal digits; empty: not known
};

struct JobPaper {
  std::string name;    // not empty
  std::string sha256;  // of its profile, as above
};

// How the print file is written; the ranges are DeliverySettings'.
struct JobPrint {
  Container container = Container::jpeg;  // jpeg or tiff
  uint32_t bits = 8;                      // 8 or 16
  uint32_t quality = 95;                  // JPEG 1..100
  bool full_colour_detail = true;
  double ppi = 300;  // 1..10000
  bool keep_private = false;
};

struct JobDelivery {
  std::string name;   // of the file
  std::string paper;  // empty: the job's
  uint64_t bytes = 0;
  std::string sha256;
  double width_mm = 0, height_mm = 0;  // of the sheet, 0..20000
  double mean = 0, p95 = 0, max = 0;   // of its check [dE00]
};

struct JobEdition {
  uint32_t number = 1, of = 1;  // number is at most of
};

struct JobCost {
  std::string what;
  double amount = 0;   // in the job's currency, -1e9..1e9
  uint32_t count = 1;  // how often it is paid, 1..1e6
};

// A look at the print that came back.
enum class Looked { unknown, ok, wrong };
struct JobCheck {
  Looked found = Looked::unknown;
  std::string note;
};
struct JobMeasured {
  uint32_t patches = 0;
  double mean = 0, p95 = 0, max = 0;  // [dE00]
  Verdict verdict = Verdict::out;
};
struct JobReturned {
  JobCheck size;                // as ordered
  JobCheck cast;                // neutral under D50 light
  JobCheck shadow_step;         // the deepest steps told apart
  JobCheck marks;               // none on the surface
  std::optional<JobSeen> seen;  // in a photo or a scan
  std::optional<JobMeasured> measured;
  std::optional<print::PaperCorrection> reading;  // to lay over the next proof on this paper
};

struct Job {
  std::string date;  // as the person writes it
  JobMaster master;
  JobPaper paper;
  PrintIntent intent;
  Recipe recipe;
  JobPrint print;
  std::vector<JobDelivery> deliveries;  // at most 100
  std::optional<JobEdition> edition;
  std::string currency;        // a few letters, as the person writes it
  std::vector<JobCost> costs;  // at most 100
  std::string notes;
  std::optional<JobReturned> returned;
};

// {"proofleaf_job":2,"date","master":{"name","width","height","bits","sha256"},
//  "paper":{"name","sha256"},"intent","black_point_compensation","recipe":{..},
//  "print":{"format":"jpeg"|"tiff","bits","quality","full_colour_detail","ppi","keep_private"},
//  "deliveries":[{"name","paper","bytes","sha256","width_mm","height_mm","mean","p95","max"},..],
//  "edition":{"number","of"}|null,"currency","costs":[{"what","amount","count"},..],"notes",
//  "returned":{"size":{"found":"unknown"|"ok"|"wrong","note"},"cast":{..},"shadow_step":{..},
//      "marks":{..},"seen":{..}|null (seen.h),
//      "measured":{"patches","mean","p95","max","verdict"}|null,"reading":{..}|null}|null}
Json json_of(const Job& job);
// Reading is strict: a field that is not known, of another type or out of its range is an error
// that names it. Texts: names 255 bytes, notes 10,000. What is left out is as it stands above, but
// for the version, the master, the paper and their names.
Result<Job> job_from_json(const Json& json);

// A job file's text and back. Error: longer than kLargestJob, no JSON, or as above.
std::string job_text(const Job& job);
Result<Job> job_from_text(const std::string& text);

// A page to print (report/report.h says what pages are): the job in the order a print house and a
// buyer ask, with the costs added up. Every text is escaped.
std::string job_sheet_html(const Job& job);

}  // namespace proofleaf
