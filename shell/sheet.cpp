// The sheet: numbered leaves, one of them open.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "words.h"
#include "words_recipe.h"
#include "words_screen.h"
#include "words_spoken.h"

namespace proofleaf::shell {
namespace {

constexpr Words kNames[] = {words::kLeafMaster, words::kLeafPaper, words::kLeafLook,
                            words::kLeafFit,    words::kLeafSize,  words::kLeafPrint};
constexpr ImGuiWindowFlags kBare =
    ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
    ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollWithMouse;

float heading_height(const App& app) { return app.look.touch() ? 64.f : 58.f; }

void leaf_heading(App& app, Leaf leaf, float wide) {
  const int index = int(leaf);
  const bool open = app.job.leaf == leaf;
  const std::string summary = leaf_summary(app, leaf);
  const float height = heading_height(app);
  const Ui::Item it = app.ui.item(
      "leaf-" + std::to_string(index + 1), wide, height,
      text(open ? words::kLeafOpen : words::kLeafClosed, index + 1, kNames[index]) + summary);
  if (it.pressed) app.job.leaf = leaf;
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (!open && (it.hovered || it.held))
    list->AddRectFilled(it.rect.min(), it.rect.max(), it.held ? grey::kPressed : grey::kField);
  if (index > 0)
    list->AddLine({it.rect.x + k16, it.rect.y}, {it.rect.right() - k16, it.rect.y},
                  grey::kHairline);
  const std::string number = std::to_string(index + 1);
  const float left = it.rect.x + k16, text_left = left + k32;
  const ImVec2 size = app.look.measure(Face::large, number);
  app.look.put(list, Face::large, {left, it.rect.y + (height - size.y) / 2}, grey::kInk, number);
  if (open)
    list->AddRectFilled({left, it.rect.y + (height + size.y) / 2},
                        {left + size.x, it.rect.y + (height + size.y) / 2 + 2}, kAccent, 1);
  const float both = app.look.size(Face::title) + 2 + app.look.size(Face::small);
  const float top = it.rect.y + (height - both) / 2;
  app.look.put(list, Face::title, {text_left, top}, grey::kInk, kNames[index]);
  app.look.put_clipped(list, Face::small, {text_left, top + app.look.size(Face::title) + 2},
                       it.rect.right() - k16 - text_left, grey::kFaintInk, summary);
}

void draw_open_leaf(App& app) {
  switch (app.job.leaf) {
    case Leaf::master:
      return draw_master_leaf(app);
    case Leaf::paper:
      return draw_paper_leaf(app);
    case Leaf::look:
      return draw_look_leaf(app);
    case Leaf::fit:
      return draw_fit_leaf(app);
    case Leaf::size:
      return draw_size_leaf(app);
    case Leaf::print:
      return draw_print_leaf(app);
  }
}

// The open leaf in a box that scrolls by itself.
void leaf_box(App& app, float wide, float high) {
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(k16, app.layout.narrow ? k12 : k4));
  const std::string id = text("leaf-box-%d", int(app.job.leaf));
  ImGui::BeginChild(id.c_str(), {wide, std::max(40.f, high)},
                    ImGuiChildFlags_AlwaysUseWindowPadding, ImGuiWindowFlags_NavFlattened);
  if (app.drawn_leaf != app.job.leaf) {  // a glide ends with the leaf it began on
    app.drawn_leaf = app.job.leaf;
    app.gestures.glide = app.gestures.scroll = 0;
  }
  if (std::fabs(app.gestures.scroll) >= 1 && !choice_scrolls(app) && !app.check.open) {
    ImGui::SetScrollY(ImGui::GetScrollY() - app.gestures.scroll);
    app.gestures.scroll = 0;
  }
  draw_open_leaf(app);
  app.ui.space(k16);
  ImGui::EndChild();
  ImGui::PopStyleVar();
}

void draw_side_sheet(App& app) {
  const Rect& sheet = app.layout.sheet;
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
  const float heading = heading_height(app);
  ImGui::SetCursorPosY(k8);
  for (int i = 0; i < kLeaves; ++i) {
    ImGui::SetCursorPosX(0);
    leaf_heading(app, Leaf(i), sheet.w);
    if (int(app.job.leaf) != i) continue;
    ImGui::PopStyleVar();
    leaf_box(app, sheet.w, sheet.h - kLeaves * heading - 2 * k8);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
  }
  ImGui::PopStyleVar();
}

void strip_name(App& app, int index, float wide, float high) {
  const bool open = int(app.job.leaf) == index && app.job.sheet_raised;
  const Ui::Item it =
      app.ui.item("leaf-" + std::to_string(index + 1), wide, high,
                  text(words::kLeafOf, index + 1, kNames[index]) + leaf_summary(app, Leaf(index)));
  if (it.pressed) {
    app.job.sheet_raised = !(open);
    app.job.leaf = Leaf(index);
  }
  ImDrawList* list = ImGui::GetWindowDrawList();
  const std::string number = std::to_string(index + 1);
  const ImVec2 number_size = app.look.measure(Face::title, number);
  const ImVec2 size = app.look.measure(Face::small, kNames[index]);
  const float top = it.rect.y + (high - number_size.y - size.y) / 2;
  const float middle = it.rect.x + wide / 2;
  app.look.put(list, Face::title, {middle - number_size.x / 2, top}, grey::kInk, number);
  app.look.put(list, Face::small, {middle - size.x / 2, top + number_size.y}, grey::kInk,
               kNames[index]);
  if (open)
    list->AddRectFilled({middle - size.x / 2, top + number_size.y + size.y + 1},
                        {middle + size.x / 2, top + number_size.y + size.y + 3}, kAccent, 1);
}

void draw_bottom_sheet(App& app) {
  const Rect& strip = app.layout.strip;
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddRectFilled({strip.w / 2 - 18, strip.y + 6}, {strip.w / 2 + 18, strip.y + 9}, grey::kEdge,
                      1.5f);
  ImGui::SetCursorPos({k8, k12});
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
  const float each = (strip.w - 2 * k8) / kLeaves;
  for (int i = 0; i < kLeaves; ++i) {
    if (i > 0) ImGui::SameLine(0, 0);
    strip_name(app, i, each, strip.h - k12);
  }
  ImGui::PopStyleVar();
  if (!app.job.sheet_raised) return;
  list->AddLine({k16, strip.bottom()}, {strip.w - k16, strip.bottom()}, grey::kHairline);
  ImGui::SetCursorPos({0, strip.h + 1});
  leaf_box(app, strip.w, app.layout.sheet.h - kRound - strip.h - 1);
}

}  // namespace

std::string leaf_summary(const App& app, Leaf leaf) {
  const JobState& job = app.job;
  const PaperState* paper = job.chosen_paper();
  switch (leaf) {
    case Leaf::master:
      return job.master.file ? job.master.name + condition_summary(app) : words::kNoMaster;
    case Leaf::paper:
      return paper ? paper->name + ", " + lower_first(intent_words(job.print.intent))
                   : words::kNoPaper;
    case Leaf::look: {
      constexpr Words kWays[] = {words::kSideBySide, words::kDivided, words::kHeld};
      std::string said = kWays[int(job.compare)];
      if (job.proof_view.paper_white) said += words::kWithWhite;
      if (job.proof_view.paper_black) said += words::kWithBlack;
      if (job.marking.on) said += words::kMarked;
      if (screen_corrected(app)) said += words::kSummaryCorrected;
      return said;
    }
    case Leaf::fit:
      return fit_summary(app);
    case Leaf::size:
      return size_summary(app);
    case Leaf::print:
      if (job.delivered) return job.delivered->name;
      return text(
          words::kPrintSummary, job.delivery.tiff ? "TIFF" : "JPEG",
          job.delivery.tiff ? job.delivery.bits : 8,
          app.recipe.now.sized ? int(app.recipe.now.size.ppi.value_or(300)) : job.delivery.ppi);
  }
  return "";
}

void draw_sheet(App& app) {
  const Rect& sheet = app.layout.sheet;
  draw_slip(ImGui::GetBackgroundDrawList(), sheet);
  ImGui::SetNextWindowPos(sheet.min());
  ImGui::SetNextWindowSize({sheet.w, sheet.h});
  ImGui::Begin("sheet", nullptr, kBare | ImGuiWindowFlags_NoBackground);
  if (app.layout.narrow)
    draw_bottom_sheet(app);
  else
    draw_side_sheet(app);
  ImGui::End();
}

}  // namespace proofleaf::shell
