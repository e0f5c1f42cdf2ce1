#include "look.h"

#include <algorithm>
#include <cmath>

#include "backends/imgui_impl_opengl3.h"
#include "drawn.h"

namespace proofleaf::shell {
namespace {

// Em sizes [CSS px] and which of the two faces.
struct FaceSize {
  float em;
  bool bold;
};
constexpr FaceSize kFaces[] = {{13, false}, {15, false}, {15, true}, {18, true}, {24, false}};
// Dear ImGui's size is ascent + descent; in Inter that is 1.21 em (its hhea table).
constexpr float kLineOverEm = 1.21f;

const ImWchar kTextGlyphs[] = {0x20,   0x24F,  0x370,  0x52F,  0x1E00, 0x1EFF, 0x2010, 0x2044,
                               0x20AC, 0x20AC, 0x2122, 0x2122, 0x2212, 0x2212, 0};
const ImWchar kHeadingGlyphs[] = {0x20, 0x17F, 0x2010, 0x2026, 0x2212, 0x2212, 0};

ImVec4 colour(ImU32 packed) { return ImGui::ColorConvertU32ToFloat4(packed); }

void style_colours(ImGuiStyle& style) {
  for (ImVec4& each : style.Colors) each = colour(grey::kField);
  auto set = [&](ImGuiCol which, ImU32 packed) { style.Colors[which] = colour(packed); };
  set(ImGuiCol_Text, grey::kInk);
  set(ImGuiCol_TextDisabled, grey::kFaintInk);
  set(ImGuiCol_WindowBg, grey::kSheet);
  set(ImGuiCol_PopupBg, grey::kSheet);
  set(ImGuiCol_Border, grey::kEdge);
  set(ImGuiCol_FrameBg, grey::kField);
  set(ImGuiCol_ScrollbarGrab, grey::kEdge);
  set(ImGuiCol_ScrollbarGrabHovered, grey::kFaintInk);
  set(ImGuiCol_ScrollbarGrabActive, grey::kInk);
  set(ImGuiCol_SliderGrab, grey::kFaintInk);
  set(ImGuiCol_SliderGrabActive, kAccent);
  set(ImGuiCol_TextSelectedBg, grey::kHairline);
  style.Colors[ImGuiCol_ChildBg] = style.Colors[ImGuiCol_ScrollbarBg] = ImVec4(0, 0, 0, 0);
  style.Colors[ImGuiCol_NavHighlight] = style.Colors[ImGuiCol_BorderShadow] =
      style.Colors[ImGuiCol_NavWindowingHighlight] = style.Colors[ImGuiCol_NavWindowingDimBg] =
          ImVec4(0, 0, 0, 0);
}

}  // namespace

Look::Look(std::vector<uint8_t> face, std::vector<uint8_t> bold_face)
    : face_(std::move(face)), bold_face_(std::move(bold_face)) {
  ImGuiStyle& style = ImGui::GetStyle();
  style_colours(style);
  style.WindowBorderSize = 0;
  style.FrameBorderSize = 1;
  style.WindowRounding = kRound;
  style.FrameRounding = 4;
  style.GrabRounding = 4;
  style.ScrollbarSize = 8;
  style.ScrollbarRounding = 4;
  style.WindowPadding = {0, 0};
  style.ItemSpacing = {k8, k8};
  style.WindowMinSize = {8, 8};
  set_touch(false);
}

void Look::set_touch(bool touch) {
  touch_ = touch;
  ImGuiStyle& style = ImGui::GetStyle();
  style.FramePadding = {k8, (target() - std::round(15 * kLineOverEm)) / 2};
  style.GrabMinSize = touch ? 28.f : 18.f;
}

void Look::follow(float ratio) {
  ratio_ = ratio;
  if (std::fabs(ratio / font_ratio_ - 1) < 0.01f) return;  // a resize wobbles by a pixel
  font_ratio_ = ratio;
  ImGuiIO& io = ImGui::GetIO();
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  io.Fonts->Clear();
  for (int i = 0; i < 5; ++i) {
    std::vector<uint8_t>& bytes = kFaces[i].bold && !bold_face_.empty() ? bold_face_ : face_;
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    config.OversampleH = ratio < 1.5f ? 2 : 1;
    const float pixels = std::round(kFaces[i].em * kLineOverEm * ratio);
    fonts_[i] = bytes.empty() ? io.Fonts->AddFontDefault()
                              : io.Fonts->AddFontFromMemoryTTF(
                                    bytes.data(), int(bytes.size()), pixels, &config,
                                    kFaces[i].em < 16 ? kTextGlyphs : kHeadingGlyphs);
  }
  io.FontDefault = fonts_[int(Face::body)];
  io.FontGlobalScale = 1 / ratio;
  ImGui_ImplOpenGL3_CreateFontsTexture();
  texture_changed();
}

void Look::rebuild() {
  ImGui_ImplOpenGL3_DestroyDeviceObjects();
  ImGui_ImplOpenGL3_CreateDeviceObjects();
}

float Look::size(Face face) const { return font(face)->FontSize / font_ratio_; }

float Look::line_width(Face face, const char* begin, const char* end) const {
  return font(face)->CalcTextSizeA(size(face), 1e6f, 0, begin, end).x;
}

// Dear ImGui would also break after a full stop, and so tear numbers and file names apart.
std::string Look::broken(Face face, const std::string& words, float wrap) const {
  if (wrap <= 0) return words;
  std::string result = words;
  size_t line = 0, last_space = std::string::npos;
  for (size_t i = 0; i <= result.size(); ++i) {
    if (i < result.size() && result[i] != ' ') continue;
    if (last_space != std::string::npos && last_space > line &&
        line_width(face, &result[line], result.data() + i) > wrap) {
      result[last_space] = '\n';
      line = last_space + 1;
    }
    last_space = i;
  }
  return result;
}

ImVec2 Look::measure(Face face, const std::string& words, float wrap) const {
  const std::string lines = broken(face, words, wrap);
  const ImVec2 raw =
      font(face)->CalcTextSizeA(size(face), 1e6f, wrap, lines.data(), lines.data() + lines.size());
  return {std::ceil(raw.x), std::ceil(raw.y)};
}

void Look::put(ImDrawList* list, Face face, ImVec2 at, ImU32 packed, const std::string& words,
               float wrap) const {
  texts.push_back(words);
  const std::string lines = broken(face, words, wrap);
  list->AddText(font(face), size(face), {std::round(at.x), std::round(at.y)}, packed, lines.data(),
                lines.data() + lines.size(), wrap);
}

void Look::put_clipped(ImDrawList* list, Face face, ImVec2 at, float width, ImU32 packed,
                       const std::string& words) const {
  if (measure(face, words).x <= width) return put(list, face, at, packed, words);
  std::string shorter = words;
  while (!shorter.empty()) {
    do shorter.pop_back();
    while (!shorter.empty() && (uint8_t(shorter.back()) & 0xC0) == 0x80);
    if (!shorter.empty() && uint8_t(shorter.back()) >= 0xC0) shorter.pop_back();
    if (measure(face, shorter + "…").x <= width) break;
  }
  put(list, face, at, packed, shorter + "…");
}

void draw_slip(ImDrawList* list, const Rect& rect) {
  list->AddRectFilled({rect.x, rect.y + 1}, {rect.right(), rect.bottom() + 1}, grey::kTableLine,
                      kRound);
  list->AddRectFilled(rect.min(), rect.max(), grey::kSheet, kRound);
}

std::string lower_first(std::string words) {
  if (!words.empty() && words[0] >= 'A' && words[0] <= 'Z') words[0] = char(words[0] + 32);
  return words;
}

std::string signed_number(double value) {
  const std::string digits = text("%.1f", std::fabs(value));
  return value < 0 && digits != text("%.1f", 0.0) ? "−" + digits : digits;
}

}  // namespace proofleaf::shell
