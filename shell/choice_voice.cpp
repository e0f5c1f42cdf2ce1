// The choice of a paper told in words and as JSON.
#include "app.h"
#include "json_read.h"
#include "proof/words.h"
#include "words_choice.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

Json or_null(bool there, double value) { return there ? Json(value) : Json(); }

constexpr const char* kPages[] = {"papers", "card", "client"};

Json trial_json(const App& app, const Tried& tried, const std::string& sentence) {
  const Variant& best = tried.judged.best();
  const PaperState* chosen = app.job.chosen_paper();
  return {{"paper", tried.judged.paper},
          {"in_use", chosen && chosen->file == tried.paper},
          {"score", best.score},
          {"intent", word_for(best.print.intent)},
          {"black_point_compensation", best.print.black_point_compensation},
          {"tone", {best.tone[0].share, best.tone[1].share, best.tone[2].share}},
          {"off_gamut_share", tried.judged.off_gamut},
          {"delta_e", {best.mean, best.p95, best.max}},
          {"hue", or_null(best.hue.has_value(), best.hue ? best.hue->mean : 0)},
          {"skin", or_null(best.skin.has_value(), best.skin ? best.skin->delta_e : 0)},
          {"neutral", or_null(best.neutral.has_value(), best.neutral ? best.neutral->delta_e : 0)},
          {"verdict", std::string(verdict_words(tried.judged.verdict))},
          {"sentence", sentence},
          {"thumbnail", tried.thumbnail != 0}};
}

}  // namespace

Words verdict_words(Verdict verdict) {
  constexpr Words kWords[] = {words::kVerdictGood, words::kVerdictMarginal, words::kVerdictOut};
  return kWords[size_t(verdict)];
}

std::string choice_words(const App& app) {
  const Choice& choice = app.choice;
  const int all = papers_to_try(app), done = papers_tried(app);
  if (app.job.master.file == 0 || choice.order.empty() || done < all) return "";
  std::string said = " " + std::string(words::kWhichPaper) + ":";
  for (const Standing& standing : choice.order) {
    const Judged& judged = choice.tried[standing.index].judged;
    said += text(words::kSayRanked, judged.paper.c_str(), standing.score,
                 way_words(judged.best().print).c_str());
  }
  said.back() = '.';
  return said;
}

Json choice_json(const App& app) {
  const Choice& choice = app.choice;
  Json ranking = Json::array(), troubles = Json::array(), cards = Json::object();
  for (const Standing& standing : choice.order)
    ranking.push_back(trial_json(app, choice.tried[standing.index], standing.sentence));
  for (const Tried& tried : choice.tried)
    if (!tried.trouble.empty()) troubles.push_back(tried.trouble);
  for (const auto& [key, card] : choice.cards)
    cards[key] = card.trouble.empty() ? card.numbers : Json(card.trouble);
  Json worst = Json::array();
  for (const WorstPlace& place : choice.differences.worst)
    worst.push_back({place.x, place.y, place.delta_e});
  const PaperState* paper = app.job.chosen_paper();
  return {{"open", choice.open},
          {"page", kPages[int(choice.page)]},
          {"to_try", papers_to_try(app)},
          {"tried", papers_tried(app)},
          {"rests", choice.rests},
          {"ranking", ranking},
          {"troubles", troubles},
          {"cards", cards},
          {"card", paper ? Json(card_key(*paper)) : Json()},
          {"card_lines", choice.card_lines},
          {"cursors", choice.cursors},
          {"turn", {choice.turn, choice.tilt}},
          {"new_name", choice.renaming != 0 ? Json(choice.new_name) : Json()},
          {"rings", choice.rings},
          {"rings_shown", rings_shown(app)},
          {"worst", worst}};
}

}  // namespace proofleaf::shell
