// Leaf 6, last: the job on file, and the print that came back.
#include <algorithm>

#include "app.h"
#include "job_sheet.h"
#include "words.h"
#include "words_strip.h"

namespace proofleaf::shell {
namespace {

void draw_check(App& app, const char* id, const Words& label, JobCheck& check) {
  Ui& ui = app.ui;
  ui.words(Face::body, label);
  check.found = Looked(
      ui.options(id, label, {words::kNotLooked, words::kFine, words::kWrong}, int(check.found)));
}

}  // namespace

void draw_job_sheet(App& app) {
  Ui& ui = app.ui;
  JobSheet& sheet = app.sheet;
  ui.section(words::kJob);
  ui.help(words::kJobHelp);
  ui.number("edition-number", words::kEditionNumber, words::kEditionHelp, &sheet.number, 1, 9999,
            1);
  ui.number("edition-of", words::kEditionOf, words::kEditionOfHelp, &sheet.of, sheet.number, 9999,
            sheet.number);
  ui.decimal("cost", words::kCostOfPrint, words::kCostHelp, &sheet.cost, 0, 1e6, 0);
  ui.decimal("edition-cost", words::kCostOfEdition, words::kCostOfEditionHelp, &sheet.edition_cost,
             0, 1e6, 0);
  const double all = sheet.cost * sheet.of + sheet.edition_cost;
  if (all > 0)
    ui.words(Face::body, text(words::kCostOfAll, sheet.of, all, sheet.currency.c_str(),
                              all / std::max(1, sheet.of)));
  ui.words(Face::body, words::kCurrency);
  ui.text_field("currency", words::kCurrency, &sheet.currency);
  ui.words(Face::body, words::kNotes);
  ui.text_field("job-notes", words::kNotes, &sheet.notes);
  ui.space(k12);
  if (ui.button("keep-job-sheet", words::kKeepJobSheet, false, ui.width()))
    save_job(app, JobFile::page);
  if (ui.button("keep-job", words::kKeepJob, false, ui.width())) save_job(app, JobFile::job);
  ui.section(words::kReturned);
  ui.help(words::kReturnedHelp);
  draw_check(app, "back-size", words::kBackSize, sheet.returned.size);
  draw_check(app, "back-cast", words::kBackCast, sheet.returned.cast);
  draw_check(app, "back-shadow", words::kBackShadow, sheet.returned.shadow_step);
  draw_check(app, "back-marks", words::kBackMarks, sheet.returned.marks);
}

}  // namespace proofleaf::shell
