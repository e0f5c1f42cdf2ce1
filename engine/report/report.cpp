#include "report/report.h"

#include <cmath>

#include "base/digits.h"
#include "base/utf8.h"
#include "report/html.h"

namespace proofleaf {
namespace {

constexpr char kBeginning[] = "<!DOCTYPE html>\n<html lang=\"";
constexpr char kHead[] =
    R"(">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<style>
:root { color-scheme: light; }
body { font: 15px/1.45 "Inter", system-ui, sans-serif; color: #1c1c1c; background: #fff; max-width: 48rem; margin: 2rem auto; padding: 0 1.25rem; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.15rem; margin: 2.25rem 0 .5rem; padding-top: .5rem; border-top: 1px solid #666; }
h3 { font-size: 1rem; margin: 1.25rem 0 .15rem; display: flex; justify-content: space-between; gap: 1rem; }
h3 span { font-weight: 400; white-space: nowrap; }
p { margin: .15rem 0; }
.faint, small { color: #444; font-size: .85rem; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0; font-variant-numeric: tabular-nums; }
th, td { text-align: left; padding: .25rem .75rem .25rem 0; border-bottom: 1px solid #bbb; vertical-align: top; }
th { font-weight: 600; }
figure { margin: 1rem 0; }
figure img, figure svg { display: block; max-width: 100%; height: auto; }
figure svg { width: 100%; }
.thing, tr, figure { break-inside: avoid; }
h2, h3 { break-after: avoid; }
@page { margin: 16mm; }
@media print { body { font-size: 10.5pt; max-width: none; margin: 0; padding: 0; } }
</style>
)";

const char* reference_for(char letter) {
  switch (letter) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    default:
      return nullptr;
  }
}

void write_master(Html& html, const ReportContent& content) {
  html.line("h1", content.master_name);
  std::string facts;
  if (content.width > 0)
    facts = said("{}\u00a0×\u00a0{} pixels.", content.width, content.height) + " ";
  if (!content.colours.empty()) facts += said("Colours: {}.", content.colours) + " ";
  html.tag("<p class=\"faint\">").text(facts + content.date).tag("</p>\n");
}

}  // namespace

std::string html_escaped(const std::string& text) {
  constexpr char kUnknown[] = "\xEF\xBF\xBD";  // U+FFFD
  std::string out;
  for (size_t i = 0; i < text.size();) {
    const char letter = text[i];
    const size_t length = utf8_length(std::string_view(text).substr(i));
    const bool control = length == 1 && (static_cast<uint8_t>(letter) < 0x20 || letter == 0x7F);
    if (const char* reference = reference_for(letter))
      out += reference;
    else if (length == 0 || (control && letter != '\n' && letter != '\t'))
      out += kUnknown;
    else
      out.append(text, i, length);
    i += length == 0 ? 1 : length;
  }
  return out;
}

std::string number_words(double value, int decimals) {
  const std::string digits = spoken_digits(number_digits(std::fabs(value), decimals));
  return value < 0 && digits != "0" ? "−" + digits : digits;
}

std::string number_digits(double value, int decimals) {
  return std::isfinite(value) ? plain_digits(value, decimals) : "";
}

std::string number_words(const Json& object, const char* key, int decimals) {
  const Json* value = member(object, key);
  return value != nullptr && value->is_number() ? number_words(value->get<double>(), decimals) : "";
}

void begin_page(Html& html, const std::string& title) {
  html.tag(kBeginning).text(language()).tag(kHead).line("title", title);
  html.tag("</head>\n<body>\n");
}

std::string end_page(Html& html) {
  html.tag("</body>\n</html>\n");
  return html.take();
}

void write_row(Html& html, const std::string& name, const std::string& value) {
  if (value.empty()) return;
  html.tag("<tr><th>").text(name).tag("</th><td>").text(value).tag("</td></tr>\n");
}

void write_row(Html& html, const char* english, const std::string& value) {
  write_row(html, std::string(said(english)), value);
}

std::string report_html(const ReportContent& content) {
  Html html;
  begin_page(html, said("Print report: {}", content.master_name));
  write_master(html, content);
  write_condition(html, content);
  write_papers(html, content);
  return end_page(html);
}

std::string report_json(const ReportContent& content) {
  Json json{{"proofleaf_report", kReportVersion},
            {"date", content.date},
            {"master",
             {{"name", content.master_name},
              {"width", content.width},
              {"height", content.height},
              {"colours", content.colours}}}};
  if (content.condition.is_object()) json["condition"] = content.condition;
  for (const ReportPaper& paper : content.papers) {
    Json each{{"name", paper.name}, {"sentence", paper.sentence}};
    if (paper.judged.is_object()) each["judged"] = paper.judged;
    if (paper.card.is_object()) each["card"] = paper.card;
    json["papers"].push_back(each);
  }
  return dump_json(json, 1) + "\n";
}

}  // namespace proofleaf
