// The gamut cut at one lightness, and as a solid to turn.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "app.h"
#include "chart.h"
#include "json_read.h"
#include "proof/words.h"
#include "words_choice.h"

namespace proofleaf::shell {
namespace {

constexpr float kChartHigh = 320;
constexpr float kTurnStep = 0.12f;  // [rad] a key press
constexpr float kMostTilt = 1.45f;

using Outline = std::vector<std::array<double, 2>>;

const Outline& cut_of(Card& card, double lightness) {
  if (card.cut_at != lightness) {
    card.cut = gamut_slice(card.mesh, lightness);
    card.cut_at = lightness;
  }
  return card.cut;
}

// How far the outline reaches from neutral towards a hue; 0 where it does not.
double reach(const Outline& outline, double degrees) {
  const double c = std::cos(degrees * std::numbers::pi / 180);
  const double s = std::sin(degrees * std::numbers::pi / 180);
  double far = 0;
  for (size_t i = 0; i < outline.size(); ++i) {
    const auto &p = outline[i], &q = outline[(i + 1) % outline.size()];
    // Across the ray and along it.
    const double p_off = p[1] * c - p[0] * s, q_off = q[1] * c - q[0] * s;
    if ((p_off > 0) == (q_off > 0)) continue;
    const double t = p_off / (p_off - q_off);
    far = std::max(far, (p[0] + t * (q[0] - p[0])) * c + (p[1] + t * (q[1] - p[1])) * s);
  }
  return far;
}

struct Beside {
  std::string key, name;
};

// What may be set beside the paper: sRGB, and each other paper.
std::vector<Beside> besides(const App& app) {
  std::vector<Beside> all = {{"srgb", "sRGB"}};
  const PaperState* chosen = app.job.chosen_paper();
  for (const PaperState& paper : app.job.papers)
    if (&paper != chosen && card_key(paper) != "srgb") all.push_back({card_key(paper), paper.name});
  return all;
}

std::string beside_name(const App& app) {
  for (const Beside& each : besides(app))
    if (each.key == app.choice.beside) return each.name;
  return "";
}

void choose_beside(App& app) {
  const auto all = besides(app);
  const auto found = std::find_if(
      all.begin(), all.end(), [&](const Beside& each) { return each.key == app.choice.beside; });
  if (found == all.end()) app.choice.beside = all.front().key;
  app.ui.help(text(words::kSliceBeside, app.job.chosen_paper()->name.c_str()));
  const float end = ImGui::GetCursorScreenPos().x + app.ui.width();
  for (size_t i = 0; i < all.size(); ++i) {
    const float wide = app.look.measure(Face::small, all[i].name).x + 2 * k8;
    if (i > 0 && ImGui::GetItemRectMax().x + k4 + wide < end) ImGui::SameLine(0, k4);
    if (app.ui.word_button("beside-" + all[i].key, all[i].name, app.choice.beside == all[i].key))
      app.choice.beside = all[i].key;
  }
}

std::string chroma_words(double reach) {
  return reach > 0 ? text("%.0f", reach) : std::string(words::kSliceNothing);
}

// Turned so that a* points right and b* away at first; then tilted towards the viewer.
struct Turned {
  float sin_turn, cos_turn, sin_tilt, cos_tilt;
  ImVec2 middle;
  float scale;
  explicit Turned(const Choice& choice)
      : sin_turn(std::sin(choice.turn)),
        cos_turn(std::cos(choice.turn)),
        sin_tilt(std::sin(choice.tilt)),
        cos_tilt(std::cos(choice.tilt)),
        scale(1) {}
  float right(float a, float b) const { return a * cos_turn - b * sin_turn; }
  float away(float a, float b) const { return a * sin_turn + b * cos_turn; }
  ImVec2 at(float l, float a, float b) const {
    return {middle.x + scale * right(a, b),
            middle.y - scale * ((l - 50) * cos_tilt + away(a, b) * sin_tilt)};
  }
  // Greater is nearer to the viewer.
  float near(float l, float a, float b) const {
    return (l - 50) * sin_tilt - away(a, b) * cos_tilt;
  }
};

struct Facet {
  float near;
  uint32_t first;  // in the mesh's triangles
};

// The triangles that face the viewer, the farthest first.
std::vector<Facet> facing(const GamutMesh& mesh, const Turned& turned) {
  std::vector<Facet> facets;
  const float* v = mesh.vertices.data();
  // Towards the viewer, in L*, a*, b*.
  const float d[3] = {turned.sin_tilt, -turned.sin_turn * turned.cos_tilt,
                      -turned.cos_turn * turned.cos_tilt};
  for (size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
    const float *p = v + mesh.triangles[i] * 3, *q = v + mesh.triangles[i + 1] * 3,
                *r = v + mesh.triangles[i + 2] * 3;
    const float e[3] = {q[0] - p[0], q[1] - p[1], q[2] - p[2]};
    const float f[3] = {r[0] - p[0], r[1] - p[1], r[2] - p[2]};
    const float facing_by = d[0] * (e[1] * f[2] - e[2] * f[1]) +
                            d[1] * (e[2] * f[0] - e[0] * f[2]) + d[2] * (e[0] * f[1] - e[1] * f[0]);
    if (facing_by <= 0) continue;
    const float near = turned.near(p[0] + q[0] + r[0], p[1] + q[1] + r[1], p[2] + q[2] + r[2]);
    facets.push_back({near, uint32_t(i)});
  }
  std::sort(facets.begin(), facets.end(),
            [](const Facet& one, const Facet& two) { return one.near < two.near; });
  return facets;
}

ImU32 mean_colour(const GamutMesh& mesh, const uint32_t* corner) {
  int sum[3] = {};
  for (int c = 0; c < 3; ++c)
    for (int k = 0; k < 3; ++k) sum[c] += mesh.colours[corner[k] * 4 + size_t(c)];
  return IM_COL32(sum[0] / 3, sum[1] / 3, sum[2] / 3, 255);
}

// Without soft edges: they would show the seams between triangles.
void fill_facets(ImDrawList* list, const GamutMesh& mesh, const Turned& turned) {
  const std::vector<Facet> facets = facing(mesh, turned);
  const ImVec2 white = ImGui::GetIO().Fonts->TexUvWhitePixel;
  constexpr size_t kMost = 12000;  // three vertices each, of the 65536 a draw list takes
  for (size_t i = facets.size() > kMost ? facets.size() - kMost : 0; i < facets.size(); ++i) {
    const uint32_t* corner = &mesh.triangles[facets[i].first];
    const ImU32 colour = mean_colour(mesh, corner);
    list->PrimReserve(3, 3);
    for (int k = 0; k < 3; ++k) {
      const float* v = &mesh.vertices[size_t{corner[k]} * 3];
      list->PrimVtx(turned.at(v[0], v[1], v[2]), white, colour);
    }
  }
}

// The L* axis and, at its foot, a cross to a* and b* of 50.
void draw_axes(ImDrawList* list, const Turned& turned) {
  const auto line = [&](ImVec2 from, ImVec2 to) { list->AddLine(from, to, grey::kEdge, 1); };
  line(turned.at(0, 0, 0), turned.at(100, 0, 0));
  line(turned.at(0, -50, 0), turned.at(0, 50, 0));
  line(turned.at(0, 0, -50), turned.at(0, 0, 50));
}

void name_axes(const App& app, ImDrawList* list, const Turned& turned) {
  const std::pair<const char*, ImVec2> names[] = {{"L* 100", turned.at(104, 0, 0)},
                                                  {"a* 50", turned.at(0, 56, 0)},
                                                  {"b* 50", turned.at(0, 0, 56)}};
  for (const auto& [name, at] : names)
    app.look.put(
        list, Face::small,
        {at.x - app.look.measure(Face::small, name).x / 2, at.y - app.look.size(Face::small) / 2},
        grey::kFaintInk, name);
}

void turn_solid(App& app, const Ui::Item& it, bool keys) {
  Choice& choice = app.choice;
  if (it.held && ImGui::IsMouseDragging(0, 0)) {
    const ImVec2 moved = ImGui::GetIO().MouseDelta;
    choice.turn += moved.x * 0.01f;
    choice.tilt += moved.y * 0.01f;
  }
  if (keys) {
    choice.turn += float(choice.steps_x) * kTurnStep;
    choice.tilt += float(choice.steps_y) * kTurnStep;
    if (choice.steps_x != 0 || choice.steps_y != 0) app.host.request_frame();
  }
  choice.tilt = std::clamp(choice.tilt, -kMostTilt, kMostTilt);
  choice.turn = std::remainder(choice.turn, float(2 * std::numbers::pi));
}

}  // namespace

void draw_slice(App& app, Card& card, float wide) {
  const double lightness = app.choice.cut_lightness;
  const Outline& own = cut_of(card, lightness);
  Card* beside = card_for(app, app.choice.beside);
  const Outline other = beside ? cut_of(*beside, lightness) : Outline{};
  Chart chart;
  chart.id = "chart-slice";
  chart.title = words::kChartSlice;
  chart.x = {-100, 100, 50, "a*"};
  chart.y = {-100, 100, 50, "b*"};
  chart.equal = true;
  chart.lines = {{{{-200, 0}, {200, 0}}, false, true, false},
                 {{{0, -200}, {0, 200}}, false, true, false},
                 {other, true, false, true},
                 {own, false, false, true}};
  chart.last = 358;
  chart.step = 2;
  chart.value_at = [](double a, double b) {
    const double degrees = std::atan2(b, a) * 180 / std::numbers::pi;
    return degrees < 0 ? degrees + 360 : degrees;
  };
  const std::string name = beside_name(app);
  chart.read = [&, name](double hue) {
    std::string said = text(words::kSliceRead, hue, chroma_words(reach(own, hue)).c_str());
    if (!other.empty())
      said += text(words::kSliceReadBeside, name.c_str(), chroma_words(reach(other, hue)).c_str());
    return said;
  };
  chart.mark = [](double hue) {
    const double angle = hue * std::numbers::pi / 180;
    return ChartLine{{{0, 0}, {200 * std::cos(angle), 200 * std::sin(angle)}}, true, true, false};
  };
  draw_chart(app, chart, wide, kChartHigh + 40);
  if (own.empty()) app.ui.help(words::kSliceEmpty);
  app.ui.number("cut-lightness", words::kSliceLightness, words::kSliceLightnessHelp,
                &app.choice.cut_lightness, 5, 95, 50);
  choose_beside(app);
}

void draw_solid(App& app, const Card& card, float wide) {
  const Choice& choice = app.choice;
  if (card.mesh.triangles.empty()) return app.ui.help(words::kSolidNone);
  const double degrees = 180 / std::numbers::pi;
  const std::string spoken = text(words::kSolidSpoken, std::round(choice.turn * degrees),
                                  std::round(choice.tilt * degrees)) +
                             words::kSolidHelp;
  const float high = kChartHigh + 40;
  const Ui::Item it = app.ui.item("solid", wide, high, spoken);
  if (!ImGui::IsItemVisible()) return app.ui.help(words::kSolidHelp);
  turn_solid(app, it, chart_has_keys(app, "solid", spoken));
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float head = app.look.size(Face::bold) + k8;
  app.look.put(list, Face::bold, it.rect.min(), grey::kInk, words::kSolid);
  const Rect box{it.rect.x, it.rect.y + head, it.rect.w, it.rect.h - head};
  list->AddRectFilled(box.min(), box.max(), grey::kField);
  list->PushClipRect(box.min(), box.max(), true);
  Turned turned(choice);
  turned.middle = {box.x + box.w / 2, box.y + box.h / 2};
  turned.scale = std::min(box.w / 230, box.h / 150);
  draw_axes(list, turned);
  fill_facets(list, card.mesh, turned);
  name_axes(app, list, turned);
  list->PopClipRect();
  list->AddRect(box.min(), box.max(), grey::kEdge);
  app.ui.help(words::kSolidHelp);
}

}  // namespace proofleaf::shell
