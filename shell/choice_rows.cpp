#include "choice_rows.h"

#include <algorithm>

#include "app.h"
#include "words_choice.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

// Less is better throughout.
double sort_value(const Judged& judged, SortBy sort) {
  const Variant& best = judged.best();
  switch (sort) {
    case SortBy::tone:
      return -best.tone_share;
    case SortBy::gamut:
      return judged.off_gamut;
    case SortBy::difference:
      return best.mean;
    case SortBy::hue:
      return best.hue ? best.hue->mean : 0;
    case SortBy::skin:
      return best.skin ? best.skin->delta_e : 0;
    case SortBy::grey:
      return best.neutral ? best.neutral->delta_e : 0;
    case SortBy::score:
    case SortBy::paper:
      break;
  }
  return -best.score;
}

bool sound(const Row& row) { return row.tried && row.tried->trouble.empty(); }

}  // namespace

std::vector<Row> choice_rows(const App& app) {
  std::vector<Row> rows;
  const PaperState* chosen = app.job.chosen_paper();
  for (const PaperState& paper : app.job.papers) {
    if (!paper.loaded || paper.working_space) continue;
    Row row{&paper, tried_on(app, paper.file), chosen == &paper, false};
    row.in_use =
        row.chosen && (!sound(row) || same_print(row.tried->judged.best().print, app.job.print));
    rows.push_back(row);
  }
  const SortBy sort = app.choice.sort;
  std::stable_sort(rows.begin(), rows.end(), [&](const Row& one, const Row& two) {
    if (sort == SortBy::paper) return one.paper->name < two.paper->name;
    if (!sound(one) || !sound(two)) return sound(one) && !sound(two);
    return sort_value(one.tried->judged, sort) < sort_value(two.tried->judged, sort);
  });
  return rows;
}

std::string row_spoken(const App&, const Row& row) {
  const std::string use = row.chosen ? std::string(words::kInUse) : "";
  if (!sound(row)) return row.paper->name + use + ". ";
  const Judged& judged = row.tried->judged;
  const Variant& best = judged.best();
  const auto number = [](bool there, double value) {
    return there ? text("%.1f", value) : std::string(words::kNoneSpoken);
  };
  return text(words::kSpokenRow, row.paper->name.c_str(), use.c_str(), best.score,
              way_words(best.print).c_str(), verdict_words(judged.verdict),
              best.tone[0].share * 100, best.tone[1].share * 100, best.tone[2].share * 100,
              judged.off_gamut * 100, best.mean, best.p95, best.max,
              number(best.hue.has_value(), best.hue ? best.hue->mean : 0).c_str(),
              number(best.skin.has_value(), best.skin ? best.skin->delta_e : 0).c_str(),
              number(best.neutral.has_value(), best.neutral ? best.neutral->delta_e : 0).c_str());
}

std::vector<std::string> card_lines(const Judged& judged) {
  const Variant& best = judged.best();
  const std::string hue = best.hue ? text("%.1f°", best.hue->mean) : words::kNone;
  const std::string skin = best.skin ? text("%.1f ΔE00", best.skin->delta_e) : words::kNone;
  const std::string grey = best.neutral ? text("%.1f ΔE00", best.neutral->delta_e) : words::kNone;
  return {text(words::kCardTone, best.tone[0].share * 100, best.tone[1].share * 100,
               best.tone[2].share * 100),
          text(words::kCardDifference, best.mean, best.p95, best.max),
          text(words::kCardGamut, judged.off_gamut * 100),
          text(words::kCardDrift, hue.c_str(), skin.c_str(), grey.c_str())};
}

std::string losses_words(const Losses& losses) {
  return text(words::kLosses, losses.colour, losses.gamut, losses.tone, losses.hue, losses.skin,
              losses.neutral);
}

std::vector<std::string> formula_lines() {
  const ScoreWeights w;
  return {words::kScoreStart,
          text(words::kScoreColour, w.mean, w.p95),
          text(words::kScoreGamut, w.gamut),
          text(words::kScoreTone, w.tone, w.gone, w.worst_zone),
          text(words::kScoreHue, w.hue),
          text(words::kScoreSkin, w.skin),
          text(words::kScoreGrey, w.neutral),
          text(words::kScoreArea, w.zone_area * 100, w.accent_area * 100, w.skin_area * 100,
               w.neutral_area * 100)};
}

}  // namespace proofleaf::shell
