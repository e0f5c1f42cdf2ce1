// What the check of this screen found: on the look leaf in short, and as the walk's last page.
#include <algorithm>

#include "app.h"
#include "words_recipe.h"
#include "words_screen.h"

namespace proofleaf::shell {
namespace {

constexpr size_t kLookedAt = 20000;  // pixels of the preview
using screen::Grade;
using screen::Reason;
using screen::Topic;

std::string reason_words(const Reason& r) {
  switch (r.topic) {
    case Topic::tint:
      if (!r.answered) return words::kWhyTintOpen;
      return r.allows == Grade::colour ? words::kWhyTintOff : words::kWhyTintOn;
    case Topic::inverted:
      return words::kWhyInverted;
    case Topic::forced_colours:
      return words::kWhyForced;
    case Topic::contrast:
      return words::kWhyContrast;
    case Topic::rows:
      if (!r.answered) return words::kWhyRowsOpen;
      return r.allows == Grade::colour ? words::kWhyRowsEven : words::kWhyRowsUneven;
    case Topic::pixels:
      return words::kWhyPixels;
    case Topic::dark:
      if (!r.answered) return words::kWhyDarkOpen;
      return r.value >= screen::kNoDarkStep ? words::kWhyDarkNone : text(words::kWhyDark, r.value);
    case Topic::light:
      if (!r.answered) return words::kWhyLightOpen;
      return r.value <= screen::kNoLightStep ? words::kWhyLightNone
                                             : text(words::kWhyLight, r.value);
    case Topic::tone_unknown:
      return words::kWhyToneOpen;
    case Topic::tone:
      return text(r.corrected ? words::kWhyToneCorrected : words::kWhyTone, r.value);
    case Topic::grey:
      return text(r.corrected ? words::kWhyGreyCorrected : words::kWhyGrey, r.value);
    case Topic::neutral:
      if (!r.answered) return words::kWhyNeutralOpen;
      return text(r.corrected ? words::kWhyNeutralCorrected : words::kWhyNeutral, r.value);
    case Topic::turning:
      if (!r.answered) return words::kWhyTurningOpen;
      return r.allows != Grade::colour ? words::kWhyMuch
             : r.value > 0             ? words::kWhyLittle
                                       : words::kWhySteady;
    case Topic::white:
      if (!r.answered) return words::kWhyWhiteOpen;
      return r.value == 0  ? words::kWhyWhiteAlike
             : r.value < 0 ? words::kWhyWhiteDarker
                           : words::kWhyWhiteLighter;
    case Topic::gamut:
      return r.answered ? words::kWhyGamut : words::kWhyGamutOpen;
  }
  return "";
}

// Found anew when proof or check have changed.
void update_share(App& app) {
  ScreenCheck& check = app.check;
  const CubeSlot& slot = app.proof_cube;
  if (!slot.exact() || app.preview.empty()) return;
  screen::ShownTones tones;
  if (check.kept && check.kept->answers.first_dark > 0)
    tones.first_dark = check.kept->answers.first_dark;
  if (check.kept && check.kept->answers.last_light > 0)
    tones.last_light = check.kept->answers.last_light;
  const std::string key = text("%d/%d/", tones.first_dark, tones.last_light) + slot.wanted;
  if (key == check.share_key) return;
  const auto& rgb = printed_samples(app);
  const size_t step = std::max<size_t>(1, rgb.size() / 3 / kLookedAt);
  const auto found = screen::unshown(slot.cube->cube, check.platform.canvas, tones, rgb, step);
  check.share_key = key;
  check.share = found ? std::optional(found.value()) : std::nullopt;
}

void draw_share(App& app, bool parts) {
  Ui& ui = app.ui;
  update_share(app);
  const auto& share = app.check.share;
  if (!share) return ui.help(words::kShareWait);
  if (share->any == 0) return ui.words(Face::body, words::kScreenShareNone);
  ui.words(Face::body, text(words::kShareAny, percent(share->any).c_str()));
  if (!parts) return;
  const bool p3 = app.check.platform.canvas == Screen::display_p3;
  if (share->beyond > 0)
    ui.words(Face::body, text(p3 ? words::kShareBeyondP3 : words::kShareBeyondSrgb,
                              percent(share->beyond).c_str()));
  if (share->dark > 0) ui.words(Face::body, text(words::kShareDark, percent(share->dark).c_str()));
  if (share->light > 0)
    ui.words(Face::body, text(words::kShareLight, percent(share->light).c_str()));
}

void draw_price(App& app) {
  const screen::Price& price = app.check.price;
  std::string said = text(words::kPriceLevels, price.levels);
  said += " ";
  said += price.swallowed > 0 ? text(words::kPriceBlack, price.swallowed) : words::kPriceNoBlack;
  if (price.white < 0.995) said += " " + text(words::kPriceWhite, 100 * price.white);
  app.ui.help(said);
}

void draw_correction(App& app, bool with_price) {
  Ui& ui = app.ui;
  if (!can_correct(app)) return ui.help(words::kScreenCorrectNeeds);
  bool on = screen_corrected(app);
  if (ui.toggle("screen-correct", words::kScreenCorrect, words::kScreenCorrectHelp, &on))
    set_corrected(app, on);
  if (with_price || on) draw_price(app);
}

void draw_responses(App& app) {
  Ui& ui = app.ui;
  const screen::Answers& answers = app.check.kept->answers;
  const auto found = screen::responses_of(answers);
  if (found) {
    const auto& r = found.value();
    ui.section(words::kResponseTitle);
    ui.words(Face::body,
             text(words::kResponseWords, r[0].exponent(), r[0].uncertainty(), r[1].exponent(),
                  r[1].uncertainty(), r[2].exponent(), r[2].uncertainty()));
    if (std::any_of(r.begin(), r.end(), [](const auto& each) { return !each.one_curve(); }))
      ui.help(words::kResponseBent);
  }
  if (answers.neutral)
    ui.words(Face::body, text(words::kNeutralMoved, signed_number(answers.neutral->a).c_str(),
                              signed_number(answers.neutral->b).c_str()));
}

void draw_facts(App& app) {
  Ui& ui = app.ui;
  const screen::Platform& p = app.check.platform;
  constexpr Words kGamuts[] = {words::kFactGamutUnknown, words::kFactGamutSrgb, words::kFactGamutP3,
                               words::kFactGamutRec2020};
  ui.section(words::kFactsTitle);
  ui.help(kGamuts[int(p.gamut)]);
  ui.help(p.canvas == Screen::display_p3 ? words::kFactCanvasP3 : words::kFactCanvasSrgb);
  if (p.high_dynamic) ui.help(words::kFactHigh);
  ui.help(text(words::kFactRatio, p.pixel_ratio));
  ui.help(words::kFactNot);
}

}  // namespace

Words grade_words(Grade grade) {
  constexpr Words kWords[] = {words::kGradeUnknown, words::kGradeComposition, words::kGradeTone,
                              words::kGradeColour};
  return kWords[int(grade)];
}

Words grade_help(Grade grade) {
  constexpr Words kWords[] = {words::kGradeUnknownHelp, words::kGradeCompositionHelp,
                              words::kGradeToneHelp, words::kGradeColourHelp};
  return kWords[int(grade)];
}

screen::Verdict screen_verdict(const App& app) {
  if (!app.check.kept) return {};
  return screen::judge(app.check.kept->answers, app.check.platform, screen_corrected(app));
}

void draw_true_size(App& app) {
  const double known = app.screen.pixels_per_mm;
  app.ui.help(known > 0 ? text(words::kSizeKnown, known) : words::kSizeUnknown);
  if (!app.ui.button("check-size", known > 0 ? words::kMeasureAgain : words::kMeasureScreen, false))
    return;
  app.screen.measuring = true;
  app.screen.outline = 0;
}

void draw_check_result(App& app) {
  Ui& ui = app.ui;
  if (!app.check.kept) return close_check(app);
  const screen::Verdict verdict = screen_verdict(app);
  ui.words(Face::title, grade_words(verdict.grade));
  ui.words(Face::body, grade_help(verdict.grade));
  if (!check_applies(app)) ui.words(Face::bold, words::kScreenOther);
  ui.section(words::kReasonsTitle);
  for (const Reason& each : verdict.reasons)
    ui.words(
        each.allows == verdict.grade && verdict.grade != Grade::colour ? Face::bold : Face::body,
        reason_words(each));
  draw_responses(app);
  ui.section(words::kShownTitle);
  draw_share(app, true);
  ui.section(words::kCorrectionTitle);
  draw_correction(app, true);
  draw_facts(app);
  ui.space(k12);
  draw_true_size(app);
  ui.space(k12);
  if (ui.button("check-anew", words::kScreenAnew, false)) open_check(app, CheckStep::tint);
}

void draw_screen_section(App& app) {
  Ui& ui = app.ui;
  const ScreenCheck& check = app.check;
  ui.words(Face::bold, words::kThisScreen);
  if (!check.kept_trouble.empty()) ui.words(Face::body, check.kept_trouble);
  if (!check.kept) {
    ui.help(words::kScreenUnchecked);
    if (ui.button("screen-check", words::kScreenCheck, false)) open_check(app, CheckStep::tint);
    return;
  }
  ui.words(Face::body, grade_words(screen_verdict(app).grade));
  if (!check.kept->made.empty()) ui.help(text(words::kScreenMade, check.kept->made.c_str()));
  if (!check_applies(app)) {
    ui.help(words::kScreenOther);
  } else {
    draw_share(app, false);
    draw_correction(app, false);
  }
  ui.space(k8);
  if (ui.button("screen-found", words::kScreenFound, false)) open_check(app, CheckStep::result);
  ImGui::SameLine();
  if (ui.button("screen-check", words::kScreenAnew, false)) open_check(app, CheckStep::tint);
  if (ui.word_button("screen-forget", words::kScreenForget)) forget_check(app);
}

}  // namespace proofleaf::shell
