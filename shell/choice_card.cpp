// The chosen paper's card: its numbers, and charts of tone, greys and gamut.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "chart.h"
#include "choice_rows.h"
#include "json_read.h"
#include "words.h"
#include "words_choice.h"

namespace proofleaf::shell {
namespace {

constexpr float kChartHigh = 320;
constexpr float kTwoColumnsFrom = 760;

Lab lab_in(const Json& json, const char* name) {
  const Json* value = member(json, name);
  if (!value || !value->is_array() || value->size() != 3) return {};
  const auto at = [&](size_t i) { return (*value)[i].is_number() ? (*value)[i].get<double>() : 0; };
  return {at(0), at(1), at(2)};
}

const Json& part(const Json& json, const char* name) {
  static const Json kNothing = Json::object();
  const Json* found = member(json, name);
  return found ? *found : kNothing;
}

std::string lab_words(const Lab& lab) {
  return text(words::kNumLab, lab.l, signed_number(lab.a).c_str(), signed_number(lab.b).c_str());
}

std::string ramp_words(const Json& ramp) {
  const uint32_t back = count_of(ramp, "reversals"), jumps = count_of(ramp, "jumps");
  const std::string turns =
      back == 0 ? std::string(words::kRampNoReversal)
                : text(words::kRampReversals, back, number_of(ramp, "largest_reversal"));
  const std::string leaps =
      jumps == 0 ? std::string(words::kRampNoJump) : text(words::kRampJumps, jumps);
  return text(words::kNumRampValue, count_of(ramp, "steps"), turns.c_str(), leaps.c_str(),
              number_of(ramp, "largest_step"));
}

std::string table_words(const Json& json) {
  constexpr Words kNames[] = {words::kPerceptual, words::kRelative, words::kSaturation};
  std::string names;
  const Json& own = part(json, "own_table");
  for (size_t i = 0; i < 3 && i < own.size(); ++i)
    if (own[i].is_boolean() && own[i].get<bool>())
      names += (names.empty() ? "" : ", ") + lower_first(kNames[i]);
  return names.empty() ? words::kSliceNothing : names;
}

struct Number {
  Words name;
  std::string value;
};

// A space to keep pictures in is no print: its black has no density.
void put_density(const Json& json, std::vector<Number>& all) {
  if (flag_of(json, "working_space")) return;
  all.push_back({words::kNumDensity,
                 text(words::kNumDensityValue, number_of(json, "white_density"),
                      number_of(json, "black_density"), number_of(json, "density_range"))});
  all.push_back(
      {words::kNumContrast, text(words::kNumContrastValue, number_of(json, "contrast_ratio"))});
}

std::vector<Number> card_numbers(const Json& json) {
  const Json &cast = part(json, "neutral_cast"), &round = part(json, "round_trip");
  const std::string model = said(text_of(json, "model").c_str());
  std::vector<Number> all = {
      {words::kNumModel,
       flag_of(json, "working_space") ? text(words::kNumModelSpace, model.c_str()) : model},
      {words::kNumWhite, lab_words(lab_in(json, "white"))},
      {words::kNumBlack, lab_words(lab_in(json, "black"))}};
  put_density(json, all);
  const Number rest[] = {
      {words::kNumVolume, text(words::kNumVolumeValue, number_of(json, "gamut_volume") / 1000)},
      {words::kNumCast,
       text(words::kNumCastValue, number_of(cast, "largest"), number_of(cast, "at_lightness"),
            signed_number(number_of(cast, "a")).c_str(),
            signed_number(number_of(cast, "b")).c_str())},
      {words::kNumPrinted, ramp_words(part(json, "printed_ramp"))},
      {words::kNumDevice, ramp_words(part(json, "device_ramp"))},
      {words::kNumRound,
       text(words::kNumRoundValue, number_of(round, "mean"), number_of(round, "p95"),
            number_of(round, "max"), count_of(round, "colours"))},
      {words::kNumTables, table_words(json)}};
  all.insert(all.end(), std::begin(rest), std::end(rest));
  if (const double ink = number_of(json, "ink_limit"); ink > 0)
    all.push_back({words::kNumInk, text(words::kNumInkValue, ink)});
  return all;
}

// Name and value, side by side where there is room, else below each other.
void number_line(App& app, const Number& number, float wide) {
  const bool beside = wide >= 440;
  const float column = beside ? 210.f : 0.f, wrap = wide - column;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float name_high = app.look.measure(Face::small, number.name, beside ? column : wide).y;
  const float value_high = app.look.measure(Face::body, number.value, wrap).y;
  ImDrawList* list = ImGui::GetWindowDrawList();
  app.look.put(list, Face::small, at, grey::kFaintInk, number.name, beside ? column - k8 : wide);
  app.look.put(list, Face::body, {at.x + column, at.y + (beside ? -1 : name_high)}, grey::kInk,
               number.value, wrap);
  ImGui::Dummy({wide, beside ? std::max(name_high, value_high) : name_high + value_high});
}

void draw_faults(App& app, const Json& json) {
  const auto faults = texts_of(json, "faults");
  app.ui.words(Face::bold, faults.empty() ? words::kNoFaults : words::kFaults);
  for (const std::string& fault : faults) app.ui.words(Face::body, fault);
  for (const std::string& note : texts_of(json, "notes")) app.ui.help(note);
}

void draw_numbers(App& app, const Json& json, float wide) {
  app.ui.words(Face::bold, words::kNumbers);
  app.choice.card_lines.clear();
  for (const Number& number : card_numbers(json)) {
    number_line(app, number, wide);
    app.choice.card_lines.push_back(std::string(number.name) + ": " + number.value);
  }
}

// What the ranking found of the chosen paper, in sentences.
void draw_trial(App& app, const PaperState& paper) {
  const Tried* tried = tried_on(app, paper.file);
  if (!tried || !tried->trouble.empty()) return;
  const Judged& judged = tried->judged;
  app.ui.section(words::kOnThisPicture);
  app.ui.words(Face::body, judged.sentence);
  app.ui.words(Face::body, judged.verdict_sentence);
  for (const std::string& line : card_lines(judged)) app.ui.help(line);
  app.ui.help(losses_words(judged.best().losses));
}

size_t nearest(const GreyCurve& curve, double lightness) {
  size_t best = 0;
  for (size_t i = 0; i < curve.master.size(); ++i)
    if (std::fabs(curve.master[i] - lightness) < std::fabs(curve.master[best] - lightness))
      best = i;
  return best;
}

void draw_tone(App& app, const GreyCurve& curve, float wide) {
  ChartLine line;
  for (size_t i = 0; i < curve.master.size(); ++i)
    line.points.push_back({curve.master[i], curve.printed[i].l});
  Chart chart;
  chart.id = "chart-tone";
  chart.title = words::kChartTone;
  chart.x = {0, 100, 20, words::kChartToneX};
  chart.y = {0, 100, 20, words::kChartToneY};
  chart.lines = {{{{0, 0}, {100, 100}}, false, true, false}, line};
  chart.last = 100;
  chart.step = 2;
  chart.read = [&](double value) {
    const size_t i = nearest(curve, value);
    return text(words::kChartToneRead, curve.master[i], curve.printed[i].l);
  };
  chart.mark = [&](double value) {
    const size_t i = nearest(curve, value);
    return ChartLine{
        {{curve.master[i], 0}, {curve.master[i], curve.printed[i].l}, {0, curve.printed[i].l}},
        true,
        true,
        false};
  };
  draw_chart(app, chart, wide, kChartHigh);
  app.ui.help(words::kChartToneHelp);
}

void draw_greys(App& app, const GreyCurve& curve, float wide) {
  ChartLine a, b;
  b.broken = true;
  double most = 3;
  for (size_t i = 0; i < curve.master.size(); ++i) {
    const Lab& printed = curve.printed[i];
    a.points.push_back({curve.master[i], printed.a});
    b.points.push_back({curve.master[i], printed.b});
    most = std::max({most, std::fabs(printed.a), std::fabs(printed.b)});
  }
  most = std::ceil(most);
  Chart chart;
  chart.id = "chart-greys";
  chart.title = words::kChartGrey;
  chart.x = {0, 100, 20, words::kChartToneX};
  chart.y = {-most, most, even_step(2 * most, 6), words::kChartGreyY};
  chart.lines = {{{{0, 0}, {100, 0}}, false, true, false}, a, b};
  chart.last = 100;
  chart.step = 2;
  chart.read = [&](double value) {
    const size_t i = nearest(curve, value);
    return text(words::kChartGreyRead, curve.master[i], signed_number(curve.printed[i].a).c_str(),
                signed_number(curve.printed[i].b).c_str());
  };
  chart.mark = [&](double value) {
    const double x = curve.master[nearest(curve, value)];
    return ChartLine{{{x, -most}, {x, most}}, true, true, false};
  };
  draw_chart(app, chart, wide, kChartHigh);
  app.ui.help(words::kChartGreyHelp);
}

template <class Left, class Right>
void side_by_side(App& app, Left left, Right right) {
  const float wide = app.ui.width();
  const bool two = wide >= kTwoColumnsFrom;
  const float each = two ? (wide - k24) / 2 : wide;
  app.ui.room = each;
  ImGui::BeginGroup();
  left(each);
  ImGui::EndGroup();
  if (two)
    ImGui::SameLine(0, k24);
  else
    app.ui.space(k16);
  ImGui::BeginGroup();
  right(each);
  ImGui::EndGroup();
  app.ui.room = 0;
  app.ui.space(k24);
}

void draw_charts(App& app, Card& card) {
  const GreyCurve* curve = grey_curve(app);
  if (curve)
    side_by_side(
        app, [&](float wide) { draw_tone(app, *curve, wide); },
        [&](float wide) { draw_greys(app, *curve, wide); });
  else
    app.ui.help(words::kChartNeedMaster);
  side_by_side(
      app, [&](float wide) { draw_slice(app, card, wide); },
      [&](float wide) { draw_solid(app, card, wide); });
}

void draw_waiting(App& app) {
  for (const Task& task : app.tasks)
    if (task.kind == TaskKind::card)
      return app.ui.help(text(words::kCardReading, task.share * 100));
  app.ui.help(words::kCardWaits);
}

}  // namespace

void draw_card_page(App& app) {
  const PaperState* paper = app.job.chosen_paper();
  if (!paper) return app.ui.words(Face::body, words::kNoCardPaper);
  app.ui.words(Face::title, paper->name);
  Card* card = card_for(app, card_key(*paper));
  if (!card) return draw_waiting(app);
  if (!card->trouble.empty()) return app.ui.words(Face::body, card->trouble);
  draw_faults(app, card->numbers);
  app.ui.space(k12);
  draw_numbers(app, card->numbers, std::min(app.ui.width(), 640.f));
  app.ui.space(k16);
  draw_charts(app, *card);
  draw_trial(app, *paper);
}

}  // namespace proofleaf::shell
