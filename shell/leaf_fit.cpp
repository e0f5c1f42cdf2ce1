// Leaf 4: corrections that bring the print on this paper back towards the master.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "recipe_panel.h"
#include "words.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

constexpr std::array<double, 3> kKnots{25, 50, 75};  // of the tone curve on the panel [L*]

bool fitted(const Recipe& recipe) {
  return !(recipe.correction == Correction{}) || recipe.monochrome.on;
}

void effect_row(App& app, const Words& name, double before, double after, const char* format) {
  const float wide = app.ui.width(), column = 62;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImDrawList* list = ImGui::GetWindowDrawList();
  const auto put_right = [&](double value, float right, Face face) {
    const std::string said = text(format, value);
    const ImVec2 size = app.look.measure(face, said);
    app.look.put(list, face, {right - size.x, at.y}, grey::kInk, said);
  };
  app.look.put(list, Face::small, at, grey::kFaintInk, name, wide - 2 * column);
  put_right(before, at.x + wide - column, Face::small);
  put_right(after, at.x + wide, Face::small);
  ImGui::Dummy({wide, app.look.size(Face::small) + 4});
}

void draw_effect(App& app) {
  const Effect& effect = app.recipe.effect;
  app.ui.section(words::kEffect);
  if (!effect.trouble.empty()) return app.ui.words(Face::body, effect.trouble);
  app.ui.help(words::kEffectColumns);
  const Variant &b = effect.before, &a = effect.after;
  effect_row(app, words::kEffectScore, b.score, a.score, "%.1f");
  effect_row(app, words::kEffectMean, b.mean, a.mean, "%.1f");
  constexpr Words kZoneNames[] = {words::kEffectTone, words::kEffectMid, words::kEffectLight};
  for (size_t zone = 0; zone < kZones; ++zone)
    effect_row(app, kZoneNames[zone], 100 * b.tone[zone].share, 100 * a.tone[zone].share,
               "%.0f %%");
  if (b.hue && a.hue) effect_row(app, words::kEffectHue, b.hue->mean, a.hue->mean, "%.1f");
  for (const std::string& sentence : effect.worse) app.ui.help(sentence);
}

void draw_effect_or_none(App& app) {
  if (!app.recipe.effect.key.empty() && changes_colours(app.recipe.now)) return draw_effect(app);
  const Tried* tried = tried_on(app, app.job.chosen_paper()->file);
  if (!tried || !tried->trouble.empty() || changes_colours(app.recipe.now)) return;
  const auto& variants = tried->judged.variants;
  const auto used = std::find_if(variants.begin(), variants.end(), [&](const Variant& variant) {
    return variant.print == app.job.print;
  });
  const Variant& shown = used == variants.end() ? tried->judged.best() : *used;
  app.ui.words(Face::body, text(words::kEffectNone, 100 * shown.tone[0].share,
                                100 * shown.tone[1].share, 100 * shown.tone[2].share));
}

void draw_fit_button(App& app) {
  Ui& ui = app.ui;
  if (const Task* task = find_task(app, TaskKind::fit)) {
    ui.words(Face::body, text("%s, %.0f %%", task->words.c_str(), task->share * 100));
    ui.bar(float(task->share), ui.width());
    const int work = task->work;
    if (ui.button("stop-fit", words::kStop, false)) stop_task(app, work);
    return;
  }
  if (app.choice.facts_file == 0) {
    ui.help(words::kFitWaits);
  } else if (ui.button("fit", words::kFitForMe, true, ui.width())) {
    start_fit(app);
  }
  ui.help(words::kFitHelp);
  if (!app.recipe.fit_words.empty()) ui.words(Face::body, app.recipe.fit_words);
}

void draw_steps(App& app) {
  Ui& ui = app.ui;
  if (ui.word_button("step-back", words::kStepBack)) step_back(app);
  ImGui::SameLine();
  if (ui.word_button("step-forward", words::kStepForward)) step_forward(app);
  ImGui::SameLine();
  if (ui.word_button("keep-recipe", words::kKeepRecipe)) save_recipe(app);
  if (!fitted(app.recipe.now)) return;
  ui.toggle("set-aside", words::kSetAside, words::kSetAsideHelp, &app.recipe.set_aside);
  if (ui.button("all-back", words::kAllBack, false)) {
    app.recipe.now.correction = {};
    app.recipe.now.monochrome = {};
    app.recipe.fit_words.clear();
    app.recipe.set_aside = false;
  }
}

double knot_value(const Correction& correction, double knot) {
  for (const TonePoint& point : correction.curve)
    if (point.in == knot) return point.out;
  return knot;
}

void set_knot(Correction& correction, double knot, double out) {
  std::erase_if(correction.curve, [&](const TonePoint& point) { return point.in == knot; });
  if (out != knot) correction.curve.push_back({knot, out});
  std::sort(correction.curve.begin(), correction.curve.end(),
            [](const TonePoint& a, const TonePoint& b) { return a.in < b.in; });
}

void draw_tones(App& app) {
  Ui& ui = app.ui;
  Correction& c = app.recipe.now.correction;
  ui.section(words::kTones);
  ui.amount("fit-dark", words::kDark, words::kDarkHelp, &c.shadows, -7, 7, 0);
  ui.amount("fit-light", words::kLight, words::kLightHelp, &c.highlights, -7, 7, 0);
  ui.amount("fit-contrast", words::kContrast, words::kContrastHelp, &c.contrast, -100, 100, 0);
  ui.amount("fit-local", words::kLocalContrast, words::kLocalContrastHelp, &c.local_contrast, -100,
            100, 0);
  ui.section(words::kCurve);
  double low = 0;
  for (const double knot : kKnots) {
    double out = knot_value(c, knot);
    const double most = knot + 15 < 100 ? knot + 15 : 100;
    ui.amount(text("fit-curve-%.0f", knot), text(words::kCurvePoint, knot), words::kCurveHelp, &out,
              std::max(low, knot - 15), most, knot);
    low = out;
    set_knot(c, knot, out);
  }
}

void choose_hue(App& app, const char* id) {
  Ui& ui = app.ui;
  int& hue = app.recipe.hue;
  const int first =
      ui.options(text("%s-a", id), words::kHueBand,
                 {words::kRed, words::kOrange, words::kYellow, words::kGreen}, hue < 4 ? hue : -1);
  if (first >= 0 && (hue >= 4 || first != hue)) hue = first;
  const int second = ui.options(text("%s-b", id), words::kHueBand,
                                {words::kCyan, words::kBlue, words::kViolet, words::kMagenta},
                                hue >= 4 ? hue - 4 : -1);
  if (second >= 0 && (hue < 4 || second != hue - 4)) hue = second + 4;
}

void draw_colours(App& app) {
  Ui& ui = app.ui;
  Correction& c = app.recipe.now.correction;
  ui.section(words::kColours);
  ui.amount("fit-saturation", words::kSaturationAll, words::kSaturationAllHelp, &c.saturation, -100,
            100, 0);
  choose_hue(app, "hue");
  const Words name = kHueBandNames[size_t(app.recipe.hue)].name;
  HueBand& band = c.bands[size_t(app.recipe.hue)];
  ui.amount("hue-chroma", text(words::kHueChroma, name), words::kHueChromaHelp, &band.chroma, -100,
            100, 0);
  ui.amount("hue-turn", text(words::kHueTurn, name), words::kHueTurnHelp, &band.turn, -10, 10, 0);
}

void draw_neutrals(App& app) {
  Ui& ui = app.ui;
  ui.section(words::kNeutrals);
  app.recipe.tone = ui.options("neutral-tone", words::kNeutrals,
                               {words::kNeutralDark, words::kNeutralMiddle, words::kNeutralLight},
                               app.recipe.tone);
  NeutralShift& shift = app.recipe.now.correction.neutral[size_t(app.recipe.tone)];
  ui.amount("neutral-a", words::kNeutralA, words::kNeutralHelp, &shift.a, -10, 10, 0);
  ui.amount("neutral-b", words::kNeutralB, words::kNeutralHelp, &shift.b, -10, 10, 0);
}

void draw_toning(App& app, const char* id, const Words& title, Toning& toning) {
  Ui& ui = app.ui;
  ui.words(Face::bold, title);
  ui.amount(text("%s-hue", id), words::kToneHue, words::kToneHueHelp, &toning.hue, 0, 360, 0);
  ui.amount(text("%s-chroma", id), words::kToneChroma, words::kToneChromaHelp, &toning.chroma, 0,
            30, 0);
}

}  // namespace

void draw_monochrome(App& app) {
  Ui& ui = app.ui;
  Monochrome& m = app.recipe.now.monochrome;
  const Monochrome usual;
  ui.space(k16);
  ui.toggle("monochrome", words::kMonochrome, words::kMonochromeHelp, &m.on);
  if (!m.on) return;
  constexpr Words kShares[] = {words::kMixRed, words::kMixGreen, words::kMixBlue};
  for (size_t i = 0; i < 3; ++i)
    ui.amount(text("mix-%zu", i), kShares[i], words::kMixHelp, &m.weights[i], 0, 1,
              usual.weights[i]);
  choose_hue(app, "mono-hue");
  ui.amount("mono-band",
            text(words::kBandLightness, Words(kHueBandNames[size_t(app.recipe.hue)].name)),
            words::kBandLightnessHelp, &m.bands[size_t(app.recipe.hue)], -30, 30, 0);
  draw_toning(app, "tint-dark", words::kToneDark, m.shadows);
  draw_toning(app, "tint-light", words::kToneLight, m.highlights);
  ui.amount("tint-balance", words::kToneBalance, words::kToneBalanceHelp, &m.balance, -100, 100, 0);
}

void draw_fit_leaf(App& app) {
  if (app.job.master.file == 0 || !app.job.chosen_paper())
    return app.ui.words(Face::body, words::kFitNeeds);
  draw_fit_button(app);
  draw_steps(app);
  draw_effect_or_none(app);
  draw_tones(app);
  draw_colours(app);
  draw_neutrals(app);
  draw_monochrome(app);
}

std::string fit_summary(const App& app) {
  const Recipe& recipe = app.recipe.now;
  if (!fitted(recipe)) return words::kFitNothing;
  std::string said = recipe.correction == Correction{} ? "" : words::kCorrected;
  if (recipe.monochrome.on) said += (said.empty() ? "" : ", ") + words::kInMonochrome;
  if (app.recipe.set_aside) said += ", " + words::kAside;
  return said;
}

}  // namespace proofleaf::shell
