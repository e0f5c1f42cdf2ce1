// A piece of the print, pixel for pixel, without and with what is done at the print's own scale.
#include <GLES3/gl3.h>

#include <algorithm>
#include <cmath>

#include "app.h"
#include "json_read.h"
#include "print/ranges.h"
#include "proof/words.h"
#include "recipe_panel.h"
#include "words.h"
#include "words_recipe.h"

namespace proofleaf::shell {
namespace {

constexpr int kHigh = 220;   // [device pixels]
constexpr int kMost = 1024;  // [print pixels] a side of a piece

// Print pixels that fill so many of the screen's.
int print_pixels(const App& app, int device_pixels) {
  const Sample& sample = app.recipe.sample;
  const auto plan = print_plan(app);
  if (!sample.true_size || app.screen.pixels_per_mm <= 0 || !plan) return device_pixels;
  const double each = print::kMmPerInch / plan.value().ppi * app.screen.pixels_per_mm;
  return std::clamp(int(device_pixels / each), 1, kMost);
}

// The place in the middle of the view.
double held(double share) { return std::round(std::clamp(share, 0.0, 1.0) * 1000) / 1000; }

Json sample_request(const App& app) {
  Json request{
      {"op", "sample"},
      {"assume", app.job.master.assume},
      {"intent", word_for(app.job.print.intent)},
      {"black_point_compensation", app.job.print.black_point_compensation},
      {"paper_white", app.job.proof_view.paper_white},
      {"paper_black", app.job.proof_view.paper_black},
      {"screen", word_for(app.surroundings.display_p3 ? Screen::display_p3 : Screen::srgb)},
      {"ppi", app.job.delivery.ppi},
      {"x", held(app.job.view.x)},
      {"y", held(app.job.view.y)},
      {"width", print_pixels(app, app.recipe.sample.across)},
      {"height", print_pixels(app, kHigh)}};
  const Sample& sample = app.recipe.sample;
  if (sample.from_distance) request["distance_mm"] = sample.distance_cm * 10;
  if (sample.true_size) request["pixels_per_mm"] = app.screen.pixels_per_mm;
  request["recipe"] = json_of(app.recipe.now);
  return request;
}

std::string sample_key(const App& app) {
  const Recipe& recipe = app.recipe.now;
  const PaperState* paper = app.job.chosen_paper();
  const bool worth = recipe.sized || recipe.sharpening.on || recipe.grain.on;
  if (app.job.leaf != Leaf::size || !worth || !paper || app.recipe.sample.across == 0) return "";
  if (!print_plan(app)) return "";
  return std::to_string(app.job.master.version) + "/" + std::to_string(paper->file) + "/" +
         dump_json(sample_request(app)) + dump_json(screen_correction(app));
}

void put_texture(unsigned& texture, const std::vector<uint8_t>& rgba, uint32_t width,
                 uint32_t height) {
  if (texture == 0) glGenTextures(1, &texture);
  glBindTexture(GL_TEXTURE_2D, texture);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, GLsizei(width), GLsizei(height), 0, GL_RGBA,
               GL_UNSIGNED_BYTE, rgba.data());
  for (const GLenum filter : {GL_TEXTURE_MIN_FILTER, GL_TEXTURE_MAG_FILTER})
    glTexParameteri(GL_TEXTURE_2D, filter, GL_NEAREST);
  texture_changed();
}

}  // namespace

bool sample_wanted(const App& app) {
  const std::string key = sample_key(app);
  return !key.empty() && key != app.recipe.sample.key && !ImGui::IsAnyItemActive();
}

void ask_sample(App& app) {
  Task task;
  task.kind = TaskKind::sample;
  task.key = sample_key(app);
  task.since = now();
  std::vector<FileUse> files = master_files(app);
  files.push_back({"paper", app.job.chosen_paper()->file});
  task.work = app.host.start(dump_json(sample_request(app)), files);
  if (task.work > 0) app.tasks.push_back(std::move(task));
}

bool take_sample(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  Sample& sample = app.recipe.sample;
  const uint32_t width = count_of(json, "shown_width"), height = count_of(json, "shown_height");
  Bytes with = buffer_of(buffers, "with"), without = buffer_of(buffers, "without");
  if (with.size() != size_t{width} * height * 4 || without.size() != with.size()) return false;
  for (Bytes* bytes : {&with, &without}) correct_bytes(app, *bytes);
  put_texture(sample.with, with, width, height);
  put_texture(sample.without, without, width, height);
  sample.key = task.key;
  sample.trouble.clear();
  sample.width = width;
  sample.height = height;
  sample.ppi = number_of(json, "ppi");
  return true;
}

void drop_sample(App& app) {
  for (unsigned* texture : {&app.recipe.sample.with, &app.recipe.sample.without}) *texture = 0;
  app.recipe.sample.key.clear();
}

namespace {

// How the piece is to be looked at.
void draw_ways(App& app) {
  Ui& ui = app.ui;
  Sample& sample = app.recipe.sample;
  ui.toggle("from-distance", words::kFromDistance, words::kFromDistanceHelp, &sample.from_distance);
  if (sample.from_distance)
    ui.decimal("distance-cm", words::kDistance, words::kDistanceHelp, &sample.distance_cm, 10, 1000,
               40);
  const bool known = app.screen.pixels_per_mm > 0;
  if (known) ui.toggle("true-size", words::kTrueSize, words::kTrueSizeHelp, &sample.true_size);
  sample.true_size = sample.true_size && known;
  if (ui.button("measure-screen", known ? words::kMeasureAgain : words::kMeasureScreen, false)) {
    app.screen.measuring = true;
    app.screen.outline = 0;
  }
}

}  // namespace

// Both halves of one piece, at one print pixel to a device pixel.
void draw_sample(App& app) {
  Ui& ui = app.ui;
  Sample& sample = app.recipe.sample;
  const float ratio = ImGui::GetIO().DisplayFramebufferScale.x;
  const float wide = ui.width(), half = std::floor((wide - k4) / 2);
  sample.across = int(half * ratio);
  if (!app.recipe.now.sharpening.on && !app.recipe.now.grain.on && !app.recipe.now.sized) return;
  ui.section(words::kSample);
  draw_ways(app);
  if (!sample.trouble.empty()) return ui.words(Face::body, sample.trouble);
  if (sample.with == 0 || sample.width == 0) return ui.help(words::kSampleWaits);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const ImVec2 size{float(sample.width) / ratio, float(sample.height) / ratio};
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float right = at.x + half + k4;
  list->AddImage(ImTextureID(intptr_t(sample.without)), at, {at.x + size.x, at.y + size.y});
  list->AddImage(ImTextureID(intptr_t(sample.with)), {right, at.y},
                 {right + size.x, at.y + size.y});
  ImGui::Dummy({wide, size.y});
  ui.note("sample", words::kSample);
  ui.help(words::kSampleHelp);
  const double times = sample.ppi > 0 ? sample.ppi / (96.0 * ratio) : 1;
  ui.help(sample.true_size ? words::kSampleTrue : text(words::kSampleTimes, times));
}

}  // namespace proofleaf::shell
