// Reads single colours exactly, through the engine's chain rather than through the cube.
#include "app.h"
#include "job/read_back_work.h"
#include "words.h"

namespace proofleaf::shell {
namespace {

// Where to read: the cross, else the pointer. 0..1 of the picture.
bool reading_place(const App& app, double* x, double* y) {
  const View& view = app.job.view;
  if (view.cross) {
    *x = view.cross_x;
    *y = view.cross_y;
    return true;
  }
  return app.gestures.hover_x >= 0 &&
         place_at(app, app.gestures.hover_x, app.gestures.hover_y, x, y);
}

std::optional<ProofPoint> point_at(const App& app, double px, double py, bool as_printed) {
  const uint16_t* sample = detail_at(app, px, py, as_printed);
  if (!sample) sample = app.preview.at(px, py, as_printed);
  if (!sample) return std::nullopt;
  const float scale = 1 / 65535.f;
  return app.chain->point(float(sample[0]) * scale, float(sample[1]) * scale,
                          float(sample[2]) * scale);
}

}  // namespace

void make_chain(App& app) {
  if (app.chain_key == app.proof_cube.wanted) return;
  app.chain_key = app.proof_cube.wanted;
  app.chain.reset();
  const Paper* paper = read_chosen_paper(app);
  if (!paper || !app.job.master.profile) return;
  const auto reading = reading_of({{"reading", paper_reading(app)}});
  auto chain = ProofChain::make(app.job.master.profile, *paper, app.job.print, app.job.proof_view,
                                recipe_map(app), reading ? reading.value() : PaperReading{});
  if (chain) app.chain = chain.take();
}

// Reading a paper is slow: once for all settings.
const Paper* read_chosen_paper(App& app) {
  const PaperState* paper = app.job.chosen_paper();
  if (!paper) return nullptr;
  if (app.read_paper_file != paper->file) {
    Result<Paper> read = read_paper(paper->profile, paper->name);
    if (!read) return nullptr;
    app.read_paper = read.take();
    app.read_paper_file = paper->file;
  }
  return &app.read_paper;
}

void update_reading(App& app) {
  app.reading.reset();
  double x = 0, y = 0;
  if (app.preview.empty() || !reading_place(app, &x, &y)) return;
  make_chain(app);
  if (!app.chain) return;
  const double px = x * app.job.master.width, py = y * app.job.master.height;
  const auto master = point_at(app, px, py, false), printed = point_at(app, px, py, true);
  if (!master || !printed) return;
  app.reading = Reading{*printed, x, y};
  app.reading->point.master = master->master;  // before its local contrast
  app.reading->point.delta_e = delta_e_2000(master->master, printed->on_paper);
}

std::vector<std::string> reading_lines(const App& app) {
  const ProofPoint& point = app.reading->point;
  const Lab &master = point.master, &paper = point.on_paper;
  std::vector<std::string> lines = {
      text(words::kReadMaster, master.l, signed_number(master.a).c_str(),
           signed_number(master.b).c_str()),
      text(words::kReadPaper, paper.l, signed_number(paper.a).c_str(),
           signed_number(paper.b).c_str()),
      text(words::kReadDifference, point.delta_e)};
  const PaperState* chosen = app.job.chosen_paper();
  if (chosen && chosen->model == "CMYK") lines.push_back(text(words::kReadInk, point.ink));
  if (point.ink_limited) lines.push_back(words::kReadInkLimit);
  if (point.clipped) lines.push_back(words::kReadClipped);
  return lines;
}

}  // namespace proofleaf::shell
