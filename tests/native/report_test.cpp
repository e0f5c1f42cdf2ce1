// The saved report: escaping, what is left out, and the small pictures.
#include "report/report.h"

#include <png.h>

#include "pictures.h"

using namespace proofleaf;
using namespace proofleaf::test;

namespace {

constexpr char kHostile[] = "<script>alert('x')</script>&\"\x01\xFF.tif";

Json hostile_condition() {
  const std::string bad = kHostile;
  return {{"kind", "condition"},
          {"print_ppi", 300},
          {"dust_mm", 0.5},
          {"findings",
           {{{"id", bad},
             {"severity", "act"},
             {"title", bad},
             {"value", 2.414},
             {"unit", bad},
             {"what", bad},
             {"why", bad},
             {"do", bad},
             {"places", {{10, 20, 30, 40}, {"a", bad, 1, 2}, {1, 2}}}},
            {{"id", "noise"},
             {"severity", "good"},
             {"title", "Noise"},
             {"value", nullptr},
             {"what", "Little."}}}},
          {"unsaid", {{{"id", "tilt"}, {"title", bad}, {"what", bad}}}},
          {"print_sizes",
           {{{"ppi", 300},
             {"width_cm", 82.16},
             {"height_cm", 61.6},
             {"width_in", 32.4},
             {"height_in", 24.3},
             {"distance_cm", 29.1}}}}};
}

ReportContent hostile_content() {
  ReportContent content;
  content.date = "25 November 2026";
  content.master_name = kHostile;
  content.width = 100;
  content.height = 80;
  content.colours = kHostile;
  content.picture = ReportPicture{2, 1, {255, 0, 0, 0, 0, 255}};
  content.condition = hostile_condition();
  ReportPaper paper;
  paper.name = paper.sentence = kHostile;
  paper.judged = {{"best", 0},
                  {"verdict_sentence", kHostile},
                  {"variants", {{{"name", kHostile}, {"score", 84.2}}}}};
  paper.card = {{"white", {95.1, 0.2, -1.8}}, {"faults", {kHostile}}, {"density_range", 2.1}};
  content.papers.push_back(paper);
  return content;
}

size_t count(const std::string& text, const std::string& part) {
  size_t found = 0;
  for (size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
  return found;
}

Bytes from_base64(const std::string& text) {
  const std::string digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  Bytes out;
  uint32_t group = 0, bits = 0;
  for (const char each : text) {
    const size_t value = digits.find(each);
    if (value == std::string::npos) break;
    group = group << 6 | uint32_t(value);
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    out.push_back(uint8_t(group >> bits));
  }
  return out;
}

}  // namespace

TEST_CASE("escaped text cannot become markup") {
  // HTML Living Standard 13.2.5: a tag begins with <, a reference with &, and a quoted attribute
  // ends with its quote.
  CHECK(html_escaped("a < b & \"c\" 'd' > e") == "a &lt; b &amp; &quot;c&quot; &#39;d&#39; &gt; e");
  CHECK(html_escaped("Grün, 日本, 😀") == "Grün, 日本, 😀");
  // Ill-formed UTF-8 by RFC 3629: a lone byte, too long a form, a surrogate, beyond U+10FFFF.
  CHECK(html_escaped("\xFF") == "\uFFFD");
  CHECK(html_escaped("\xC0\xBC") == "\uFFFD\uFFFD");  // "<" written too long
  CHECK(html_escaped("\xED\xA0\x80") == "\uFFFD\uFFFD\uFFFD");
  CHECK(html_escaped("\xF4\x90\x80\x80") == "\uFFFD\uFFFD\uFFFD\uFFFD");
  CHECK(html_escaped("\xE2\x82") == "\uFFFD\uFFFD");
  CHECK(html_escaped(std::string("a\0b\x1B", 4)) == "a\uFFFDb\uFFFD");
}

TEST_CASE("names and sentences with markup in them stay text on the page") {
  const std::string html = report_html(hostile_content());
  CHECK(count(html, "<script") == 0);
  CHECK(count(html, "alert('x')") == 0);
  CHECK(count(html, "&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;") > 10);
  CHECK(count(html, "javascript:") == 0);
  CHECK(count(html, " src=\"http") + count(html, " href=\"http") == 0);
  CHECK(count(html, "default-src 'none'") == 1);
  CHECK(count(html, "@media print") == 1);
}

TEST_CASE("the page has its numbers, and only whole boxes") {
  const std::string html = report_html(hostile_content());
  for (const char* number :
       {"2.41", "82.2 × 61.6", "29 cm", "L* 95.1  a* 0.2  b* −1.8", "2.1", "84"})
    CHECK_MESSAGE(count(html, number) > 0, number);
  CHECK(count(html, "<rect") == 2);  // one good box, drawn with its rim
}

TEST_CASE("what is not known is left out") {
  ReportContent content;
  content.master_name = "plain.tif";
  const std::string html = report_html(content);
  CHECK(count(html, "<h2>") == 0);
  CHECK(count(html, "<svg") == 0);
  CHECK(count(html, "<h1>plain.tif</h1>") == 1);
  const Json json = parse_json(report_json(content));
  CHECK(number_of(json, "proofleaf_report") == kReportVersion);
  CHECK_FALSE(json.contains("condition"));
  CHECK_FALSE(json.contains("papers"));
}

TEST_CASE("answers of the wrong shape are no trouble") {
  const Json odd[] = {nullptr,
                      7,
                      "text",
                      Json::array(),
                      Json::object(),
                      {{"findings", 3}, {"print_sizes", {1, "a", nullptr}}, {"unsaid", {{}}}},
                      {{"findings", {1, nullptr, {{"severity", "act"}, {"places", {{nullptr}}}}}}},
                      {{"variants", {1}}, {"best", 99}, {"white", {1, 2, "x"}}, {"faults", {1}}}};
  for (const Json& each : odd) {
    ReportContent content = hostile_content();
    content.condition = content.papers[0].judged = content.papers[0].card = each;
    CHECK(report_html(content).ends_with("</html>\n"));
    CHECK(parse_json(report_json(content)).is_object());
  }
}

TEST_CASE("the numbers are JSON that carries the answers as they came") {
  const Json json = parse_json(report_json(hostile_content()));
  REQUIRE(json.is_object());
  CHECK(number_of(json["condition"]["findings"][0], "value") == 2.414);
  CHECK(json["papers"][0]["card"]["white"][2] == -1.8);
  CHECK(text_of(json["master"], "name").starts_with("<script>"));
}

TEST_CASE("a report's picture is shrunk and brought into sRGB") {
  // IEC 61966-2-1 primaries as themselves: an sRGB master comes through as it was.
  std::vector<uint16_t> rgb;
  for (int i = 0; i < 8 * 4; ++i) rgb.insert(rgb.end(), {65535, 0, 32896});
  const auto picture = report_picture(standard_profile("srgb").take(), rgb, 8, 4, 4);
  REQUIRE(picture.ok());
  CHECK(picture.value().width == 4);
  CHECK(picture.value().height == 2);
  REQUIRE(picture.value().rgb.size() == 4 * 2 * 3);
  CHECK(picture.value().rgb[0] >= 254);
  CHECK(picture.value().rgb[1] <= 1);
  CHECK(std::abs(picture.value().rgb[2] - 128) <= 1);
  CHECK_FALSE(report_picture(standard_profile("srgb").take(), rgb, 80, 40, 4).ok());
  CHECK_FALSE(report_picture({}, rgb, 8, 4, 4).ok());
}

TEST_CASE("a picture in the page is a PNG that libpng reads back") {
  const ReportPicture picture{
      3, 2, {1, 2, 3, 40, 50, 60, 255, 254, 253, 0, 0, 0, 9, 8, 7, 100, 110, 120}};
  const std::string uri = png_data_uri(picture), head = "data:image/png;base64,";
  REQUIRE(uri.starts_with(head));
  const Bytes bytes = from_base64(uri.substr(head.size()));
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  REQUIRE(png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()));
  CHECK(image.width == 3);
  CHECK(image.height == 2);
  image.format = PNG_FORMAT_RGB;
  Bytes read(3 * 2 * 3);
  REQUIRE(png_image_finish_read(&image, nullptr, read.data(), 0, nullptr));
  CHECK(read == picture.rgb);
  CHECK(png_data_uri({3, 2, Bytes(17)}).empty());
  CHECK(png_data_uri({}).empty());
}
