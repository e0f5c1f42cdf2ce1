// Leaf 6, below the print file: the test strip.
#include "app.h"
#include "strip.h"
#include "words.h"
#include "words_strip.h"

namespace proofleaf::shell {
namespace {

void draw_strip_progress(App& app) {
  Ui& ui = app.ui;
  for (const Task& task : app.tasks) {
    if (task.kind != TaskKind::strip && task.kind != TaskKind::strip_places) continue;
    ui.words(Face::body, text("%s, %.0f %%", task.words.c_str(), task.share * 100));
    ui.bar(float(task.share), ui.width());
    const int work = task.work;
    if (ui.button("stop-strip", words::kStop, false)) stop_task(app, work);
    return;
  }
}

void draw_eye(App& app) {
  Ui& ui = app.ui;
  StripState& strip = app.strip;
  ui.words(Face::bold, words::kByEye);
  ui.decimal("eye-black", words::kEyeBlack, words::kEyeBlackHelp, &strip.seen_black, 0, 12, 3);
  ui.decimal("eye-white", words::kEyeWhite, words::kEyeWhiteHelp, &strip.seen_white, 90, 100, 97);
  if (ui.button("eye-read", words::kEyeRead, false)) read_by_eye(app);
}

void draw_reading(App& app) {
  Ui& ui = app.ui;
  StripState& strip = app.strip;
  const StripReading& reading = strip.reading;
  if (!reading.sentence.empty()) ui.words(Face::body, reading.sentence);
  for (const std::string& sentence : reading.sentences) ui.words(Face::body, sentence);
  if (reading.correction.is_object())
    ui.toggle("lay-over", words::kLayOver, words::kLayOverHelp, &strip.lay_over);
}

}  // namespace

void draw_strip(App& app) {
  Ui& ui = app.ui;
  StripState& strip = app.strip;
  ui.section(words::kStrip);
  ui.help(words::kStripHelp);
  const std::string middle = text("21 × %.1f", 14.8), large = text("%.1f × 21", 29.7);
  strip.sheet = ui.options("strip-sheet", words::kStripSheet,
                           {"15 × 10", middle.c_str(), large.c_str()}, strip.sheet);
  ui.help(words::kStripSheetHelp);
  strip.ways = ui.options("strip-ways", words::kStripWays, {"1", "2", "3"}, strip.ways - 1) + 1;
  ui.help(words::kStripWaysHelp);
  draw_parts(app);
  const bool busy = find_task(app, TaskKind::strip) || find_task(app, TaskKind::strip_places);
  if (ui.button("make-strip", busy ? words::kBusy : words::kMakeStrip, false, ui.width()) && !busy)
    start_strip(app);
  draw_strip_progress(app);
  if (!strip.patches.is_array()) return;
  ui.words(Face::body, text(words::kStripMade, strip.name.c_str()));
  if (!strip.sentence.empty()) ui.help(strip.sentence);
  ui.section(words::kReadBack);
  ui.help(words::kReadBackHelp);
  if (ui.button("bring-readings", words::kBringReadings, false)) app.host.pick_file();
  draw_eye(app);
  draw_reading(app);
}

}  // namespace proofleaf::shell
