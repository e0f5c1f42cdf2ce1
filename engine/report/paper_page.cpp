// The papers on the report's page, best first: what each does to this picture, and what it is.
#include "report/html.h"

namespace proofleaf {
namespace {

const Json& inner(const Json& object, const char* key) {
  static const Json none;
  const Json* value = member(object, key);
  return value != nullptr ? *value : none;
}

// The variant the judgement recommends, or null.
const Json& best_variant(const Json& judged) {
  static const Json none;
  const Json& variants = inner(judged, "variants");
  const auto best = static_cast<size_t>(whole_of(judged, "best", 0, 0, 1000));
  return variants.is_array() && best < variants.size() ? variants[best] : none;
}

std::string share_words(const Json& object, const char* key) {
  const Json* value = member(object, key);
  return value != nullptr && value->is_number() ? number_words(value->get<double>() * 100, 1) + " %"
                                                : "";
}

std::string lab_words(const Json& lab) {
  if (!lab.is_array() || lab.size() != 3) return "";
  constexpr const char* kNames[] = {"L* ", "  a* ", "  b* "};
  std::string words;
  for (size_t i = 0; i < 3; ++i) {
    if (!lab[i].is_number()) return "";
    words += kNames[i] + number_words(lab[i].get<double>(), 1);
  }
  return words;
}

void write_judgement(Html& html, const Json& judged) {
  const Json& best = best_variant(judged);
  if (!best.is_object()) return;
  html.line("p", text_of(judged, "verdict_sentence"));
  html.line("p", text_of(judged, "sentence"));
  html.tag("<table>\n");
  write_row(html, "Score of 100", number_words(best, "score", 0));
  write_row(html, "Rendering intent", text_of(best, "name"));
  const Json& delta = inner(best, "delta_e");
  if (delta.is_object())
    write_row(html, "Difference to the master",
              said("mean {}, 95th percentile {}, greatest {} ΔE00", number_words(delta, "mean", 1),
                   number_words(delta, "p95", 1), number_words(delta, "max", 1)));
  const Json& tone = inner(best, "tone");
  write_row(html, "Steps of tone kept in the shadows",
            share_words(inner(tone, "shadows"), "share"));
  write_row(html, "in the midtones", share_words(inner(tone, "midtones"), "share"));
  write_row(html, "in the highlights", share_words(inner(tone, "highlights"), "share"));
  write_row(html, "Beyond the gamut", share_words(judged, "off_gamut_share"));
  write_row(html, "Darker than the paper's black", share_words(judged, "too_dark_share"));
  html.tag("</table>\n");
}

void write_card(Html& html, const Json& card) {
  if (!card.is_object()) return;
  html.tag("<table>\n");
  write_row(html, "White", lab_words(inner(card, "white")));
  write_row(html, "Black", lab_words(inner(card, "black")));
  if (!flag_of(card, "working_space")) {  // a space to keep pictures in is no print
    write_row(html, "Density range", number_words(card, "density_range", 2));
    write_row(html, "Contrast ratio", number_words(card, "contrast_ratio", 0));
  }
  write_row(html, "Gamut volume, cubic ΔE*ab", number_words(card, "gamut_volume", 0));
  write_row(html, "Greatest cast of its greys, C*",
            number_words(inner(card, "neutral_cast"), "largest", 1));
  write_row(html, "Round trip, mean ΔE00", number_words(inner(card, "round_trip"), "mean", 2));
  if (number_of(card, "ink_limit") > 0)
    write_row(html, "Ink limit", number_words(card, "ink_limit", 0) + " %");
  html.tag("</table>\n");
  for (const char* key : {"faults", "notes"})
    for (const Json& each : inner(card, key))
      if (each.is_string()) html.line("p", each.get<std::string>());
}

void write_paper(Html& html, const ReportPaper& paper, size_t rank) {
  html.tag("<div class=\"thing\"><h3>").text(std::to_string(rank) + "\u2002" + paper.name);
  html.tag("</h3>\n");
  if (!paper.sentence.empty()) html.line("p", paper.sentence);
  const std::string data = paper.proof ? png_data_uri(*paper.proof) : "";
  if (!data.empty()) {
    html.tag("<figure><img alt=\"").text(said("The picture as it prints on {}", paper.name));
    html.tag("\" src=\"").text(data).tag("\"></figure>\n");
  }
  html.tag("</div>\n");
  write_judgement(html, paper.judged);
  write_card(html, paper.card);
}

}  // namespace

void write_papers(Html& html, const ReportContent& content) {
  if (content.papers.empty()) return;
  html.line("h2", said("Papers, the best suited first"));
  size_t rank = 0;
  for (const ReportPaper& paper : content.papers) write_paper(html, paper, ++rank);
}

}  // namespace proofleaf
