// A job's file: read, written the same again, and as a page to print.
#include "sheet/job.h"

#include "target.h"

using namespace proofleaf;
using namespace proofleaf::fuzz;

void proofleaf::fuzz::take(const uint8_t* data, size_t size) {
  auto read = job_from_text(fuzz::text_of(data, size));
  if (value_of(read) == nullptr) return;
  const std::string text = job_text(read.value());
  auto again = job_from_text(text);
  expect(again && job_text(again.value()) == text);
  expect(job_sheet_html(read.value()).find("<script") == std::string::npos);
}
