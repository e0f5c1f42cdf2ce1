// Leaf 6: the file for the print house.
#include <algorithm>

#include "app.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

void draw_kind(App& app) {
  Ui& ui = app.ui;
  DeliverySettings& d = app.job.delivery;
  ui.words(Face::bold, words::kFormat);
  d.tiff = ui.options("format", words::kFormat, {"JPEG", "TIFF"}, d.tiff ? 1 : 0) == 1;
  ui.help(d.tiff ? words::kFormatHelpTiff : words::kFormatHelpJpeg);
  ui.space(k12);
  if (d.tiff) {
    ui.words(Face::bold, words::kBits);
    d.bits = ui.options("bits", words::kBits, {"8", "16"}, d.bits == 16 ? 1 : 0) == 1 ? 16 : 8;
    ui.help(d.bits == 16 ? words::kBitsHelp16 : words::kBitsHelp8);
  } else {
    ui.number("quality", words::kQuality, words::kQualityHelp, &d.quality, 1, 100, 95);
    ui.toggle("detail", words::kDetail, words::kDetailHelp, &d.full_colour_detail);
  }
  ui.space(k12);
}

// Why the new file cannot have that name; nothing where it can.
std::optional<Words> name_fault(const App& app, const std::string& name) {
  if (name.find_first_not_of(" .") == std::string::npos) return words::kFileNameEmpty;
  const auto& there = app.folder.holds;
  if (std::find(there.begin(), there.end(), name) != there.end()) return words::kFileNameThere;
  return name == app.job.master.name ? std::optional(words::kFileNameTaken) : std::nullopt;
}

void draw_rest(App& app) {
  Ui& ui = app.ui;
  DeliverySettings& d = app.job.delivery;
  const MasterState& m = app.job.master;
  const auto plan = print_plan(app);
  if (app.recipe.now.sized && plan)
    ui.words(Face::body, text(words::kPrintSized, plan.value().sheet_width_mm / 10,
                              plan.value().sheet_height_mm / 10, plan.value().ppi));
  else
    ui.number("ppi", words::kPpi,
              text(words::kPpiHelp, m.width * 2.54 / d.ppi, m.height * 2.54 / d.ppi), &d.ppi, 72,
              1200, 300);
  ui.space(k12);
  ui.toggle("keep-private", words::kPrivate, words::kPrivateHelp, &d.keep_private);
  ui.space(k12);
  ui.number("seed", words::kSeed, words::kSeedHelp, &d.seed, 1, 999999, 1);
}

// The name and the button come first, so that they are in sight on every screen.
void draw_name_and_button(App& app) {
  Ui& ui = app.ui;
  DeliverySettings& d = app.job.delivery;
  ui.words(Face::bold, words::kFileName);
  std::string name = delivery_name(app);
  if (ui.text_field("file-name", words::kFileName, &name)) {
    d.name = name;
    d.name_edited = true;
  }
  const auto fault = name_fault(app, name);
  if (fault) return ui.words(Face::bold, *fault);
  if (const auto plan = print_plan(app); !plan) return ui.words(Face::bold, plan.error().message);
  ui.help(words::kFileNameHelp);
  ui.space(k12);
  // It stays in its place while a file is made, so that the keyboard does not slip on to Stop.
  const bool busy = find_task(app, TaskKind::deliver) != nullptr;
  const bool pressed = ui.button("make", busy ? words::kBusy : words::kMake, !busy, ui.width());
  if (pressed && !busy) start_delivery(app);
}

void draw_progress(App& app, const Task& task) {
  Ui& ui = app.ui;
  ui.space(k16);
  ui.words(Face::body, text("%s, %.0f %%", task.words.c_str(), task.share * 100));
  ui.bar(float(task.share), ui.width());
  const int work = task.work;
  if (ui.button("stop-delivery", words::kStop, false)) stop_task(app, work);
}

void draw_result(App& app) {
  const DeliveryResult& r = *app.job.delivered;
  Ui& ui = app.ui;
  ui.space(k16);
  ui.words(Face::bold, text(words::kMade, r.name.c_str(), r.width, r.height, r.bytes / 1e6));
  ui.words(Face::body, r.sentence.empty() ? text(words::kChecked, r.samples) + " " +
                                                text(words::kCheckNumbers, r.mean, r.p95, r.max)
                                          : r.sentence);
  if (ui.button("save-again", words::kSaveAgain, false)) save_delivery(app, r.work, r.name);
}

}  // namespace

void draw_print_leaf(App& app) {
  if (app.job.master.file == 0 || !app.job.chosen_paper())
    return app.ui.words(Face::body, words::kNeedBoth);
  if (app.show_leaf_top > 0) {
    ImGui::SetScrollY(0);
    --app.show_leaf_top;
  }
  draw_name_and_button(app);
  if (const Task* task = find_task(app, TaskKind::deliver)) draw_progress(app, *task);
  if (app.job.delivered) draw_result(app);
  app.ui.space(k24);
  draw_kind(app);
  draw_rest(app);
  draw_names(app);
  draw_folder(app);
  draw_batch(app);
  app.ui.space(k24);
  draw_strip(app);
  app.ui.space(k24);
  draw_job_sheet(app);
}

}  // namespace proofleaf::shell
