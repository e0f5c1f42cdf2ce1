// The condition of the master on the report's page: the picture with its places numbered, what was
// found, and the sizes it prints at.
#include <cmath>
#include <utility>

#include "report/html.h"

namespace proofleaf {
namespace {

const Json& list_of(const Json& object, const char* key) {
  static const Json none = Json::array();
  const Json* value = member(object, key);
  return value != nullptr && value->is_array() ? *value : none;
}

// Only what is to be mended or looked at is marked in the picture.
bool is_marked(const Json& finding) {
  return text_of(finding, "severity") != "good" && !list_of(finding, "places").empty();
}

// A box of the master as a numbered outline, dark with a pale core so that it shows on any picture.
// The number stands at its right; lengths are in pixels of the small picture, which is `width`
// wide.
void write_box(Html& html, const Json& box, double scale, double width, int number) {
  if (box.size() != 4) return;
  double side[4];
  for (size_t i = 0; i < 4; ++i) {
    if (!box[i].is_number()) return;
    side[i] = box[i].get<double>() * scale;
  }
  for (const bool rim : {true, false}) {
    html.tag("<rect fill=\"none\" stroke=\"")
        .text(rim ? "#1c1c1c" : "#fff")
        .tag("\" stroke-width=\"");
    html.text(rim ? "3" : "1").tag("\" x=\"").text(number_digits(side[0], 1)).tag("\" y=\"");
    html.text(number_digits(side[1], 1))
        .tag("\" width=\"")
        .text(number_digits(std::fmax(side[2], 6), 1));
    html.tag("\" height=\"").text(number_digits(std::fmax(side[3], 6), 1)).tag("\"/>");
  }
  html.tag("<text stroke=\"#1c1c1c\" stroke-width=\"3\" paint-order=\"stroke\" fill=\"#fff\" x=\"");
  const double right = side[0] + std::fmax(side[2], 6) + 4;
  html.text(number_digits(std::fmin(right, width - 14), 1)).tag("\" y=\"");
  html.text(number_digits(std::fmax(side[1] + 6, 12), 1));
  html.tag("\" font-size=\"13\">").text(std::to_string(number)).tag("</text>\n");
}

void write_picture(Html& html, const ReportContent& content) {
  if (!content.picture || content.width == 0) return;
  const ReportPicture& picture = *content.picture;
  const std::string data = png_data_uri(picture);
  if (data.empty()) return;
  const std::string w = std::to_string(picture.width), h = std::to_string(picture.height);
  html.tag("<figure><svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"").text(w);
  html.tag("\" height=\"").text(h).tag("\" viewBox=\"0 0 ").text(w + " " + h).tag("\">\n<title>");
  html.text(content.master_name).tag("</title><image width=\"").text(w).tag("\" height=\"").text(h);
  html.tag("\" href=\"").text(data).tag("\"/>\n");
  int number = 0;
  for (const Json& finding : list_of(content.condition, "findings")) {
    if (!is_marked(finding)) continue;
    ++number;
    for (const Json& box : list_of(finding, "places"))
      write_box(html, box, double(picture.width) / content.width, picture.width, number);
  }
  html.tag("</svg></figure>\n");
}

std::string value_of(const Json& finding) {
  const std::string value = number_words(finding, "value", 2);
  const std::string unit = said(text_of(finding, "unit").c_str());
  return value.empty() || unit.empty() ? value : value + "\u00a0" + unit;
}

void write_finding(Html& html, const Json& finding, const std::string& number) {
  html.tag("<div class=\"thing\"><h3>").text(number + text_of(finding, "title")).tag("<span>");
  html.text(value_of(finding)).tag("</span></h3>\n");
  html.line("p", text_of(finding, "what"));
  if (text_of(finding, "severity") != "good") {
    html.line("p", text_of(finding, "why"));
    html.line("p", text_of(finding, "do"));
  }
  html.tag("</div>\n");
}

void write_findings(Html& html, const Json& condition) {
  constexpr std::pair<const char*, const char*> kGroups[] = {
      {"act", phrase("To mend before a print is paid for")},
      {"look", phrase("To look at in full size")},
      {"good", phrase("In order")}};
  int number = 0;
  for (const auto& [severity, heading] : kGroups) {
    bool any = false;
    for (const Json& finding : list_of(condition, "findings")) {
      if (text_of(finding, "severity") != severity) continue;
      if (!any) html.line("h2", said(heading));
      any = true;
      const bool marked = is_marked(finding);
      if (marked) ++number;
      write_finding(html, finding, marked ? std::to_string(number) + "\u2002" : "");
    }
  }
}

void write_sizes(Html& html, const Json& condition) {
  const Json& sizes = list_of(condition, "print_sizes");
  if (sizes.empty()) return;
  html.line("h2", said("How large it prints")).tag("<table><tr>");
  for (const char* heading :
       {phrase("Pixels per inch"), phrase("Centimetres"), phrase("Inches"), phrase("Seen from")})
    html.line("th", said(heading));
  html.tag("</tr>\n");
  for (const Json& size : sizes) {
    const auto pair = [&](const char* a, const char* b) {
      return number_words(size, a, 1) + " × " + number_words(size, b, 1);
    };
    html.tag("<tr><td>").text(number_words(size, "ppi", 0)).tag("</td><td>");
    html.text(pair("width_cm", "height_cm")).tag("</td><td>").text(pair("width_in", "height_in"));
    html.tag("</td><td>").text(number_words(size, "distance_cm", 0) + " cm").tag("</td></tr>\n");
  }
  html.tag("</table>\n<p class=\"faint\">");
  html.text(said("From that distance on, a pixel is smaller than the eye can tell apart."));
  html.tag("</p>\n");
}

void write_measures(Html& html, const Json& condition) {
  const std::string ppi = number_words(condition, "print_ppi", 0),
                    width = number_words(condition, "print_width_mm", 0),
                    spots = number_words(condition, "dust_mm", 2);
  const std::string words =
      width.empty()
          ? said("Judged at {} pixels per inch; spots from {} mm on the print.", ppi, spots)
          : said(
                "Judged at {} pixels per inch, for a print {} mm wide; spots from {} mm on the "
                "print.",
                ppi, width, spots);
  html.tag("<p class=\"faint\">").text(words).tag("</p>\n");
}

void write_unsaid(Html& html, const Json& condition) {
  const Json& unsaid = list_of(condition, "unsaid");
  if (unsaid.empty()) return;
  html.line("h2", said("What could not be told"));
  for (const Json& each : unsaid)
    html.tag("<p class=\"faint\">").text(text_of(each, "what")).tag("</p>\n");
}

}  // namespace

void write_condition(Html& html, const ReportContent& content) {
  const Json& condition = content.condition;
  if (!condition.is_object()) return;
  write_picture(html, content);
  write_measures(html, condition);
  write_findings(html, condition);
  write_sizes(html, condition);
  write_unsaid(html, condition);
}

}  // namespace proofleaf
