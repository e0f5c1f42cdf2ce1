// Numbers that people read and type, in each language; those of files, which no language changes.
// German writes decimals behind a comma: DIN 1333, Unicode CLDR "de" (both from memory).
#include <doctest.h>

#include <cmath>

#include "base/digits.h"
#include "base/json.h"
#include "base/language.h"
#include "print/ranges.h"
#include "rank/compare.h"
#include "report/html.h"
#include "sheet/job.h"

using namespace proofleaf;

namespace {

struct InGerman {
  InGerman() { REQUIRE(speak("de", R"({"less than {}":"unter {}"})") == 1); }
  ~InGerman() { speak("en", ""); }
  InGerman(const InGerman&) = delete;
  InGerman& operator=(const InGerman&) = delete;
};

}  // namespace

TEST_CASE("numbers: the decimal sign is the language's") {
  CHECK(decimal_sign() == '.');
  CHECK(spoken_number(2.5, 1) == "2.5");
  CHECK(spoken_digits("-3.50") == "-3.50");
  const InGerman german;
  CHECK(decimal_sign() == ',');
  CHECK(spoken_number(2.5, 1) == "2,5");
  CHECK(spoken_number(-0.25, 2) == "-0,25");
  CHECK(spoken_number(1234567.5, 1) == "1234567,5");
  CHECK(spoken_number(300, 0) == "300");
  CHECK(spoken_digits("-3.50") == "-3,50");
}

TEST_CASE(
    "numbers: sentences, reports and sheets have it, from the largest to the smallest number") {
  CHECK(print::plain_number(0.17) == "0.17");
  CHECK(number_words(-1.25, 2) == "−1.25");
  const InGerman german;
  CHECK(print::plain_number(0.17) == "0,17");
  CHECK(print::plain_number(300) == "300");
  CHECK(number_words(-1.25, 2) == "−1,25");
  CHECK(number_words(0.04, 1) == "0");
  CHECK(spoken_number(1e300, 2).size() > 300);
  CHECK(spoken_number(std::nan(""), 2).find(',') == std::string::npos);
}

TEST_CASE("numbers: files, markup and names of files keep the point in every language") {
  const InGerman german;
  CHECK(dump_json({{"width_mm", 297.5}}) == R"({"width_mm":297.5})");
  CHECK(plain_digits(29.7, 1) == "29.7");
  CHECK(number_digits(12.25, 2) == "12.25");
  const Json json = parse_json(R"({"width_mm":297.5})");
  CHECK(json["width_mm"].get<double>() == 297.5);
}

TEST_CASE("numbers: a job sheet's money has the sign of the language, its file a point") {
  Job job;
  job.currency = "EUR";
  job.costs.push_back({"Print", 48.5});
  CHECK(job_sheet_html(job).find("48.50\u00a0EUR") != std::string::npos);
  const std::string file = job_text(job);
  const InGerman german;
  CHECK(job_sheet_html(job).find("48,50\u00a0EUR") != std::string::npos);
  CHECK(job_text(job) == file);
}

TEST_CASE("numbers: typed with a point or a comma, whatever the language") {
  const auto check = [] {
    CHECK(typed_number("2.5") == 2.5);
    CHECK(typed_number("2,5") == 2.5);
    CHECK(typed_number(" 45,50 ") == 45.5);
    CHECK(typed_number("-0,25") == -0.25);
    CHECK(typed_number("+3") == 3);
    CHECK(typed_number(",5") == 0.5);
    CHECK(typed_number("5,") == 5);
    CHECK(typed_number("1000000") == 1e6);
  };
  check();
  const InGerman german;
  check();
}

TEST_CASE("numbers: what is none is not taken for one") {
  for (const char* typed : {"", " ", "-", ".", ",", "-,", "1,2,3", "1.234,5", "1 000", "0x10",
                            "1e3", "inf", "nan", "--1", "1-", "five", "5 cm", "1..2"}) {
    CAPTURE(typed);
    CHECK_FALSE(typed_number(typed));
  }
}

TEST_CASE("numbers: what is shown can be typed again") {
  const auto check = [] {
    for (double value : {0.0, 0.1, -2.75, 12.5, 300.0, 1999.99})
      CHECK(typed_number(spoken_number(value, 2)) == value);
  };
  check();
  const InGerman german;
  check();
}
