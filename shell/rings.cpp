// Where the print differs from the master: rings over the proof, their legend, the worst places.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app.h"
#include "json_read.h"
#include "proof/words.h"
#include "words_choice.h"

namespace proofleaf::shell {
namespace {

constexpr size_t kMostWorst = 5;
constexpr double kLeastWorst = 1;                  // [dE00] less is not worth a visit
constexpr float kLegend[] = {1, 2.5f, 5, 10, 20};  // [dE00]

// Means of blocks, each about 1/48 of the long side, so that single odd pixels do not count.
std::vector<WorstPlace> block_means(const Differences& all) {
  const uint32_t w = all.width, h = all.height;
  const uint32_t side = std::max(1u, std::max(w, h) / 48);
  std::vector<WorstPlace> blocks;
  for (uint32_t top = 0; top < h; top += side)
    for (uint32_t left = 0; left < w; left += side) {
      const uint32_t right = std::min(w, left + side), bottom = std::min(h, top + side);
      double sum = 0;
      for (uint32_t y = top; y < bottom; ++y)
        for (uint32_t x = left; x < right; ++x) sum += all.tenths[size_t{y} * w + x];
      const double count = double(right - left) * (bottom - top);
      blocks.push_back({(left + right) / 2.0 / w, (top + bottom) / 2.0 / h, sum / count / 10});
    }
  return blocks;
}

// The worst blocks that lie apart from each other.
std::vector<WorstPlace> worst_places(const Differences& all) {
  std::vector<WorstPlace> blocks = block_means(all), found;
  std::sort(blocks.begin(), blocks.end(),
            [](const WorstPlace& p, const WorstPlace& q) { return p.delta_e > q.delta_e; });
  for (const WorstPlace& block : blocks) {
    if (found.size() == kMostWorst || block.delta_e < kLeastWorst) break;
    const bool near = std::any_of(found.begin(), found.end(), [&](const WorstPlace& other) {
      return std::hypot(block.x - other.x, block.y - other.y) < 0.15;
    });
    if (!near) found.push_back(block);
  }
  return found;
}

void draw_ring(ImDrawList* list, float x, float y, float delta_e) {
  const float radius = ring_radius(delta_e);
  list->AddCircle({x, y}, radius, grey::kInk, 24, 2.4f);
  list->AddCircle({x, y}, radius, grey::kPale, 24, 1.1f);
}

// Rings on patches of the table's grey, as they look on a picture.
void legend_rings(const App& app, ImDrawList* list, float x, float y) {
  for (const float delta_e : kLegend) {
    const std::string said = text("%g", double(delta_e));
    list->AddRectFilled({x, y - 8}, {x + 16, y + 8}, grey::kTable, 3);
    draw_ring(list, x + 8, y, delta_e);
    app.look.put(list, Face::small, {x + 20, y - app.look.size(Face::small) / 2}, grey::kInk, said);
    x += 20 + app.look.measure(Face::small, said).x + k12;
  }
}

float legend_width(const App& app) {
  float wide = 0;
  for (const float delta_e : kLegend)
    wide += 20 + app.look.measure(Face::small, text("%g", double(delta_e))).x + k12;
  return wide - k12;
}

std::string part_of_picture(const WorstPlace& place) {
  const char* across = place.x < 0.36 ? "left" : place.x > 0.64 ? "right" : "middle";
  const char* down = place.y < 0.36 ? "upper" : place.y > 0.64 ? "lower" : "";
  if (*down == 0) return across;
  return text("%s %s", down, across);
}

// Rings are true only for the settings they were found for.
bool rings_known(const App& app) {
  const Differences& found = app.choice.differences;
  return app.choice.rings && !found.tenths.empty() && found.key == differences_key(app);
}

void worst_list(App& app) {
  const auto& worst = app.choice.differences.worst;
  if (worst.empty()) return;
  app.ui.space(k8);
  app.ui.words(Face::bold, words::kWorst);
  app.ui.help(words::kWorstHelp);
  for (size_t i = 0; i < worst.size(); ++i) {
    const std::string where = part_of_picture(worst[i]);
    const std::string said = worst[i].delta_e > 25
                                 ? text(words::kWorstPlaceMost, where.c_str())
                                 : text(words::kWorstPlace, worst[i].delta_e, where.c_str());
    if (app.ui.choice(text("worst-%d", int(i)), said, "", false))
      go_to(app, worst[i].x, worst[i].y);
  }
}

void rings_details(App& app) {
  Ui& ui = app.ui;
  const Choice& choice = app.choice;
  const std::string key = differences_key(app);
  if (key.empty()) return ui.help(words::kRingsNeed);
  if (!choice.facts_trouble.empty()) return ui.words(Face::body, choice.facts_trouble);
  if (choice.differences.key == key && !choice.differences.trouble.empty())
    return ui.words(Face::body, choice.differences.trouble);
  if (!rings_known(app)) return ui.help(words::kRingsWait);
  ui.help(words::kRingsLegend);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  legend_rings(app, ImGui::GetWindowDrawList(), at.x, at.y + k12);
  ImGui::Dummy({legend_width(app), k24});
  worst_list(app);
}

}  // namespace

std::string differences_key(const App& app) {
  const PaperState* paper = app.job.chosen_paper();
  if (!paper || app.preview.empty()) return "";
  const PrintIntent& print = app.job.print;
  return text("%d/%d/%s/%d", app.job.master.version, paper->file, word_for(print.intent),
              print.intent != Intent::absolute && print.black_point_compensation ? 1 : 0);
}

bool rings_shown(const App& app) { return !app.choice.open && rings_known(app); }

bool take_difference(App& app, const Task& task, const Json& json, std::vector<Buffer>& buffers) {
  Differences found;
  found.key = task.key;
  const Json* size = member(json, "difference");
  if (text_of(json, "kind") != "difference" || !size) return false;
  found.width = count_of(*size, "width");
  found.height = count_of(*size, "height");
  found.tenths = buffer_of(buffers, "difference");
  if (found.tenths.empty() || uint64_t{found.width} * found.height != found.tenths.size())
    return false;
  found.worst = worst_places(found);
  app.choice.differences = std::move(found);
  app.choice.rings_sent = false;
  return true;
}

void draw_rings(App& app) {
  if (!rings_shown(app)) return;
  const Differences& found = app.choice.differences;
  if (!std::exchange(app.choice.rings_sent, true))
    app.rings_gl.upload(found.tenths, found.width, found.height);
  app.rings_gl.begin(app.layout.width, app.layout.height, app.look.ratio());
  for (const Pane& pane : panes(app)) {
    if (!pane.proof) continue;
    const Rect place = picture_place(app, pane);
    const float left = std::max(pane.master ? divider_x(app, pane) : pane.rect.x, place.x);
    const float top = std::max(pane.rect.y, place.y);
    app.rings_gl.draw(place, {left, top, std::min(pane.rect.right(), place.right()) - left,
                              std::min(pane.rect.bottom(), place.bottom()) - top});
  }
  app.rings_gl.end();
}

void draw_rings_legend(App& app) {
  if (!rings_shown(app)) return;
  const Rect& stage = app.layout.stage;
  const std::string title = words::kRingsLegend;
  const float title_wide = app.look.measure(Face::small, title).x;
  const bool one_line = title_wide + legend_width(app) + 3 * k12 < stage.w;
  const float wide = one_line ? title_wide + legend_width(app) + 3 * k12
                              : std::max(title_wide, legend_width(app)) + 2 * k12;
  const float high = one_line ? 28.f : 46.f;
  const Rect slip{stage.right() - wide, stage.y, wide, high};
  ImDrawList* list = ImGui::GetBackgroundDrawList();
  draw_slip(list, slip);
  app.look.put(list, Face::small, {slip.x + k12, slip.y + 6}, grey::kInk, title);
  legend_rings(app, list, slip.x + k12 + (one_line ? title_wide + k12 : 0), slip.bottom() - 14);
  app.ui.rects["rings-legend"] = slip;
}

void draw_rings_controls(App& app) {
  app.ui.toggle("rings", words::kRings, words::kRingsHelp, &app.choice.rings);
  if (app.choice.rings) rings_details(app);
}

}  // namespace proofleaf::shell
