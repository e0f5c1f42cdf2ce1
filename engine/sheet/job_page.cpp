// The job on a page to print.
#include <array>
#include <cmath>

#include "proof/words.h"
#include "report/html.h"
#include "sheet/job.h"

namespace proofleaf {
namespace {

std::string size_words(double width, double height, const char* unit, int digits) {
  return number_words(width, digits) + "\u00a0×\u00a0" + number_words(height, digits) + " " + unit;
}

std::string difference_words(double mean, double p95, double max) {
  return said("mean {}, 95th percentile {}, greatest {} ΔE00", number_words(mean, 2),
              number_words(p95, 2), number_words(max, 2));
}

// Both fixed digits, as money is written.
std::string money_words(double amount, const std::string& currency) {
  return spoken_number(amount, 2) + (currency.empty() ? "" : "\u00a0" + currency);
}

std::string print_words(const JobPrint& print) {
  std::string words = word_for(print.container);
  if (print.container == Container::jpeg) {
    words += std::string(", ") + said(print.full_colour_detail
                                          ? phrase("quality {}, full colour detail")
                                          : phrase("quality {}, half colour detail"),
                                      print.quality);
  }
  return words + ", " + said("{} bits, {} pixels per inch", print.bits, number_words(print.ppi, 2));
}

std::string recipe_words(const Recipe& recipe) {
  std::string words;
  const auto add = [&](bool is, const char* what) {
    if (is) words.append(words.empty() ? "" : ", ").append(said(what));
  };
  add(!(recipe.correction == Correction{}), phrase("corrected"));
  add(recipe.monochrome.on, phrase("monochrome"));
  add(recipe.sized, phrase("sized"));
  add(recipe.sharpening.on, phrase("sharpened"));
  add(recipe.grain.on, phrase("grained"));
  return words.empty() ? said("as the master is") : words;
}

void write_head(Html& html, const Job& job) {
  html.line("h1", job.master.name);
  std::string facts = said("On {}.", job.paper.name) + " ";
  if (job.edition) {
    facts += said("Number {} of {}.", job.edition->number, job.edition->of) + " ";
  }
  html.tag("<p class=\"faint\">").text(facts + job.date).tag("</p>\n");
}

void write_print(Html& html, const Job& job) {
  html.line("h2", said("The print")).tag("<table>\n");
  const JobMaster& master = job.master;
  if (master.width > 0) {
    write_row(html, "Master",
              said("{}\u00a0×\u00a0{} pixels, {} bits", master.width, master.height, master.bits));
  }
  write_row(html, "Master's SHA-256", master.sha256);
  write_row(html, "Paper", job.paper.name);
  write_row(html, "Paper profile's SHA-256", job.paper.sha256);
  const bool compensated =
      job.intent.black_point_compensation && job.intent.intent != Intent::absolute;
  write_row(html, "Rendering intent",
            said(word_for(job.intent.intent)) +
                (compensated ? std::string(", ") + said("with black point compensation") : ""));
  write_row(html, "Recipe", recipe_words(job.recipe));
  write_row(html, "Print file", print_words(job.print));
  html.tag("</table>\n");
}

void write_deliveries(Html& html, const Job& job) {
  if (job.deliveries.empty()) return;
  html.line("h2", said("Handed over"));
  for (const JobDelivery& file : job.deliveries) {
    html.tag("<div class=\"thing\">").line("h3", file.name).tag("<table>\n");
    if (!file.paper.empty() && file.paper != job.paper.name) {
      write_row(html, "Paper", file.paper);
    }
    write_row(html, "Size on paper", size_words(file.width_mm, file.height_mm, "mm", 1));
    write_row(html, "Bytes", std::to_string(file.bytes));
    write_row(html, "SHA-256", file.sha256);
    write_row(html, "Read back against the proof", difference_words(file.mean, file.p95, file.max));
    html.tag("</table></div>\n");
  }
}

void write_costs(Html& html, const Job& job) {
  if (job.costs.empty()) return;
  html.line("h2", said("Costs")).tag("<table>\n");
  double sum = 0;
  for (const JobCost& cost : job.costs) {
    const double all = cost.amount * cost.count;
    const std::string times = cost.count == 1 ? "" : std::to_string(cost.count) + "\u00a0×\u00a0";
    write_row(html, cost.what,
              times + money_words(cost.amount, job.currency) +
                  (cost.count == 1 ? "" : " = " + money_words(all, job.currency)));
    sum += all;
  }
  write_row(html, "In all", money_words(sum, job.currency));
  html.tag("</table>\n");
}

void write_check(Html& html, const char* what, const JobCheck& check) {
  constexpr std::array kWords{phrase("not looked at"), phrase("right"), phrase("not right")};
  const std::string found = said(kWords[static_cast<size_t>(check.found)]);
  write_row(html, what, found + (check.note.empty() ? "" : ": " + check.note));
}

using returned::Found;

const char* found_words(Found found) {
  constexpr std::array kWords{phrase("as promised"), phrase("worth a look"),
                              phrase("not as promised"), phrase("not told")};
  return said(kWords[static_cast<size_t>(found)]);
}

std::string seen_size_words(const returned::SizeFound& size) {
  if (size.verdict == Found::untold) return found_words(size.verdict);
  std::string words =
      said("{}; width to height {} % off, told to within {} %", found_words(size.verdict),
           number_words(size.wider, 1), number_words(size.wider_within, 1));
  constexpr std::array kMissing{
      phrase("; {} mm missing at the left"), phrase("; {} mm missing at the top"),
      phrase("; {} mm missing at the right"), phrase("; {} mm missing at the bottom")};
  constexpr std::array kMore{phrase("; {} mm more than ordered at the left"),
                             phrase("; {} mm more than ordered at the top"),
                             phrase("; {} mm more than ordered at the right"),
                             phrase("; {} mm more than ordered at the bottom")};
  for (size_t i = 0; i < kMissing.size(); ++i) {
    if (size.cut[i] && std::abs(*size.cut[i]) > size.cut_within) {
      words +=
          said((*size.cut[i] > 0 ? kMissing : kMore)[i], number_words(std::abs(*size.cut[i]), 1));
    }
  }
  if (size.width_mm && size.height_mm) {
    words += said("; {} by the scan", size_words(*size.width_mm, *size.height_mm, "mm", 1));
  }
  return words;
}

std::string seen_cast_words(const returned::CastFound& cast) {
  if (cast.verdict == Found::untold) return said("not told: no white or neutral to judge by");
  return said("{}; up to {} C* from the promise", found_words(cast.verdict),
              number_words(cast.largest, 1));
}

std::string seen_shadow_words(const returned::ShadowFound& shadow) {
  std::string words = found_words(shadow.verdict);
  if (shadow.closed_until)
    words += said("; one tone up to L* {}", number_words(*shadow.closed_until, 0));
  return words;
}

std::string seen_mark_words(const returned::MarksFound& marks) {
  if (marks.verdict == Found::untold) return found_words(marks.verdict);
  return said("{} of {} mm or more", std::to_string(marks.marks.size()),
              number_words(marks.least_mm, 1));
}

void write_seen(Html& html, const JobSeen& seen) {
  html.line("h3", seen.scan ? said("Seen in the scan {}", seen.name)
                            : said("Seen in the photo {}", seen.name))
      .tag("<table>\n");
  write_row(html, "Size and shape", seen_size_words(seen.size));
  write_row(html, "Greys", seen_cast_words(seen.cast));
  write_row(html, "Deep tones", seen_shadow_words(seen.shadow));
  write_row(html, "Marks", seen_mark_words(seen.marks));
  html.tag("</table>\n");
}

void write_returned(Html& html, const Job& job) {
  if (!job.returned) return;
  const JobReturned& back = *job.returned;
  html.line("h2", said("The print that came back")).tag("<table>\n");
  write_check(html, "Size", back.size);
  write_check(html, "Neutral under D50 light", back.cast);
  write_check(html, "Shadow steps told apart", back.shadow_step);
  write_check(html, "Free of marks", back.marks);
  if (back.measured) {
    constexpr std::array kVerdicts{phrase("as close as a contract proof must be"), phrase("near"),
                                   phrase("too far off")};
    write_row(
        html, "Measured against the prediction",
        said("{}, {} patches: {}", said(kVerdicts[static_cast<size_t>(back.measured->verdict)]),
             back.measured->patches,
             difference_words(back.measured->mean, back.measured->p95, back.measured->max)));
  }
  html.tag("</table>\n");
  if (back.seen) write_seen(html, *back.seen);
  if (!back.reading) return;
  for (const std::string& sentence : back.reading->sentences) html.line("p", sentence);
}

}  // namespace

std::string job_sheet_html(const Job& job) {
  Html html;
  begin_page(html, said("Job sheet: {}", job.master.name));
  write_head(html, job);
  write_print(html, job);
  write_deliveries(html, job);
  write_costs(html, job);
  write_returned(html, job);
  if (!job.notes.empty()) html.line("h2", said("Notes")).line("p", job.notes);
  return end_page(html);
}

}  // namespace proofleaf
