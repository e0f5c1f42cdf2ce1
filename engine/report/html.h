// Writing HTML by hand, with no way to forget the escaping: whatever is not a literal goes through
// it.
#pragma once

#include <string>

#include "report/report.h"

namespace proofleaf {

class Html {
 public:
  // Markup of ours, as it stands. Only literals fit.
  template <size_t n>
  Html& tag(const char (&markup)[n]) {
    out_.append(markup, n - 1);
    return *this;
  }
  Html& text(const std::string& words) {
    out_ += html_escaped(words);
    return *this;
  }
  // <name>words</name>
  template <size_t n>
  Html& line(const char (&name)[n], const std::string& words) {
    out_.append("<").append(name, n - 1).append(">");
    text(words);
    out_.append("</").append(name, n - 1).append(">\n");
    return *this;
  }
  std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

// A number with up to `decimals` digits after the point, none that are nothing, as markup has it.
std::string number_digits(double value, int decimals);
// The same for people: the decimal sign of the language spoken, a real minus sign.
std::string number_words(double value, int decimals);
// The same of a member of a JSON object; empty where it is absent.
std::string number_words(const Json& object, const char* key, int decimals);

// A whole page's beginning, with the reports' style and a policy that forbids it any script, and
// its end.
void begin_page(Html& html, const std::string& title);
std::string end_page(Html& html);

// A table's row of a heading and what it holds; none where that is empty.
void write_row(Html& html, const std::string& name, const std::string& value);
// The same with an English heading, said in the language spoken.
void write_row(Html& html, const char* english, const std::string& value);

void write_condition(Html& html, const ReportContent& content);
void write_papers(Html& html, const ReportContent& content);

}  // namespace proofleaf
