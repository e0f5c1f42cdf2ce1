// The check of this screen: kept between visits, and the correction by it.
#include "screen_check.h"

#include "app.h"
#include "job/words.h"
#include "words_screen.h"

namespace proofleaf::shell {
namespace {

constexpr char kKey[] = "screen check";

void keep(App& app) {
  const ScreenCheck& check = app.check;
  app.host.remember(kKey, check.kept ? screen::check_to_text(*check.kept) : "");
}

// The same screen may be turned; the page's zoom changes nothing that was found.
bool same_screen(const screen::Platform& one, const screen::Platform& other) {
  const bool upright = one.width == other.width && one.height == other.height;
  const bool turned = one.width == other.height && one.height == other.width;
  return one.gamut == other.gamut && one.canvas == other.canvas && one.inverted == other.inverted &&
         (upright || turned);
}

std::optional<screen::Compensation> compensation_of(const App& app) {
  if (!screen_corrected(app)) return std::nullopt;
  auto made = screen::Compensation::from(app.check.kept->answers, app.check.platform.canvas);
  if (!made) return std::nullopt;
  return made.take();
}

}  // namespace

void recall_check(App& app) {
  ScreenCheck& check = app.check;
  check.platform.canvas = app.surroundings.display_p3 ? Screen::display_p3 : Screen::srgb;
  const std::string text = app.host.recall(kKey);
  if (text.empty()) return;
  auto kept = screen::check_from_text(text);
  if (kept)
    check.kept = kept.take();
  else
    check.kept_trouble = kept.error().message;
}

void forget_check(App& app) {
  app.check.kept.reset();
  app.check.kept_trouble.clear();
  keep(app);
  tell(app, words::kScreenForgotten);
}

void take_platform(App& app, const std::string& json) {
  const Screen canvas = app.check.platform.canvas;
  app.check.platform = screen::platform_from_json(parse_json(json));
  app.check.platform.canvas = canvas;  // the one the cubes are made for
}

void open_check(App& app, CheckStep step) {
  ScreenCheck& check = app.check;
  check.open = check.opened = check.to_top = true;
  check.step = step;
  check.answers = check.kept && step == CheckStep::result ? check.kept->answers : screen::Answers{};
  check.match = 0;
  check.moved = {};
  check.trouble.clear();
  app.gestures.picture_focus = false;
}

void finish_check(App& app) {
  ScreenCheck& check = app.check;
  check.kept = screen::KeptCheck{check.answers, check.platform, today_as_date(), false};
  check.kept_trouble.clear();
  keep(app);
}

bool check_applies(const App& app) {
  return app.check.kept && same_screen(app.check.kept->platform, app.check.platform);
}

bool can_correct(const App& app) {
  return check_applies(app) && screen::responses_of(app.check.kept->answers).ok();
}

bool screen_corrected(const App& app) {
  return app.check.kept && app.check.kept->correct && can_correct(app);
}

void set_corrected(App& app, bool on) {
  if (!app.check.kept || !can_correct(app)) return;
  app.check.kept->correct = on;
  keep(app);
}

Json screen_correction(const App& app) {
  return screen_corrected(app) ? screen::json_of(app.check.kept->answers) : Json();
}

void correct_bytes(const App& app, std::vector<uint8_t>& rgba) {
  if (const auto compensation = compensation_of(app)) screen::compensate(*compensation, rgba);
}

Json check_json(const App& app) {
  const ScreenCheck& check = app.check;
  Json json{
      {"open", check.open},
      {"step", int(check.step)},
      {"match", check.match},
      {"solid", check.solid},
      {"moved", {check.moved.a, check.moved.b}},
      {"answers", screen::json_of(check.open || !check.kept ? check.answers : check.kept->answers)},
      {"trouble", check.trouble},
      {"kept", bool(check.kept)},
      {"kept_trouble", check.kept_trouble},
      {"applies", check_applies(app)},
      {"corrected", screen_corrected(app)},
      {"platform", screen::json_of(check.platform)},
      {"grade", int(screen_verdict(app).grade)}};
  const auto responses =
      check.kept ? screen::responses_of(check.kept->answers) : Error{std::string()};
  json["exponents"] = Json::array();
  if (responses)
    for (const screen::Response& each : responses.value())
      json["exponents"].push_back({each.exponent(), each.uncertainty()});
  if (check.share)
    json["share"] = {{"any", check.share->any},
                     {"beyond", check.share->beyond},
                     {"dark", check.share->dark},
                     {"light", check.share->light}};
  if (const auto compensation = compensation_of(app)) {  // for tests: what each code becomes
    json["codes"] = Json::array();
    for (size_t c = 0; c < 3; ++c) {
      Json codes = Json::array();
      for (int code = 0; code < 256; ++code)
        codes.push_back(255 * compensation->code(c, code / 255.0));
      json["codes"].push_back(codes);
    }
  }
  return json;
}

}  // namespace proofleaf::shell
