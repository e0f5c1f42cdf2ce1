// Leaf 1: what the master is.
#include "app.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

std::string traces_words(const PrivateTraces& traces) {
  std::string said;
  const std::pair<bool, Words> all[] = {{traces.place, words::kTracePlace},
                                        {traces.serial, words::kTraceSerial},
                                        {traces.owner, words::kTraceOwner}};
  for (const auto& [there, words] : all)
    if (there) said += (said.empty() ? "" : ", ") + std::string(words);
  return said;
}

void draw_facts(App& app) {
  const MasterState& m = app.job.master;
  Ui& ui = app.ui;
  ui.words(Face::bold, m.name);
  ui.words(Face::body, text(words::kPixels, m.width, m.height, double(m.width) * m.height / 1e6));
  ui.words(Face::body, text(words::kKind, m.container.c_str(), m.bits, Words(m.model.c_str())));
  const double inches_w = m.width / 300.0, inches_h = m.height / 300.0;
  ui.words(Face::body,
           text(words::kPrintSize, inches_w * 2.54, inches_h * 2.54, inches_w, inches_h));
  if (m.ppi) ui.help(text(words::kFilePpi, *m.ppi));
}

void draw_assume(App& app) {
  const MasterState& m = app.job.master;
  for (const StandardSpace& space : standard_spaces()) {
    const bool chosen = m.assume == space.id;
    if (!app.ui.choice(std::string("assume-") + space.id, space.title, "", chosen) || chosen)
      continue;
    app.job.master.assume = space.id;
    open_master(app, m.file, m.name);
  }
}

void draw_colours(App& app) {
  const MasterState& m = app.job.master;
  app.ui.section(words::kColoursMean);
  if (!m.assumed) return app.ui.words(Face::body, text(words::kEmbedded, m.profile_title.c_str()));
  app.ui.words(Face::body, text(words::kAssumed, m.profile_title.c_str()));
  if (m.model != "CMYK") draw_assume(app);
}

void draw_notes(App& app) {
  const MasterState& m = app.job.master;
  if (m.notes.empty() && !m.traces.any()) return;
  app.ui.section(words::kGoodToKnow);
  if (m.traces.any())
    app.ui.words(Face::body, text(words::kTraces, traces_words(m.traces).c_str()));
  for (const std::string& note : m.notes) app.ui.words(Face::body, note);
}

}  // namespace

void draw_master_leaf(App& app) {
  Ui& ui = app.ui;
  const bool there = app.job.master.file != 0;
  draw_smaller(app);
  if (there) {
    draw_facts(app);
    draw_working_size(app);
    draw_colours(app);
    draw_notes(app);
    ui.space(k16);
  } else {
    ui.words(Face::body, words::kMasterHelp);
    ui.space(k12);
  }
  if (ui.button("choose-master", there ? words::kChooseOther : words::kChooseMaster, !there))
    app.host.pick_file();
  if (there) draw_condition(app);
}

}  // namespace proofleaf::shell
