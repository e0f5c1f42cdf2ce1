// The walk that checks this screen: words and answers beside a field to look at.
#include <algorithm>
#include <utility>

#include "app.h"
#include "imgui_internal.h"
#include "words.h"
#include "words_recipe.h"
#include "words_screen.h"

namespace proofleaf::shell {
namespace {

constexpr char kWindow[] = "screen-walk";
constexpr float kColumn = 372, kWidest = 640;  // [CSS px]
constexpr float kFieldPart = 0.42f;            // of a narrow screen's height
constexpr Words kTitles[] = {words::kTintTitle,  words::kRowsTitle,    words::kDarkTitle,
                             words::kLightTitle, words::kRedTitle,     words::kGreenTitle,
                             words::kBlueTitle,  words::kNeutralTitle, words::kTurningTitle,
                             words::kWhiteTitle, words::kResultTitle};

bool is_tone(CheckStep step) { return step >= CheckStep::red && step <= CheckStep::blue; }

// What the channel before was found at, else as the standard has it; then aside from it.
void start_match(ScreenCheck& check) {
  const size_t channel = channel_of(check.step), match = size_t(check.match);
  const int before = channel > 0 ? check.answers.tone[channel - 1][match] : 0;
  const int expected = before > 0 ? before : screen::standard_code(screen::kTonePlan[match].light);
  const int off = screen::kStartOff[match] * (channel == 1 ? -1 : 1);
  check.solid = std::clamp(expected + off, 1, 254);
}

void begin_step(App& app, CheckStep step) {
  ScreenCheck& check = app.check;
  check.step = step;
  check.match = 0;
  check.to_top = true;
  if (step == CheckStep::neutral) check.moved = check.answers.neutral.value_or(screen::Neutral{});
  if (is_tone(step)) start_match(check);
  if (step == CheckStep::result) finish_check(app);
  tell(app, kTitles[int(step)]);
}

void go_on(App& app) {
  app.check.trouble.clear();
  begin_step(app, CheckStep(int(app.check.step) + 1));
}

void go_back(App& app) {
  ScreenCheck& check = app.check;
  check.trouble.clear();
  if (is_tone(check.step) && check.match > 0) {
    --check.match;
    return start_match(check);
  }
  begin_step(app, CheckStep(int(check.step) - 1));
}

void leave_out(App& app) {
  ScreenCheck& check = app.check;
  if (is_tone(check.step)) check.answers.tone[channel_of(check.step)] = {};
  if (check.step == CheckStep::neutral) check.answers.neutral.reset();
  go_on(app);
}

// The square is alike: to the next comparison, or, where all contradict each other, to the first.
void take_match(App& app) {
  ScreenCheck& check = app.check;
  screen::ToneAnswers& answers = check.answers.tone[channel_of(check.step)];
  answers[size_t(check.match)] = check.solid;
  check.trouble.clear();
  if (++check.match < int(screen::kToneSteps)) return start_match(check);
  const auto response = screen::Response::from(answers);
  if (response) return go_on(app);
  check.trouble = response.error().message;
  answers = {};
  check.match = 0;
  start_match(check);
  tell(app, check.trouble);
}

template <class T>
void answer(App& app, const char* id, const Words& label, const Words& help, T& slot, T value) {
  if (!app.ui.choice(id, label, help, slot == value)) return;
  slot = value;
  go_on(app);
}

void draw_tint(App& app) {
  screen::Answers& a = app.check.answers;
  app.ui.words(Face::body, words::kTintWords);
  app.ui.space(k12);
  answer(app, "tint-off", words::kTintOff, words::kTintOffHelp, a.tint, screen::Tint::off);
  answer(app, "tint-on", words::kTintOn, words::kTintOnHelp, a.tint, screen::Tint::on);
  answer(app, "tint-unsure", words::kTintUnsure, "", a.tint, screen::Tint::unsure);
}

void draw_rows(App& app) {
  screen::Answers& a = app.check.answers;
  app.ui.words(Face::body, words::kRowsWords);
  app.ui.space(k12);
  answer(app, "rows-even", words::kRowsEven, words::kRowsEvenHelp, a.rows, screen::Rows::even);
  answer(app, "rows-uneven", words::kRowsUneven, words::kRowsUnevenHelp, a.rows,
         screen::Rows::uneven);
}

// Numbers of the squares, four to a line, and none of them.
void draw_steps(App& app, bool dark) {
  Ui& ui = app.ui;
  const screen::Answers& a = app.check.answers;
  ui.words(Face::body, dark ? words::kDarkWords : words::kLightWords);
  ui.space(k12);
  const float wide = (ui.width() - 3 * k8) / 4;
  int pressed = -1;
  for (int i = 0; i < 8; ++i) {
    if (i % 4 != 0) ImGui::SameLine(0, k8);
    const bool chosen = dark ? a.first_dark == screen::kDarkSteps[size_t(i)]
                             : a.last_light == screen::kLightSteps[size_t(i)];
    if (ui.button(text("step-%d", i + 1), std::to_string(i + 1), chosen, wide)) pressed = i;
  }
  const bool none =
      dark ? a.first_dark == screen::kNoDarkStep : a.last_light == screen::kNoLightStep;
  if (ui.button("step-none", words::kNoneSeen, none)) pressed = 8;
  if (pressed >= 0) answer_step(app, pressed);
}

void draw_tone(App& app) {
  Ui& ui = app.ui;
  ScreenCheck& check = app.check;
  ui.words(Face::bold, text(words::kToneMatch, check.match + 1, int(screen::kToneSteps)));
  if (!check.trouble.empty()) ui.words(Face::bold, check.trouble);
  ui.words(Face::body, words::kToneWords);
  ui.space(k12);
  const float wide = (ui.width() - k8) / 2;
  if (ui.button("tone-darker", words::kToneDarker, false, wide)) --check.solid;
  ImGui::SameLine(0, k8);
  if (ui.button("tone-lighter", words::kToneLighter, false, wide)) ++check.solid;
  check.solid = std::clamp(check.solid, 1, 254);
  ui.number("tone-code", words::kToneCode, app.look.touch() ? "" : words::kToneKeys, &check.solid,
            1, 254, check.solid);
  if (ui.button("tone-alike", words::kToneAlike, true)) take_match(app);
}

void draw_neutral(App& app) {
  Ui& ui = app.ui;
  ScreenCheck& check = app.check;
  ui.words(Face::body, words::kNeutralWords);
  ui.space(k12);
  ui.amount("neutral-b", words::kWarmth, "", &check.moved.b, -screen::kMostB, screen::kMostB, 0);
  ui.amount("neutral-a", words::kPinkness, "", &check.moved.a, -screen::kMostA, screen::kMostA, 0);
  if (!app.look.touch()) ui.help(words::kNeutralKeys);
  if (!ui.button("neutral-alike", words::kNeutralAlike, true)) return;
  check.answers.neutral = check.moved;
  go_on(app);
}

void draw_turning(App& app) {
  Ui& ui = app.ui;
  screen::Answers& a = app.check.answers;
  ui.words(Face::body, words::kTurningWords);
  ui.space(k12);
  answer(app, "turning-steady", words::kTurningSteady, "", a.turning, screen::Turning::steady);
  answer(app, "turning-little", words::kTurningLittle, "", a.turning, screen::Turning::a_little);
  answer(app, "turning-much", words::kTurningMuch, "", a.turning, screen::Turning::much);
  ui.space(k12);
  draw_true_size(app);
}

void draw_white(App& app) {
  screen::Answers& a = app.check.answers;
  app.ui.words(Face::body, words::kWhiteWords);
  app.ui.space(k12);
  answer(app, "white-darker", words::kWhiteDarker, words::kWhiteDarkerHelp, a.white,
         screen::White::darker);
  answer(app, "white-alike", words::kWhiteAlike, "", a.white, screen::White::alike);
  answer(app, "white-lighter", words::kWhiteLighter, words::kWhiteLighterHelp, a.white,
         screen::White::lighter);
  app.ui.space(k12);
  app.ui.help(text(words::kWhiteValues, screen::kAppraisalLux, screen::kComparisonLux,
                   screen::luminance_of_sheet(screen::kAppraisalLux),
                   screen::luminance_of_sheet(screen::kComparisonLux), screen::kLeastWhite,
                   screen::kBetterWhite, screen::kRoomLux, screen::kRoomLuxBetter));
}

void draw_step(App& app) {
  switch (app.check.step) {
    case CheckStep::tint:
      return draw_tint(app);
    case CheckStep::rows:
      return draw_rows(app);
    case CheckStep::dark:
    case CheckStep::light:
      return draw_steps(app, app.check.step == CheckStep::dark);
    case CheckStep::red:
    case CheckStep::green:
    case CheckStep::blue:
      return draw_tone(app);
    case CheckStep::neutral:
      return draw_neutral(app);
    case CheckStep::turning:
      return draw_turning(app);
    case CheckStep::white:
      return draw_white(app);
    case CheckStep::result:
      return draw_check_result(app);
  }
}

// The way on without an answer, and back.
void draw_way_buttons(App& app) {
  const CheckStep step = app.check.step;
  if (step == CheckStep::result) return;
  app.ui.space(k12);
  if (step != CheckStep::tint) {
    const bool back = app.ui.word_button("check-before", words::kCheckBack);
    ImGui::SameLine(0, k8);
    if (back) return go_back(app);
  }
  if (app.ui.word_button("check-skip", words::kCheckSkip)) leave_out(app);
}

void place(App& app) {
  const Layout& l = app.layout;
  ScreenCheck& check = app.check;
  const float split = std::round(l.height * kFieldPart);
  if (check.step == CheckStep::result) {
    check.words = {0, 0, l.width, l.height};
    check.field = {};
  } else if (l.narrow) {
    check.field = {0, 0, l.width, split};
    check.words = {0, split, l.width, l.height - split};
  } else {
    check.words = {0, 0, kColumn, l.height};
    check.field = {kColumn, 0, l.width - kColumn, l.height};
  }
}

// Title, how far along, and the way out.
float draw_head(App& app, float left, float wide) {
  const ScreenCheck& check = app.check;
  const float target = app.look.target(), top = check.words.y + k12;
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float line = top + (target - app.look.size(Face::title)) / 2;
  const float after = app.look.measure(Face::title, kTitles[int(check.step)]).x + k12;
  app.look.put(list, Face::title, {left, line}, grey::kInk, kTitles[int(check.step)]);
  if (check.step != CheckStep::result)
    app.look.put(list, Face::small,
                 {left + after, line + app.look.size(Face::title) - app.look.size(Face::small)},
                 grey::kFaintInk, text(words::kCheckOf, int(check.step) + 1, kCheckSteps));
  const float button =
      std::max(target, app.look.measure(Face::small, words::kCheckClose).x + 2 * k8);
  ImGui::SetCursorScreenPos({left + wide - button, top});
  if (app.ui.word_button("check-close", words::kCheckClose)) close_check(app);
  return target + k12 + k8;
}

void scroll_words(App& app) {
  Gestures& g = app.gestures;
  if (std::exchange(app.check.to_top, false)) {
    ImGui::SetScrollY(0);
    g.scroll = g.glide = 0;
  }
  if (std::abs(g.scroll) < 1) return;
  ImGui::SetScrollY(ImGui::GetScrollY() - g.scroll);
  g.scroll = 0;
}

void draw_words(App& app) {
  const Rect& rect = app.check.words;
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddRectFilled(rect.min(), rect.max(), grey::kSheet);
  const float wide = std::min(rect.w - 2 * k16, kWidest), left = rect.x + (rect.w - wide) / 2;
  const float head = draw_head(app, left, wide);
  ImGui::SetCursorScreenPos({left, rect.y + head});
  ImGui::BeginChild("check-box", {wide, rect.h - head}, ImGuiChildFlags_None,
                    ImGuiWindowFlags_NavFlattened);
  scroll_words(app);
  draw_step(app);
  draw_way_buttons(app);
  app.ui.space(k24);
  ImGui::EndChild();
}

bool keyboard_in_use() { return !ImGui::GetCurrentContext()->NavDisableHighlight; }

}  // namespace

void close_check(App& app) {
  app.check.open = false;
  app.gestures.scroll = app.gestures.glide = 0;
  if (keyboard_in_use()) app.gestures.focus_wanted = "sheet";
}

void answer_step(App& app, int place) {
  screen::Answers& a = app.check.answers;
  if (app.check.step == CheckStep::dark)
    a.first_dark = place < 8 ? screen::kDarkSteps[size_t(place)] : screen::kNoDarkStep;
  else
    a.last_light = place < 8 ? screen::kLightSteps[size_t(place)] : screen::kNoLightStep;
  go_on(app);
}

bool check_key(App& app, const std::string& key, int modifiers) {
  ScreenCheck& check = app.check;
  if (!check.open || app.screen.measuring) return false;
  const int dx = key == "ArrowLeft" ? -1 : key == "ArrowRight" ? 1 : 0;
  const int dy = key == "PageUp" ? 1 : key == "PageDown" ? -1 : 0;
  const int far = (modifiers & 1) != 0 ? 8 : 1;
  if (is_tone(check.step) && dx != 0) {
    check.solid = std::clamp(check.solid + dx * far, 1, 254);
    tell(app, text(words::kToneSpoken, check.solid));
    return true;
  }
  if (check.step == CheckStep::neutral && (dx != 0 || dy != 0)) {
    check.moved.b = std::clamp(check.moved.b + dx * far, -screen::kMostB, screen::kMostB);
    check.moved.a = std::clamp(check.moved.a + dy * far, -screen::kMostA, screen::kMostA);
    tell(app, text(words::kNeutralSpoken, check.moved.a, check.moved.b));
    return true;
  }
  return false;
}

void draw_check(App& app) {
  ScreenCheck& check = app.check;
  if (!check.open) return;
  place(app);
  lay_field(app);
  const Layout& l = app.layout;
  app.layout.blockers.push_back({0, 0, l.width, l.height});
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({l.width, l.height});
  if (check.opened) ImGui::SetNextWindowFocus();
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(0, 0));
  ImGui::Begin(kWindow, nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoScrollWithMouse);
  ImGui::PopStyleVar();
  if (std::exchange(check.opened, false) && keyboard_in_use()) app.gestures.focus_wanted = kWindow;
  draw_field(app);
  draw_words(app);
  ImGui::End();
}

}  // namespace proofleaf::shell
