// Leaf 3: how master and print are looked at. Nothing here changes the print.
#include "app.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

// Each is written in itself, so that whoever landed in another one finds it.
void draw_language(App& app) {
  constexpr const char* kCodes[] = {"en", "de"};
  app.ui.section(words::kLanguage);
  const int now = language() == kCodes[1] ? 1 : 0;
  const int chosen = app.ui.options("language", words::kLanguage, {"English", "Deutsch"}, now);
  if (chosen != now) app.host.speak(kCodes[chosen]);
  app.ui.help(words::kLanguageHelp);
}

}  // namespace

void draw_look_leaf(App& app) {
  Ui& ui = app.ui;
  JobState& job = app.job;
  ui.words(Face::bold, words::kCompare);
  job.compare =
      Compare(ui.options("compare", words::kCompare,
                         {words::kSideBySide, words::kDivided, words::kHeld}, int(job.compare)));
  constexpr Words kHelp[] = {words::kSideBySideHelp, words::kDividedHelp, words::kHeldHelp};
  ui.help(kHelp[int(job.compare)]);
  ui.space(k16);
  ui.toggle("paper-white", words::kShowWhite, words::kShowWhiteHelp, &job.proof_view.paper_white);
  ui.toggle("paper-black", words::kShowBlack, words::kShowBlackHelp, &job.proof_view.paper_black);
  ui.space(k16);
  ui.toggle("marking", words::kMark, words::kMarkHelp, &job.marking.on);
  ui.number("threshold", words::kThreshold, words::kThresholdHelp, &job.marking.threshold, 1, 10,
            3);
  if (const auto share = off_gamut_share(app))
    ui.words(Face::body, text(words::kShare, percent(*share).c_str(), job.marking.threshold));
  ui.space(k16);
  draw_rings_controls(app);
  ui.space(k16);
  ui.toggle("cross", words::kCross, words::kCrossHelp, &job.view.cross);
  ui.space(k16);
  draw_screen_section(app);
  ui.space(k16);
  if (ui.button("key-card", words::kKeys, false)) job.key_card = true;
  draw_language(app);
}

}  // namespace proofleaf::shell
