// On the paper leaf: which paper suits the picture, and what can be done with the chosen one.
#include <algorithm>

#include "app.h"
#include "words_choice.h"

namespace proofleaf::shell {
namespace {

// One sentence on the best paper, and one step to it.
void draw_first(App& app) {
  const auto& order = app.choice.order;
  if (order.empty()) return;
  const Tried& first = app.choice.tried[order.front().index];
  if (order.size() > 1 && order[1].equal) {
    const Tried& second = app.choice.tried[order[1].index];
    app.ui.words(Face::body,
                 text(words::kBestEqual, first.judged.paper.c_str(), second.judged.paper.c_str()));
  } else {
    app.ui.words(Face::body, text(words::kBestPaper, first.judged.paper.c_str(),
                                  way_words(first.judged.best().print).c_str()));
  }
  const PaperState* chosen = app.job.chosen_paper();
  const bool is_first = chosen && chosen->file == first.paper;
  const bool in_use = is_first && same_print(first.judged.best().print, app.job.print);
  const std::string take =
      is_first ? std::string(words::kTakeWay) : text(words::kTakeBest, first.judged.paper.c_str());
  if (!in_use && app.ui.button("take-best", take, false, app.ui.width()))
    print_on(app, first.paper);
}

void draw_renaming(App& app, const PaperState& paper) {
  Choice& choice = app.choice;
  app.ui.help(words::kRenameField);
  app.ui.text_field("paper-name", words::kRenameField, &choice.new_name);
  const FileId file = paper.file;
  if (app.ui.word_button("keep-name", words::kRenameDone)) {
    rename_paper(app, file, choice.new_name);
    choice.renaming = 0;
    return;
  }
  if (paper.name == paper.own_title) return;
  ImGui::SameLine(0, k4);
  if (app.ui.word_button("own-name", words::kRenameOff)) {
    rename_paper(app, file, "");
    choice.renaming = 0;
  }
}

}  // namespace

bool same_print(const PrintIntent& one, const PrintIntent& two) {
  return one.intent == two.intent && (one.intent == Intent::absolute ||
                                      one.black_point_compensation == two.black_point_compensation);
}

std::string way_words(const PrintIntent& print) {
  std::string said = lower_first(intent_words(print.intent));
  if (print.intent == Intent::relative)
    said += print.black_point_compensation ? words::kWithBpc : words::kWithoutBpc;
  return said;
}

void draw_trying(App& app) {
  const int all = papers_to_try(app), done = papers_tried(app);
  if (done >= all || app.job.master.file == 0) return;
  const bool rests = app.choice.rests;
  app.ui.help(text(rests ? words::kLookingRests : words::kLooking, done, all));
  const float button = rests ? 0 : app.look.measure(Face::small, words::kStopTrying).x + 2 * k8;
  if (rests) {
    if (app.ui.word_button("try-on", words::kLookOn)) app.choice.rests = false;
    return;
  }
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float wide = app.ui.width();
  ImGui::SetCursorScreenPos({at.x, at.y + (app.look.target() - 6) / 2});
  app.ui.bar(float(choice_progress(app)), wide - button - k12);
  ImGui::SetCursorScreenPos({at.x + wide - button, at.y});
  if (app.ui.word_button("stop-trying", words::kStopTrying)) rest_choice(app);
}

void draw_best_paper(App& app) {
  if (papers_to_try(app) == 0 || app.job.master.file == 0) return;
  app.ui.words(Face::bold, words::kWhichPaper);
  draw_trying(app);
  draw_first(app);
  if (!app.choice.facts_trouble.empty()) app.ui.words(Face::body, app.choice.facts_trouble);
  if (app.ui.button("see-papers", words::kSeeAll, false, app.ui.width()))
    open_choice(app, ChoicePage::papers);
  app.ui.space(k12);
}

std::string score_words(const App& app, const PaperState& paper) {
  const Tried* tried = tried_on(app, paper.file);
  if (!tried) return "";
  if (!tried->trouble.empty()) return tried->trouble;
  return text(words::kBestWay, tried->judged.best().score);
}

void draw_paper_tools(App& app, const PaperState& paper) {
  Choice& choice = app.choice;
  const FileId file = paper.file;
  if (app.ui.word_button("paper-card", words::kPaperCard)) open_choice(app, ChoicePage::card);
  ImGui::SameLine(0, k4);
  const bool renaming = choice.renaming == file;
  if (app.ui.word_button("rename", words::kRename, renaming)) {
    choice.renaming = renaming ? 0 : file;
    choice.new_name = paper.name;
  }
  ImGui::SameLine(0, k4);
  const bool remove = app.ui.word_button("remove-paper", words::kRemove);
  if (choice.renaming == file) draw_renaming(app, paper);
  if (!remove) return;
  choice.removing = file;  // once the list has been drawn
  app.host.request_frame();
}

}  // namespace proofleaf::shell
