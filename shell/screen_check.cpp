// The check of this screen: kept between visits, and the correction by it.
#include "screen_check.h"

#include <utility>

#include "app.h"
#include "proof/words.h"
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

// To be called whenever another check is kept: making the correction takes a while.
void take_kept(ScreenCheck& check, std::optional<screen::KeptCheck> kept) {
  check.kept = std::move(kept);
  check.kept_trouble.clear();
  check.compensation.reset();
  if (!check.kept) return;
  auto made = screen::Compensation::from(check.kept->answers, check.platform.canvas);
  if (!made) return;
  check.compensation = made.take();
  check.price = screen::price_of(*check.compensation);
}

}  // namespace

void recall_check(App& app) {
  ScreenCheck& check = app.check;
  check.platform.canvas = app.surroundings.display_p3 ? Screen::display_p3 : Screen::srgb;
  const std::string text = app.host.recall(kKey);
  if (text.empty()) return;
  auto kept = screen::check_from_text(text);
  if (kept)
    take_kept(check, kept.take());
  else
    check.kept_trouble = kept.error().message;
}

void forget_check(App& app) {
  take_kept(app.check, std::nullopt);
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
  take_kept(check, screen::KeptCheck{check.answers, check.platform, today_as_date(), false});
  keep(app);
}

bool check_applies(const App& app) {
  return app.check.kept && same_screen(app.check.kept->platform, app.check.platform);
}

bool can_correct(const App& app) { return check_applies(app) && app.check.compensation; }

bool screen_corrected(const App& app) { return can_correct(app) && app.check.kept->correct; }

void set_corrected(App& app, bool on) {
  if (!can_correct(app)) return;
  app.check.kept->correct = on;
  keep(app);
}

Json screen_correction(const App& app) {
  return screen_corrected(app) ? screen::json_of(app.check.kept->answers) : Json();
}

void correct_bytes(const App& app, std::vector<uint8_t>& rgba) {
  if (screen_corrected(app)) screen::compensate(*app.check.compensation, rgba);
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
  if (screen_corrected(app)) {  // for tests: what each code becomes
    json["codes"] = Json::array();
    for (size_t c = 0; c < 3; ++c) {
      Json codes = Json::array();
      for (int code = 0; code < 256; ++code)
        codes.push_back(255 * check.compensation->code(c, code / 255.0));
      json["codes"].push_back(codes);
    }
  }
  return json;
}

}  // namespace proofleaf::shell
