// Leaf 2: the paper, and how the master's colours are fitted to it.
#include <cmath>

#include "app.h"
#include "proof/view.h"
#include "proof/words.h"
#include "words.h"
#include "words_offer.h"

namespace proofleaf::shell {
namespace {

struct IntentLine {
  Intent intent;
  Words name;
  Words help;
};
constexpr IntentLine kIntents[] = {{Intent::perceptual, words::kPerceptual, words::kPerceptualHelp},
                                   {Intent::relative, words::kRelative, words::kRelativeHelp},
                                   {Intent::saturation, words::kSaturation, words::kSaturationHelp},
                                   {Intent::absolute, words::kAbsolute, words::kAbsoluteHelp}};

// Tint and depth in words. Limits: common practice, no source.
std::string white_words(const Lab& lab) {
  const Words light = lab.l >= 95   ? words::kWhiteBright
                      : lab.l >= 90 ? words::kWhiteSoft
                                    : words::kWhiteDim;
  const double chroma = std::hypot(lab.a, lab.b);
  const Words tint = chroma < 1.5 ? words::kTintNeutral
                     : std::fabs(lab.b) >= std::fabs(lab.a)
                         ? (lab.b > 0 ? words::kTintWarm : words::kTintCool)
                         : (lab.a > 0 ? words::kTintRosy : words::kTintGreen);
  return text(chroma >= 1.5 && chroma < 4 ? words::kWhiteSlightly : words::kWhiteTint, light, tint);
}

std::string black_words(const Lab& lab) {
  return lab.l < 6 ? words::kBlackDeep : lab.l < 14 ? words::kBlackFirm : words::kBlackSoft;
}

// A colour's lightness as a grey, for a swatch: the sheet stays neutral.
ImU32 swatch_grey(const Lab& lab) {
  const double code = srgb_encode(xyz_from_lab({lab.l, 0, 0}).y);
  const int v = int(std::lround(std::fmin(1, std::fmax(0, code)) * 255));
  return IM_COL32(v, v, v, 255);
}

// White and black of a paper as two touching half leaves.
void draw_swatches(const Rect& row, const PaperState& paper) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float x = row.right() - 32, y = row.y + row.h / 2, w = 20, h = 15;
  const auto half = [&](float side, ImU32 colour) {
    list->PathLineTo({x, y - h});
    list->PathBezierQuadraticCurveTo({x + side * w * 1.7f, y}, {x, y + h});
    list->PathFillConvex(colour);
  };
  half(-1, swatch_grey(paper.white));
  half(1, swatch_grey(paper.black));
}

void draw_chosen(App& app, const PaperState& paper) {
  Ui& ui = app.ui;
  ui.help(text(words::kPaperWhite, paper.white.l, signed_number(paper.white.a).c_str(),
               signed_number(paper.white.b).c_str()));
  ui.help(text(words::kPaperBlack, paper.black.l, signed_number(paper.black.a).c_str(),
               signed_number(paper.black.b).c_str()));
  if (paper.working_space) ui.help(words::kNotMeasured);
  if (paper.ink_limit > 0) ui.help(text(words::kInkLimit, paper.ink_limit));
  for (const std::string& note : paper.notes) ui.help(note);
}

void draw_paper_row(App& app, int index) {
  const PaperState& paper = app.job.papers[size_t(index)];
  const bool chosen = app.job.paper == index;
  const std::string line = score_words(app, paper) + white_and_black(paper);
  const std::string id = "paper-" + std::to_string(index);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float wide = app.ui.width();
  const bool pressed = app.ui.choice(id, paper.name, line, chosen, 56);
  const float high = ImGui::GetItemRectSize().y;
  draw_swatches({at.x, at.y, wide, high}, paper);
  if (pressed) app.job.paper = index;
  if (!chosen) return;
  ImGui::Indent(k16);
  draw_chosen(app, paper);
  draw_paper_tools(app, paper);
  ImGui::Unindent(k16);
}

void draw_papers(App& app) {
  draw_best_paper(app);
  app.ui.words(Face::bold, words::kPapersAtHand);
  for (int i = 0; i < int(app.job.papers.size()); ++i)
    if (app.job.papers[size_t(i)].space.empty()) draw_paper_row(app, i);
  app.ui.space(k4);
  if (app.ui.button("bring-paper", words::kBringPaper, app.job.papers.empty()))
    app.host.pick_file();
  if (app.job.master.file != 0 && app.job.chosen_paper() &&
      app.ui.button("offer", words::kOfferToClient, false))
    open_choice(app, ChoicePage::client);
  draw_shelf(app);
}

void draw_spaces(App& app) {
  app.ui.section(words::kStandardSpaces);
  for (const StandardSpace& space : standard_spaces()) {
    const PaperState* paper = app.job.chosen_paper();
    const bool chosen = paper && paper->space == space.id;
    if (app.ui.choice(std::string("space-") + space.id, space.title, "", chosen) && !chosen)
      choose_space(app, space.id);
  }
}

void draw_intents(App& app) {
  app.ui.section(words::kFitting);
  app.ui.help(words::kFittingHelp);
  const PaperState* paper = app.job.chosen_paper();
  for (const IntentLine& line : kIntents) {
    std::string help = line.help;
    const size_t table = size_t(line.intent);
    if (paper && table < 3 && !paper->own_table[table] && !paper->working_space)
      help += words::kNoOwnTable;
    if (app.ui.choice(std::string("intent-") + word_for(line.intent), line.name, help,
                      app.job.print.intent == line.intent))
      app.job.print.intent = line.intent;
  }
  app.ui.space(k8);
  const bool meaningful = app.job.print.intent != Intent::absolute;
  app.ui.toggle("bpc", words::kBpc, meaningful ? words::kBpcHelp : words::kBpcAbsolute,
                &app.job.print.black_point_compensation, meaningful);
}

}  // namespace

std::string white_and_black(const PaperState& paper) {
  return text(words::kWhiteAndBlack, white_words(paper.white).c_str(),
              black_words(paper.black).c_str());
}

Words intent_words(Intent intent) { return kIntents[size_t(intent)].name; }

void cycle_intent(App& app) { app.job.print.intent = Intent((int(app.job.print.intent) + 1) % 4); }

void draw_paper_leaf(App& app) {
  draw_papers(app);
  draw_intents(app);
  draw_spaces(app);
}

}  // namespace proofleaf::shell
