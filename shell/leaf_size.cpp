// Leaf 5: how large the print is, what lies around it, and what is done at its own scale.
#include <algorithm>
#include <cmath>

#include "app.h"
#include "recipe_panel.h"
#include "words.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

// Longer side over shorter; 0: the picture's own. They lie as the picture lies.
constexpr std::array<double, 6> kShapes{0, 1, 5 / 4.0, 4 / 3.0, 3 / 2.0, 16 / 9.0};

double own_ratio(const App& app) {
  return double(app.job.master.width) / std::max(1u, app.job.master.height);
}

// Width over height of a shape.
double ratio_of(const App& app, int shape) {
  const double own = own_ratio(app), wanted = kShapes[size_t(shape)];
  if (wanted == 0) return own;
  return own >= 1 ? wanted : 1 / wanted;
}

// A part of that shape [of the largest there is, 0..1], at a place between both ends [0..1].
print::Crop crop_of(const App& app, int shape, double part, double at_x, double at_y) {
  const double ratio = ratio_of(app, shape) / own_ratio(app);
  print::Crop crop;
  crop.width = std::min(1.0, ratio) * part;
  crop.height = std::min(1.0, 1 / ratio) * part;
  crop.x = (1 - crop.width) * at_x;
  crop.y = (1 - crop.height) * at_y;
  return crop;
}

void draw_crop(App& app, print::Crop& crop) {
  Ui& ui = app.ui;
  int& shape = app.recipe.shape;
  ui.words(Face::bold, words::kShape);
  const int before = shape;
  const int first = ui.options("shape-a", words::kShape, {words::kShapeOwn, "1:1", "5:4"},
                               shape < 3 ? shape : -1);
  if (first >= 0 && (shape >= 3 || first != shape)) shape = first;
  const int second =
      ui.options("shape-b", words::kShape, {"4:3", "3:2", "16:9"}, shape >= 3 ? shape - 3 : -1);
  if (second >= 0 && (shape < 3 || second != shape - 3)) shape = second + 3;
  const print::Crop largest = crop_of(app, before, 1, 0, 0);
  double part = std::clamp(crop.width / largest.width, 0.05, 1.0) * 100;
  double at_x = crop.width < 1 ? crop.x / (1 - crop.width) * 100 : 50;
  double at_y = crop.height < 1 ? crop.y / (1 - crop.height) * 100 : 50;
  bool changed = shape != before;
  changed |= ui.amount("crop-part", words::kCropPart, words::kCropPartHelp, &part, 5, 100, 100);
  if (crop.width < 1)
    changed |= ui.amount("crop-x", words::kCropX, words::kCropPlaceHelp, &at_x, 0, 100, 50);
  if (crop.height < 1)
    changed |= ui.amount("crop-y", words::kCropY, words::kCropPlaceHelp, &at_y, 0, 100, 50);
  if (changed) crop = crop_of(app, shape, part / 100, at_x / 100, at_y / 100);
}

void draw_side(App& app, const char* id, const Words& label, std::optional<double>& side) {
  double cm = side ? *side / 10 : 0;
  if (!app.ui.decimal(id, label, words::kSideHelp, &cm, 0, 2000, 0)) return;
  side = cm >= 1 ? std::optional(cm * 10) : std::nullopt;
}

// A shape of its own for the sides would stretch nothing: the crop is trimmed.
void draw_sides(App& app) {
  Ui& ui = app.ui;
  print::PrintSize& size = app.recipe.now.size;
  draw_side(app, "width-cm", words::kWidthCm, size.width_mm);
  draw_side(app, "height-cm", words::kHeightCm, size.height_mm);
  int ppi = int(size.ppi.value_or(300));
  ui.number("print-ppi", words::kPrintPpi, words::kPrintPpiHelp, &ppi, 72, 1200, 300);
  size.ppi = ppi;
}

void draw_around_picture(App& app) {
  Ui& ui = app.ui;
  print::PrintSize& size = app.recipe.now.size;
  ui.section(words::kAround);
  const int edge =
      ui.options("edge", words::kAround, {words::kEdgeNone, words::kEdgeBleed, words::kEdgeWrapped},
                 size.edge == print::EdgeKind::none      ? 0
                 : size.edge == print::EdgeKind::wrapped ? 2
                                                         : 1);
  constexpr print::EdgeKind kKinds[] = {print::EdgeKind::none, print::EdgeKind::bleed_mirrored,
                                        print::EdgeKind::wrapped};
  size.edge = kKinds[edge];
  if (size.edge != print::EdgeKind::none) {
    size.border_mm = size.mat_mm = 0;
    size.signature_line = false;
    if (size.edge_mm == 0) size.edge_mm = edge == 2 ? 40 : 3;
    ui.decimal("edge-mm", words::kEdgeMm, words::kEdgeHelp, &size.edge_mm, 0, 200, 3);
    return;
  }
  size.edge_mm = 0;
  ui.decimal("border-mm", words::kBorderMm, words::kBorderHelp, &size.border_mm, 0, 1000, 0);
  ui.decimal("mat-mm", words::kMatMm, words::kMatHelp, &size.mat_mm, 0, 1000, 0);
  const bool room = size.border_mm >= print::kLeastBorderToSign;
  ui.toggle("signature", words::kSignature, words::kSignatureHelp, &size.signature_line, room);
  size.signature_line = size.signature_line && room;
}

void draw_house(App& app) {
  Ui& ui = app.ui;
  ui.section(words::kHouse);
  double cm = app.recipe.now.limits.maximum_side_mm / 10;
  if (ui.decimal("house-side", words::kHouseSide, words::kHouseSideHelp, &cm, 1, 2000, 500))
    app.recipe.now.limits.maximum_side_mm = cm * 10;
  double megabytes = app.recipe.now.limits.largest_file_bytes / 1e6;
  if (ui.decimal("house-bytes", words::kHouseBytes, words::kHouseBytesHelp, &megabytes, 0.1, 1e6,
                 2000))
    app.recipe.now.limits.largest_file_bytes = megabytes * 1e6;
}

void draw_plan(App& app) {
  Ui& ui = app.ui;
  const auto found = print_plan(app);
  if (!found) return ui.words(Face::bold, found.error().message);
  const print::PrintPlan& plan = found.value();
  ui.words(Face::body, text(words::kSheetWords, plan.width_mm / 10, plan.height_mm / 10,
                            plan.sheet_width_mm / 10, plan.sheet_height_mm / 10, plan.sheet_width,
                            plan.sheet_height));
  if (plan.reading_distance_mm > 0)
    ui.help(text(words::kOwnPixels, plan.effective_ppi, plan.reading_distance_mm / 10));
  for (const std::string& warning : plan.warnings) ui.words(Face::body, warning);
}

void draw_sharpening(App& app) {
  Ui& ui = app.ui;
  Recipe& recipe = app.recipe.now;
  print::Sharpening& s = recipe.sharpening;
  const print::Sharpening usual;
  ui.space(k16);
  ui.words(Face::bold, words::kSurface);
  recipe.surface = print::PaperClass(ui.options(
      "surface", words::kSurface, {words::kGloss, words::kBaryta, words::kMatte, words::kCanvas},
      int(recipe.surface)));
  ui.help(words::kSurfaceHelp);
  ui.toggle("sharpen", words::kSharpen, words::kSharpenHelp, &s.on);
  if (!s.on) return;
  ui.amount("sharpen-amount", words::kSharpenAmount, words::kSharpenAmountHelp, &s.amount, 0, 3,
            usual.amount);
  ui.amount("sharpen-radius", words::kSharpenRadius, words::kSharpenRadiusHelp, &s.radius_mm, 0.02,
            1, usual.radius_mm);
  ui.amount("sharpen-threshold", words::kSharpenThreshold, words::kSharpenThresholdHelp,
            &s.threshold, 0, 10, usual.threshold);
  ui.amount("sharpen-halo", words::kSharpenHalo, words::kSharpenHaloHelp, &s.halo, 0, 20,
            usual.halo);
}

void draw_grain(App& app) {
  Ui& ui = app.ui;
  print::Grain& g = app.recipe.now.grain;
  const print::Grain usual;
  ui.toggle("grain", words::kGrain, words::kGrainHelp, &g.on);
  if (!g.on) return;
  ui.amount("grain-size", words::kGrainSize, words::kGrainSizeHelp, &g.size_mm, 0.02, 2,
            usual.size_mm);
  ui.amount("grain-dark", words::kGrainDark, words::kGrainAmountHelp, &g.shadows, 0, 10,
            usual.shadows);
  ui.amount("grain-middle", words::kGrainMiddle, words::kGrainAmountHelp, &g.mids, 0, 10,
            usual.mids);
  ui.amount("grain-light", words::kGrainLight, words::kGrainAmountHelp, &g.highlights, 0, 10,
            usual.highlights);
  int seed = int(g.seed);
  ui.number("grain-seed", words::kGrainSeed, words::kGrainSeedHelp, &seed, 1, 999999, 1);
  g.seed = uint32_t(seed);
}

}  // namespace

void draw_size_leaf(App& app) {
  Ui& ui = app.ui;
  if (app.job.master.file == 0) return ui.words(Face::body, words::kNoMaster);
  Recipe& recipe = app.recipe.now;
  ui.toggle("sized", words::kSized, words::kSizedHelp, &recipe.sized);
  if (recipe.sized && !recipe.size.width_mm && !recipe.size.height_mm) {
    // A first size that changes as little as can be: the master's own pixels at 300 to the inch.
    recipe.size.width_mm = std::clamp(std::round(app.job.master.width / 300.0 * 25.4), 10.0, 2e4);
  }
  draw_plan(app);
  ui.toggle("wall", words::kWall, words::kWallHelp, &app.wall.on);
  if (app.wall.on)
    ui.decimal("person-cm", words::kPerson, words::kPersonHelp, &app.wall.person_cm, 50, 250, 170);
  if (recipe.sized) {
    draw_sides(app);
    draw_crop(app, recipe.size.crop);
    draw_around_picture(app);
    draw_house(app);
  }
  draw_sharpening(app);
  draw_grain(app);
  draw_sample(app);
}

// The crop's frame, while its leaf is open.
void draw_crop_frame(App& app) {
  if (app.job.leaf != Leaf::size || !app.recipe.now.sized || app.choice.open || app.wall.on) return;
  const auto plan = print_plan(app);
  if (!plan) return;
  const double w = app.job.master.width, h = app.job.master.height;
  const print::PixelRect& crop = plan.value().crop;
  if (crop.width >= app.job.master.width && crop.height >= app.job.master.height) return;
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  for (const Pane& pane : panes(app)) {
    const Rect at = picture_place(app, pane);
    const ImVec2 from{at.x + float(crop.x / w) * at.w, at.y + float(crop.y / h) * at.h};
    const ImVec2 to{from.x + float(crop.width / w) * at.w, from.y + float(crop.height / h) * at.h};
    list->PushClipRect(pane.rect.min(), pane.rect.max(), true);
    list->AddRect({from.x - 1, from.y - 1}, {to.x + 1, to.y + 1}, grey::kPale, 0, 0, 3);
    list->AddRect(from, to, grey::kInk, 0, 0, 1);
    list->PopClipRect();
  }
}

std::string size_summary(const App& app) {
  std::string said = words::kSizeOwn;
  if (app.recipe.now.sized) {
    const auto plan = print_plan(app);
    if (plan)
      said = text(words::kSizeSummary, plan.value().width_mm / 10, plan.value().height_mm / 10,
                  plan.value().ppi);
  }
  if (app.recipe.now.sharpening.on) said += words::kSharpened;
  if (app.recipe.now.grain.on) said += words::kGrained;
  return said;
}

}  // namespace proofleaf::shell
