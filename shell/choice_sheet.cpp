// The wide sheet over the picture: all papers, the chosen paper's card, or a client's offer.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app.h"
#include "imgui_internal.h"
#include "words_choice.h"
#include "words_offer.h"

namespace proofleaf::shell {
namespace {

constexpr char kWindow[] = "paper-choice";
constexpr ImGuiWindowFlags kBare =
    ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
    ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoBackground;

// In place of the picture; on narrow screens, of everything.
Rect sheet_place(const Layout& l) {
  if (l.narrow) return {0, 0, l.width, l.height};
  return {l.caption.x, l.caption.y, l.caption.w, l.foot.bottom() - l.caption.y};
}

bool keyboard_in_use() { return !ImGui::GetCurrentContext()->NavDisableHighlight; }

// The pages' names and the way back, in one row; on narrow screens the title is left out.
float draw_head(App& app) {
  Choice& choice = app.choice;
  const Rect& rect = choice.rect;
  const float target = app.look.target();
  float x = k16;
  if (rect.w > 560) {
    app.look.put(ImGui::GetWindowDrawList(), Face::title,
                 {rect.x + x, rect.y + k8 + (target - app.look.size(Face::title)) / 2}, grey::kInk,
                 words::kWhichPaper);
    x += app.look.measure(Face::title, words::kWhichPaper).x + k24;
  } else {
    x = k8;
  }
  ImGui::SetCursorPos({x, k8});
  const ChoicePage before = choice.page;
  const auto page_button = [&](const char* id, const Words& name, ChoicePage page) {
    if (app.ui.word_button(id, name, before == page)) choice.page = page;
  };
  page_button("page-papers", words::kAllPapers, ChoicePage::papers);
  ImGui::SameLine(0, k4);
  page_button("page-card", words::kPaperCard, ChoicePage::card);
  ImGui::SameLine(0, k4);
  page_button("page-client", words::kForClient, ChoicePage::client);
  if (choice.page != before) choice.scroll_to_top = true;
  const Words back = rect.w > 640 ? words::kBackToPictureLong : words::kBackToPicture;
  const float wide = std::max(target, app.look.measure(Face::small, back).x + 2 * k8);
  ImGui::SetCursorPos({rect.w - wide - k8, k8});
  if (app.ui.word_button("choice-back", back)) close_choice(app);
  return target + k16;
}

void scroll_body(App& app) {
  Gestures& g = app.gestures;
  if (std::exchange(app.choice.scroll_to_top, false)) {
    ImGui::SetScrollY(0);
    g.scroll = g.glide = 0;
  }
  if (std::fabs(g.scroll) < 1 || !choice_scrolls(app)) return;
  ImGui::SetScrollY(ImGui::GetScrollY() - g.scroll);
  g.scroll = 0;
}

void draw_body(App& app, float top) {
  const Rect& rect = app.choice.rect;
  ImGui::GetWindowDrawList()->AddLine({rect.x + k16, rect.y + top},
                                      {rect.right() - k16, rect.y + top}, grey::kHairline);
  ImGui::SetCursorPos({0, top + 1});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(k16, k12));
  ImGui::BeginChild("choice-box", {rect.w, rect.h - top - k4},
                    ImGuiChildFlags_AlwaysUseWindowPadding, ImGuiWindowFlags_NavFlattened);
  scroll_body(app);
  if (app.choice.page == ChoicePage::card)
    draw_card_page(app);
  else if (app.choice.page == ChoicePage::client)
    draw_offer_page(app);
  else
    draw_papers_page(app);
  app.ui.space(k16);
  ImGui::EndChild();
  ImGui::PopStyleVar();
}

}  // namespace

void open_choice(App& app, ChoicePage page) {
  Choice& choice = app.choice;
  choice.page = page;
  choice.scroll_to_top = true;
  choice.opened = !choice.open;
  choice.open = true;
  app.gestures.picture_focus = false;
  tell(app, page == ChoicePage::card     ? words::kPaperCard
            : page == ChoicePage::client ? words::kForClient
                                         : words::kWhichPaper);
}

void close_choice(App& app) {
  app.choice.open = false;
  app.choice.chart_at.clear();
  app.gestures.scroll = app.gestures.glide = 0;
  if (keyboard_in_use()) app.gestures.focus_wanted = "sheet";
}

bool choice_scrolls(const App& app) {
  return app.choice.open &&
         app.choice.rect.holds(app.gestures.sheet_start_x, app.gestures.sheet_start_y);
}

bool choice_key(App& app, const std::string& key) {
  Choice& choice = app.choice;
  if (!choice.open || choice.chart_at.empty()) return false;
  const int dx = key == "ArrowLeft" ? -1 : key == "ArrowRight" ? 1 : 0;
  const int dy = key == "PageUp" ? 1 : key == "PageDown" ? -1 : 0;
  choice.steps_x += dx;
  choice.steps_y += dy;
  return dx != 0 || dy != 0;
}

void draw_choice(App& app) {
  Choice& choice = app.choice;
  if (!choice.open) return;
  choice.rect = sheet_place(app.layout);
  app.layout.blockers.push_back(choice.rect);
  choice.chart_at.clear();  // the chart the keyboard is at says so while it is drawn
  ImGui::SetNextWindowPos(choice.rect.min());
  ImGui::SetNextWindowSize({choice.rect.w, choice.rect.h});
  if (choice.opened) ImGui::SetNextWindowFocus();
  ImGui::Begin(kWindow, nullptr, kBare);
  if (std::exchange(choice.opened, false) && keyboard_in_use()) app.gestures.focus_wanted = kWindow;
  draw_slip(ImGui::GetWindowDrawList(), choice.rect);
  draw_body(app, draw_head(app));
  ImGui::End();
  choice.steps_x = choice.steps_y = 0;
}

}  // namespace proofleaf::shell
