// All papers: the picture on each, and how each fares, as a table or, on narrow screens, as cards.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "choice_rows.h"
#include "words_choice.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

constexpr float kCardsBelow = 560;  // [CSS px]
constexpr float kRoomyFrom = 820;

struct Column {
  SortBy sort;
  const char* id;
  Words head;
  std::array<Words, 3> units;  // one and nothing, or three for three numbers
  float roomy, tight;          // width [CSS px]; the paper's name takes the rest
};
constexpr std::array<Words, 3> one(Words unit) { return {unit, nullptr, nullptr}; }
constexpr std::array<Words, 3> three(Words a, Words b, Words c) { return {a, b, c}; }
constexpr Column kColumns[] = {
    {SortBy::score, "score", words::kColScore, one(words::kColScoreUnit), 70, 48},
    {SortBy::tone, "tone", words::kColTone,
     three(words::kColDark, words::kColMiddle, words::kColLight), 150, 108},
    {SortBy::gamut, "gamut", words::kColGamut, one(words::kColGamutUnit), 96, 74},
    {SortBy::difference, "difference", words::kColDifference,
     three(words::kColMean, words::kCol95, words::kColMost), 150, 112},
    {SortBy::hue, "hue", words::kColHue, one(words::kColHueUnit), 84, 62},
    {SortBy::skin, "skin", words::kColSkin, one(words::kColDriftUnit), 64, 44},
    {SortBy::grey, "grey", words::kColGrey, one(words::kColDriftUnit), 64, 48}};

float width_of(const Column& column, bool roomy) { return roomy ? column.roomy : column.tight; }

float name_width(float wide, bool roomy) {
  for (const Column& column : kColumns) wide -= width_of(column, roomy);
  return wide - k16;
}

std::vector<std::string> cells(const Judged& judged, SortBy sort) {
  const Variant& best = judged.best();
  switch (sort) {
    case SortBy::score:
      return {text("%.0f", best.score)};
    case SortBy::tone:
      return {text("%.0f", best.tone[0].share * 100), text("%.0f", best.tone[1].share * 100),
              text("%.0f", best.tone[2].share * 100)};
    case SortBy::gamut:
      return {text("%.1f", judged.off_gamut * 100)};
    case SortBy::difference:
      return {text("%.1f", best.mean), text("%.1f", best.p95), text("%.1f", best.max)};
    case SortBy::hue:
      return {best.hue ? text("%.1f", best.hue->mean) : words::kNone};
    case SortBy::skin:
      return {best.skin ? text("%.1f", best.skin->delta_e) : words::kNone};
    case SortBy::grey:
      return {best.neutral ? text("%.1f", best.neutral->delta_e) : words::kNone};
    case SortBy::paper:
      break;
  }
  return {};
}

void put_right(const App& app, Face face, float right, float y, ImU32 colour,
               const std::string& said) {
  app.look.put(ImGui::GetWindowDrawList(), face, {right - app.look.measure(face, said).x, y},
               colour, said);
}

void head_item(App& app, SortBy sort, const char* id, const std::string& head, float wide,
               const Words* units) {
  const bool on = app.choice.sort == sort;
  const float line = app.look.size(Face::small);
  const float high = std::max(app.look.target(), 2 * line + k12);
  const Ui::Item it =
      app.ui.item(std::string("sort-") + id, wide, high,
                  text(words::kSortBy, head.c_str()) + (on ? std::string(words::kSortedBy) : ""));
  if (it.pressed) app.choice.sort = sort;
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (it.hovered || it.held)
    list->AddRectFilled(it.rect.min(), it.rect.max(), it.held ? grey::kPressed : grey::kField, 4);
  const float top = it.rect.y + (high - 2 * line) / 2, right = it.rect.right() - k4;
  const float head_wide = app.look.measure(Face::small, head).x;
  const float left = units ? right - head_wide : it.rect.x + k8;
  app.look.put(list, Face::small, {left, top}, grey::kInk, head);
  if (on) list->AddRectFilled({left, top + line}, {left + head_wide, top + line + 2}, kAccent, 1);
  if (!units) return;
  const int parts = units[1].english ? 3 : 1;
  for (int i = 0; i < parts; ++i)
    put_right(app, Face::small, right - float(parts - 1 - i) * wide / float(parts), top + line + 2,
              grey::kFaintInk, units[i]);
}

void draw_heads(App& app, float wide, bool roomy) {
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
  head_item(app, SortBy::paper, "paper", words::kColPaper, name_width(wide, roomy) + k16, nullptr);
  for (const Column& column : kColumns) {
    ImGui::SameLine(0, 0);
    head_item(app, column.sort, column.id, column.head, width_of(column, roomy),
              column.units.data());
  }
  ImGui::PopStyleVar();
}

// What a row looks like as a button: chosen papers have the accent's edge.
void row_ground(const Ui::Item& it, bool in_use) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddLine({it.rect.x, it.rect.y - 4}, {it.rect.right(), it.rect.y - 4}, grey::kHairline);
  if (in_use || it.hovered || it.held)
    list->AddRectFilled(it.rect.min(), it.rect.max(), it.held ? grey::kPressed : grey::kField, 4);
  if (in_use)
    list->AddRectFilled({it.rect.x, it.rect.y + 6}, {it.rect.x + 3, it.rect.bottom() - 6}, kAccent,
                        1.5f);
}

float pill_width(const App& app) {
  float wide = 0;
  for (const Words& each : {words::kTaken, words::kTakeWay, words::kTake})
    wide = std::max(wide, app.look.measure(Face::small, each).x);
  return wide + k24;
}

Words pill_words(const Row& row) {
  return row.in_use ? words::kTaken : row.chosen ? words::kTakeWay : words::kTake;
}

// The step the row takes, drawn as its button.
void draw_pill(const App& app, const Rect& rect, const Row& row) {
  const std::string said = pill_words(row);
  const ImVec2 size = app.look.measure(Face::small, said);
  const float wide = pill_width(app), high = size.y + k8;
  const Rect pill{rect.right() - wide - k8, rect.bottom() - high - k8, wide, high};
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (!row.in_use) list->AddRect(pill.min(), pill.max(), grey::kEdge, kRound);
  app.look.put(list, Face::small, {pill.x + (wide - size.x) / 2, pill.y + (high - size.y) / 2},
               grey::kInk, said);
}

std::string untried_words(const Tried* tried) { return tried ? tried->trouble : words::kWaits; }

bool sound(const Tried* tried) { return tried && tried->trouble.empty(); }

std::string sentence_of(const App& app, const Tried& tried) {
  const Standing* standing = standing_of(app, tried);
  return text(words::kPrintedSo, way_words(tried.judged.best().print).c_str(),
              verdict_words(tried.judged.verdict)) +
         " " + (standing ? standing->sentence : tried.judged.sentence);
}

void draw_table_row(App& app, const Row& row, int index, float wide, bool roomy) {
  const float name_wide = name_width(wide, roomy);
  const float name_high = app.look.measure(Face::bold, row.paper->name, name_wide).y;
  const std::string below =
      sound(row.tried) ? sentence_of(app, *row.tried) : untried_words(row.tried);
  const float room = wide - pill_width(app) - k24 - k16;
  const float below_high = app.look.measure(Face::small, below, room).y;
  const float high = std::max(app.look.target(), name_high + below_high + k4 + 2 * k8);
  const Ui::Item it = app.ui.item(text("rank-%d", index), wide, high, row_spoken(app, row) + below);
  row_ground(it, row.chosen);
  ImDrawList* list = ImGui::GetWindowDrawList();
  app.look.put(list, Face::bold, {it.rect.x + k12, it.rect.y + k8}, grey::kInk, row.paper->name,
               name_wide);
  app.look.put(list, Face::small, {it.rect.x + k12, it.rect.y + k8 + name_high + k4},
               grey::kFaintInk, below, room);
  draw_pill(app, it.rect, row);
  float right = it.rect.x + name_wide + k16;
  for (const Column& column : kColumns) {
    const float column_wide = width_of(column, roomy);
    right += column_wide;
    if (!sound(row.tried)) continue;
    const auto said = cells(row.tried->judged, column.sort);
    const float part = column_wide / float(said.size());
    for (size_t i = 0; i < said.size(); ++i)
      put_right(app, column.sort == SortBy::score ? Face::bold : Face::body,
                right - k4 - float(said.size() - 1 - i) * part, it.rect.y + k8, grey::kInk,
                said[i]);
  }
  if (it.pressed) print_on(app, row.paper->file);
}

void draw_card_row(App& app, const Row& row, int index, float wide) {
  const float score_room = 52, wrap = wide - 2 * k12;
  std::vector<std::string> lines;
  if (sound(row.tried)) lines = card_lines(row.tried->judged);
  lines.push_back(sound(row.tried) ? sentence_of(app, *row.tried) : untried_words(row.tried));
  const float name_high = app.look.measure(Face::bold, row.paper->name, wrap - score_room).y;
  float high = k8 + name_high + app.look.size(Face::small) + k8 + k16;
  for (const std::string& line : lines) high += app.look.measure(Face::small, line, wrap).y + k4;
  const Ui::Item it =
      app.ui.item(text("rank-%d", index), wide, high, row_spoken(app, row) + lines.back());
  row_ground(it, row.chosen);
  ImDrawList* list = ImGui::GetWindowDrawList();
  float y = it.rect.y + k8;
  app.look.put(list, Face::bold, {it.rect.x + k12, y}, grey::kInk, row.paper->name,
               wrap - score_room);
  if (sound(row.tried))
    put_right(app, Face::title, it.rect.right() - k12, y, grey::kInk,
              text("%.0f", row.tried->judged.best().score));
  y += name_high + k4;
  for (const std::string& line : lines) {
    app.look.put(list, Face::small, {it.rect.x + k12, y}, grey::kFaintInk, line, wrap);
    y += app.look.measure(Face::small, line, wrap).y + k4;
  }
  draw_pill(app, it.rect, row);
  if (it.pressed) print_on(app, row.paper->file);
}

void draw_rows(App& app, const std::vector<Row>& rows) {
  const float wide = app.ui.width();
  const bool roomy = wide >= kRoomyFrom;
  if (wide >= kCardsBelow) draw_heads(app, wide, roomy);
  for (size_t i = 0; i < rows.size(); ++i) {
    if (wide >= kCardsBelow)
      draw_table_row(app, rows[i], int(i), wide, roomy);
    else
      draw_card_row(app, rows[i], int(i), wide);
  }
}

// The picture on one paper, as large as the strip's columns allow.
void draw_thumbnail(App& app, const Row& row, int index, float wide, float aspect) {
  const float label = 2 * app.look.size(Face::small) + k8;
  const float picture = wide / aspect;
  const std::string score = sound(row.tried)
                                ? text(words::kThumbScore, row.tried->judged.best().score)
                                : std::string(words::kWaits);
  const Ui::Item it =
      app.ui.item(text("thumb-%d", index), wide, picture + label,
                  row.paper->name + (row.chosen ? std::string(words::kInUse) : "") + ", " + score);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Rect place{it.rect.x, it.rect.y, wide, picture};
  if (it.hovered || it.held)
    list->AddRectFilled(it.rect.min(), it.rect.max(), it.held ? grey::kPressed : grey::kField, 4);
  if (sound(row.tried) && row.tried->thumbnail != 0)
    list->AddImage(ImTextureID(intptr_t(row.tried->thumbnail)), place.min(), place.max());
  else
    list->AddRectFilled(place.min(), place.max(), grey::kTable);
  if (row.chosen) list->AddRect(place.min(), place.max(), kAccent, 0, 0, 3);
  const float top = place.bottom() + k4;
  app.look.put_clipped(list, Face::small, {it.rect.x, top}, wide, grey::kInk, row.paper->name);
  app.look.put_clipped(list, Face::small, {it.rect.x, top + app.look.size(Face::small)}, wide,
                       grey::kFaintInk,
                       (row.chosen ? std::string(words::kTaken) + ", " : "") + score);
  if (it.pressed) print_on(app, row.paper->file);
}

void draw_strip(App& app, const std::vector<Row>& rows) {
  app.ui.help(words::kProofShown);
  app.ui.space(k4);
  // As many beside each other as fit, spread evenly over the lines.
  constexpr float kLeast = 130;
  const float wide = app.ui.width();
  const int count = std::max(1, int(rows.size()));
  const int most = std::max(1, int((wide + k12) / (kLeast + k12)));
  const int lines = (count + most - 1) / most;
  const int columns = std::max((count + lines - 1) / lines, std::min(2, most));
  const float each = std::min(320.f, (wide - k12 * float(columns - 1)) / float(columns));
  const float aspect = std::clamp(
      float(app.job.master.width) / float(std::max(1u, app.job.master.height)), 0.4f, 4.f);
  for (size_t i = 0; i < rows.size(); ++i) {
    if (int(i) % columns != 0) ImGui::SameLine(0, k12);
    draw_thumbnail(app, rows[i], int(i), each, aspect);
  }
  app.ui.space(k12);
}

void draw_formula(App& app) {
  app.ui.space(k8);
  if (app.ui.word_button("score-how", words::kScoreHow, app.choice.explain))
    app.choice.explain = !app.choice.explain;
  if (!app.choice.explain) return;
  for (const std::string& line : formula_lines()) app.ui.help(line);
}

}  // namespace

void draw_papers_page(App& app) {
  if (app.job.master.file == 0 || papers_to_try(app) == 0)
    return app.ui.words(Face::body, words::kNeedPictureAndPapers);
  draw_trying(app);
  if (!app.choice.facts_trouble.empty()) app.ui.words(Face::body, app.choice.facts_trouble);
  const std::vector<Row> rows = choice_rows(app);
  draw_strip(app, rows);
  draw_rows(app, rows);
  draw_formula(app);
}

}  // namespace proofleaf::shell
